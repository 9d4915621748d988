import { writeReadings } from "../../../app/import/index.ts";
import { defaultSettings, type Run } from "../../../core/index.ts";

/** Numbers from one on, each once. */
export function numbered(first: number): () => number {
  let next = first;
  return () => next++;
}

/** A run in plain values: identifiers of run and phase away, those of readings numbered by first appearance. */
export function likeness(run: Run): unknown {
  const numbers = new Map<string, number>();
  const plain = (input: unknown): unknown => {
    if (input instanceof Map) return new Map([...input].map(([key, inner]) => [key, plain(inner)]));
    if (Array.isArray(input)) return input.map(plain);
    if (typeof input !== "object" || input === null) return input;
    if ("value" in input && "id" in input && typeof input.id === "string") {
      if (!numbers.has(input.id)) numbers.set(input.id, numbers.size);
      return { act: numbers.get(input.id), value: input.value };
    }
    return Object.fromEntries(Object.entries(input).map(([key, inner]) => [key, key === "id" ? null : plain(inner)]));
  };
  return plain(run);
}

/** The readings file of some runs. */
export function textOf(runs: readonly Run[]): string {
  return writeReadings({ name: "study", settings: defaultSettings(), runs });
}
