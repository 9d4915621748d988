import { randomBytes } from "node:crypto";
import { sameSecret } from "./guard.ts";

/** 256 bits from the system's generator, in letters that an address can hold. */
export function newSecret(): string {
  return randomBytes(32).toString("base64url");
}

/** What a secret of `newSecret` looks like. */
export const secretPattern = /^[A-Za-z0-9_-]{43}$/;

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
