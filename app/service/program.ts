import type { Program } from "./open-study.ts";

/** Name and version, as package.json states them; a test holds the two together. */
export const program: Program = { name: "boilbench", version: "0.1.0" };
