import { studentTCritical, studentTTwoSidedTail } from "./distribution/student-t.ts";
import type { Fit } from "./least-squares.ts";

/** A combination of a model's coefficients, in the unit of the values. */
export interface ContrastEstimate {
  readonly value: number;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly t: number | null;
  /** Two-sided. */
  readonly p: number | null;
  /** Why all but the value are missing. */
  readonly because: "no-degrees-of-freedom" | "no-scatter" | null;
}

/** A contrast of a fit's coefficients, with its t interval and test from the common residual. */
export function contrastOf(fit: Fit, contrast: readonly number[], confidence: number): ContrastEstimate {
  const value = contrast.reduce((sum, part, index) => sum + part * (fit.coefficients[index] ?? 0), 0);
  const missing = { value, standardError: null, lower: null, upper: null, t: null, p: null };
  const { residualDeviation, degreesOfFreedom } = fit;
  if (residualDeviation === null) return { ...missing, because: "no-degrees-of-freedom" };
  if (!fit.hasScatter) return { ...missing, because: "no-scatter" };
  const standardError = residualDeviation * fit.contrastLength(contrast);
  const t = value / standardError;
  const half = studentTCritical(confidence, degreesOfFreedom) * standardError;
  return {
    value,
    standardError,
    lower: value - half,
    upper: value + half,
    t,
    p: studentTTwoSidedTail(t, degreesOfFreedom),
    because: null,
  };
}
