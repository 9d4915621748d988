import { hash } from "node:crypto";

/**
 * Seals: SHA-256 over content, kept beside it, so that a flipped bit is found. They find damage, not forgery: whoever can write
 * the file can seal it anew.
 */
const sha256 = (text: string): string => hash("sha256", text, "hex");

/** Of the items and seals of a run's series, and its own text. */
export const runSeal = (item: number, text: string, series: readonly (readonly [number, string])[]): string =>
  sha256(JSON.stringify([item, series]) + text);

export const seriesSeal = (item: number, text: string): string => sha256(JSON.stringify([item]) + text);

export const counterSeal = (subject: string, next: number): string => sha256(JSON.stringify([subject, next]));

/** Chained: of the seal before (empty for the first) and all values of the row. */
export const changeSeal = (before: string, row: readonly (string | number | null)[]): string =>
  sha256(before + JSON.stringify(row));

export const textSeal = sha256;
