/**
 * The steps of a tape over arrays of trials, one small loop each. An array that is written to may be one that is read.
 */

export function addBoth(out: Float64Array, left: Float64Array, right: Float64Array): void {
  for (let at = 0; at < out.length; at += 1) out[at] = (left[at] as number) + (right[at] as number);
}

export function addNumber(out: Float64Array, left: Float64Array, right: number): void {
  for (let at = 0; at < out.length; at += 1) out[at] = (left[at] as number) + right;
}

export function subtractBoth(out: Float64Array, left: Float64Array, right: Float64Array): void {
  for (let at = 0; at < out.length; at += 1) out[at] = (left[at] as number) - (right[at] as number);
}

export function subtractFrom(out: Float64Array, left: number, right: Float64Array): void {
  for (let at = 0; at < out.length; at += 1) out[at] = left - (right[at] as number);
}

export function multiplyBoth(out: Float64Array, left: Float64Array, right: Float64Array): void {
  for (let at = 0; at < out.length; at += 1) out[at] = (left[at] as number) * (right[at] as number);
}

export function multiplyNumber(out: Float64Array, left: Float64Array, right: number): void {
  for (let at = 0; at < out.length; at += 1) out[at] = (left[at] as number) * right;
}

export function divideBoth(out: Float64Array, left: Float64Array, right: Float64Array): void {
  for (let at = 0; at < out.length; at += 1) out[at] = (left[at] as number) / (right[at] as number);
}

export function divideByNumber(out: Float64Array, left: Float64Array, right: number): void {
  for (let at = 0; at < out.length; at += 1) out[at] = (left[at] as number) / right;
}

export function divideNumber(out: Float64Array, left: number, right: Float64Array): void {
  for (let at = 0; at < out.length; at += 1) out[at] = left / (right[at] as number);
}

export function squareRoot(out: Float64Array, argument: Float64Array): void {
  for (let at = 0; at < out.length; at += 1) out[at] = Math.sqrt(argument[at] as number);
}

export function power(out: Float64Array, base: Float64Array, exponent: number): void {
  for (let at = 0; at < out.length; at += 1) out[at] = (base[at] as number) ** exponent;
}

export function exponential(out: Float64Array, argument: Float64Array): void {
  for (let at = 0; at < out.length; at += 1) out[at] = Math.exp(argument[at] as number);
}

/** value + size * draw */
export function moved(out: Float64Array, value: number, size: number, draws: Float64Array): void {
  for (let at = 0; at < out.length; at += 1) out[at] = value + size * (draws[at] as number);
}

/** value + size * draw + otherSize * otherDraw */
export function movedByTwo(
  out: Float64Array,
  value: number,
  size: number,
  draws: Float64Array,
  otherSize: number,
  otherDraws: Float64Array,
): void {
  for (let at = 0; at < out.length; at += 1) {
    out[at] = value + (size * (draws[at] as number) + otherSize * (otherDraws[at] as number));
  }
}

/** out + size * draw */
export function movedFurther(out: Float64Array, size: number, draws: Float64Array): void {
  for (let at = 0; at < out.length; at += 1) out[at] = (out[at] as number) + size * (draws[at] as number);
}
