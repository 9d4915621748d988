/** Repeatable chance for invented readings. */
export class Chance {
  private state: number;

  constructor(seed: number) {
    this.state = (seed * 2_654_435_761 + 97) >>> 0;
    for (let i = 0; i < 5; i += 1) this.unit();
  }

  /** A number from 0 up to 1. */
  unit(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let mixed = this.state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.unit();
  }

  whole(low: number, high: number): number {
    return Math.floor(this.between(low, high + 1));
  }

  /** Normal, cut off at 2.5 standard deviations: a careful person repeats a run that went wilder. */
  normal(deviation: number): number {
    const drawn = Math.sqrt(-2 * Math.log(1 - this.unit())) * Math.cos(2 * Math.PI * this.unit());
    return Math.max(-2.5, Math.min(2.5, drawn)) * deviation;
  }

  /** A factor near 1 with this relative scatter. */
  factor(scatter: number): number {
    return Math.exp(this.normal(scatter));
  }

  pick<T>(values: readonly T[]): T {
    const value = values[Math.floor(this.unit() * values.length)];
    if (value === undefined) throw new Error("nothing to pick from");
    return value;
  }

  isTrue(probability: number): boolean {
    return this.unit() < probability;
  }
}
