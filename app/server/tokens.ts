import { newSecret, sameSecret } from "./secret.ts";

/** Addresses that can be used once. The oldest lapses when too many are open. */
export class OneTimeTokens {
  readonly #open: string[] = [];
  readonly #most: number;

  constructor(most = 8) {
    this.#most = most;
  }

  issue(): string {
    const token = newSecret();
    this.#open.push(token);
    if (this.#open.length > this.#most) this.#open.shift();
    return token;
  }

  /** True once for each token that was issued. */
  redeem(given: unknown): boolean {
    if (typeof given !== "string") return false;
    const index = this.#open.findIndex((token) => sameSecret(given, token));
    if (index < 0) return false;
    this.#open.splice(index, 1);
    return true;
  }
}
