import { createHash, createHmac, randomBytes, timingSafeEqual } from "node:crypto";

/** 256 bits from the system's generator, in letters that an address can hold. */
export function newSecret(): string {
  return randomBytes(32).toString("base64url");
}

/** What a secret of `newSecret`, and a proof of `proofOf`, look like. */
export const secretPattern = /^[A-Za-z0-9_-]{43}$/;

/** Compares secrets in a time that does not depend on where they differ. */
export function sameSecret(given: string, wanted: string): boolean {
  const digest = (text: string) => createHash("sha256").update(text, "utf8").digest();
  return wanted !== "" && timingSafeEqual(digest(given), digest(wanted));
}

/** Shows that somebody holds a secret without telling it: HMAC-SHA-256 (RFC 2104) of what is said, keyed with the secret. */
function proofOf(secret: string, said: string): string {
  return createHmac("sha256", secret).update(said, "utf8").digest("base64url");
}

/** What a second start sends for a fresh address: a challenge of its own, and the proof that it may ask. */
export function askingFor(ownerSecret: string, challenge: string): string {
  return `Boilbench ${challenge}.${proofOf(ownerSecret, `ask ${challenge}`)}`;
}

/** The challenge of a second start that holds the owner's secret; null where what it sent is anything else. */
export function challengeOf(authorization: string, ownerSecret: string): string | null {
  const challenge = /^Boilbench ([A-Za-z0-9_-]{43})\.[A-Za-z0-9_-]{43}$/.exec(authorization)?.[1];
  if (challenge === undefined || ownerSecret === "") return null;
  return sameSecret(authorization, askingFor(ownerSecret, challenge)) ? challenge : null;
}

/** Sent with a fresh token: only the host that holds the owner's secret can give it, and only for this challenge. */
export function tokenProof(ownerSecret: string, challenge: string, token: string): string {
  return proofOf(ownerSecret, `token ${challenge} ${token}`);
}
