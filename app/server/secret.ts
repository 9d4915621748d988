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

/** SHA-256 of a body, in letters that a header can hold. */
export function digestOf(body: string | Uint8Array): string {
  return createHash("sha256").update(body).digest("base64url");
}

/** What a second start sends with a file to open: its proof is for this body and for nothing else. */
export function openingFor(ownerSecret: string, challenge: string, body: string): string {
  return openingOfDigest(ownerSecret, challenge, digestOf(body));
}

function openingOfDigest(ownerSecret: string, challenge: string, digest: string): string {
  return `Boilbench ${challenge}.${digest}.${proofOf(ownerSecret, `open ${challenge} ${digest}`)}`;
}

/** The challenge, and the digest that the body must have, of a second start that holds the owner's secret; null for anything else. */
export function openingOf(
  authorization: string,
  ownerSecret: string,
): { readonly challenge: string; readonly digest: string } | null {
  const parts = /^Boilbench ([A-Za-z0-9_-]{43})\.([A-Za-z0-9_-]{43})\.[A-Za-z0-9_-]{43}$/.exec(authorization);
  const [, challenge, digest] = parts ?? [];
  if (challenge === undefined || digest === undefined || ownerSecret === "") return null;
  return sameSecret(authorization, openingOfDigest(ownerSecret, challenge, digest)) ? { challenge, digest } : null;
}

/** Sent with the answer to a file to open: only the host that holds the owner's secret can give it. */
export function answerProof(ownerSecret: string, challenge: string, answer: string): string {
  return proofOf(ownerSecret, `answer ${challenge} ${answer}`);
}
