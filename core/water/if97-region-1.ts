import type { GibbsTerm } from "./gibbs-energy.ts";

/** Temperature T* that region 1 divides by the temperature, K: tau = T* / T. */
export const REGION_1_TEMPERATURE_KELVIN = 1386;

/** Pressure p* that the pressure is divided by, kPa: pi = p / p*. */
export const REGION_1_PRESSURE_KILOPASCAL = 16_530;

/** Terms are powers of 7.1 - pi ... */
export const REGION_1_PRESSURE_SHIFT = 7.1;

/** ... and of tau - 1.222. */
export const REGION_1_TEMPERATURE_SHIFT = 1.222;

/**
 * Dimensionless Gibbs energy of liquid water, IAPWS-IF97, region 1: exponents I and J and coefficients n of the 34 terms
 * n (7.1 - pi)^I (tau - 1.222)^J.
 *
 * Source: IAPWS R7-97(2012), Table 2 and equation 7. Taken from published transcriptions of the table that agree with one
 * another, and checked by the release's own verification values (Table 5).
 */
export const REGION_1: readonly GibbsTerm[] = [
  [0, -2, 0.14632971213167],
  [0, -1, -0.84548187169114],
  [0, 0, -0.3756360367204e1],
  [0, 1, 0.33855169168385e1],
  [0, 2, -0.95791963387872],
  [0, 3, 0.15772038513228],
  [0, 4, -0.16616417199501e-1],
  [0, 5, 0.81214629983568e-3],
  [1, -9, 0.28319080123804e-3],
  [1, -7, -0.60706301565874e-3],
  [1, -1, -0.18990068218419e-1],
  [1, 0, -0.32529748770505e-1],
  [1, 1, -0.21841717175414e-1],
  [1, 3, -0.5283835796993e-4],
  [2, -3, -0.47184321073267e-3],
  [2, 0, -0.30001780793026e-3],
  [2, 1, 0.47661393906987e-4],
  [2, 3, -0.44141845330846e-5],
  [2, 17, -0.72694996297594e-15],
  [3, -4, -0.31679644845054e-4],
  [3, 0, -0.28270797985312e-5],
  [3, 6, -0.85205128120103e-9],
  [4, -5, -0.22425281908e-5],
  [4, -2, -0.65171222895601e-6],
  [4, 10, -0.14341729937924e-12],
  [5, -8, -0.40516996860117e-6],
  [8, -11, -0.12734301741641e-8],
  [8, -6, -0.17424871230634e-9],
  [21, -29, -0.68762131295531e-18],
  [23, -31, 0.14478307828521e-19],
  [29, -38, 0.26335781662795e-22],
  [30, -39, -0.11947622640071e-22],
  [31, -40, 0.18228094581404e-23],
  [32, -41, -0.93537087292458e-25],
];
