/** Throws a RangeError unless every value is a finite number: the door has refused others, so one here is a programmer's error. */
export function requireFinite(values: readonly number[]): void {
  const wrong = values.findIndex((value) => !Number.isFinite(value));
  if (wrong >= 0) throw new RangeError(`Value ${wrong} is ${values[wrong]}: not a finite number.`);
}

/** Throws a RangeError unless a probability lies strictly between 0 and 1. */
export function requireProbability(name: string, probability: number): void {
  if (!(probability > 0 && probability < 1)) {
    throw new RangeError(`${name} is ${probability}: it must lie between 0 and 1.`);
  }
}
