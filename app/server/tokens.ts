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

  #indexOf(given: unknown): number {
    return typeof given === "string" ? this.#open.findIndex((token) => sameSecret(given, token)) : -1;
  }

  /** True for a token that was issued and not used yet; it stays so. */
  isOpen(given: unknown): boolean {
    return this.#indexOf(given) >= 0;
  }

  /** True once for each token that was issued. */
  redeem(given: unknown): boolean {
    const index = this.#indexOf(given);
    if (index < 0) return false;
    this.#open.splice(index, 1);
    return true;
  }
}
