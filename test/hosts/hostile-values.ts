import type { GenericSchema } from "valibot";
import * as v from "valibot";

/** Texts that mean a place, a command or a trick to some part of some system. CWE-22, CWE-41, CWE-158, CWE-176; Windows' device names. */
export const hostileTexts: readonly string[] = [
  "../../../../../../../../etc/passwd",
  "..",
  ".",
  "....//....//etc/passwd",
  "..;/..;/etc/passwd",
  "..\\..\\..\\windows\\win.ini",
  "..%2f..%2fetc%2fpasswd",
  "%2e%2e/%2e%2e/etc/passwd",
  "%252e%252e%252fetc%252fpasswd",
  "..%c0%af..%c0%afetc/passwd",
  "%u002e%u002e/etc/passwd",
  "．．／．．／etc/passwd",
  "/etc/passwd",
  "/proc/self/environ",
  "//etc/passwd",
  "file:///etc/passwd",
  "~/.ssh/id_rsa",
  "$HOME/x",
  "$(touch escaped)",
  "`touch escaped`",
  "| touch escaped",
  "C:\\Windows\\win.ini",
  "C:win.ini",
  "\\\\server\\share\\x",
  "\\\\?\\C:\\Windows\\win.ini",
  "\\\\.\\PhysicalDrive0",
  "CON",
  "NUL.boilstudy",
  "COM1.csv",
  "x.boilstudy::$DATA",
  "../escaped.boilstudy",
  "a\0.boilstudy",
  "..\0",
  "a\r\nSet-Cookie: x=1",
  "\u202egpj.ydutslioB",
  "\ud800",
  "'; drop table run; --",
  "<script>alert(1)</script>",
  "__proto__",
  "constructor",
  "toString",
  "a".repeat(10_001),
];

/** What a valid text may look like: the first that a schema takes is used. */
const texts = [
  ...["a", "", "1", "AAAA", "cold-start", "wbt", "2026-01-02", "2026-01-02T03:04:05Z", "a.csv", "a@b.example"],
  // The name of a question.
  "0123456789abcdef".repeat(2),
];

type Known =
  | { readonly type: "strict_object" | "object"; readonly entries: Record<string, GenericSchema> }
  | { readonly type: "variant" | "union"; readonly options: readonly GenericSchema[] }
  | { readonly type: "nullable" | "optional" | "nullish" | "exact_optional"; readonly wrapped: GenericSchema }
  | { readonly type: "array"; readonly item: GenericSchema }
  | { readonly type: "literal"; readonly literal: unknown }
  | { readonly type: "picklist"; readonly options: readonly unknown[] }
  | { readonly type: "string" | "number" | "boolean" };

/** A path to a value within a message. */
export type Place = readonly (string | number)[];

/**
 * Examples of a schema: each alternative of it once, with every optional part there. Throws at a kind of schema that it does not know, so
 * that a new kind of request is looked at and not passed over.
 */
export function examplesOf(schema: GenericSchema): readonly unknown[] {
  const known = schema as unknown as Known;
  const valid = (candidates: readonly unknown[]) => {
    const found = candidates.find((candidate) => v.is(schema, candidate));
    if (found === undefined) throw new Error(`no valid example is known for a schema of the type ${known.type}`);
    return [found];
  };
  switch (known.type) {
    case "strict_object":
    case "object": {
      const parts = Object.entries(known.entries).map(([key, entry]) => [key, examplesOf(entry)] as const);
      const most = Math.max(1, ...parts.map(([, examples]) => examples.length));
      return Array.from({ length: most }, (_, index) =>
        Object.fromEntries(parts.map(([key, examples]) => [key, examples[index % examples.length]])),
      );
    }
    case "variant":
    case "union":
      return known.options.flatMap(examplesOf);
    case "nullable":
    case "optional":
    case "nullish":
    case "exact_optional":
      return examplesOf(known.wrapped);
    case "array":
      return examplesOf(known.item).map((item) => [item]);
    case "literal":
      return [known.literal];
    case "picklist":
      return valid(known.options);
    case "string":
      return valid(texts);
    case "number":
      return valid([1, 0, 0.5, 100, 2026]);
    case "boolean":
      return [true];
    default:
      throw new Error(`no example is known for a schema of the type ${(known as { type: string }).type}`);
  }
}

/** The places of all texts within a message, and of all its objects. */
export function placesIn(value: unknown, place: Place = []): { readonly texts: Place[]; readonly objects: Place[] } {
  if (typeof value === "string") return { texts: [place], objects: [] };
  if (typeof value !== "object" || value === null) return { texts: [], objects: [] };
  const inner = Object.entries(value).map(([key, part]) => placesIn(part, [...place, key]));
  return {
    texts: inner.flatMap((one) => one.texts),
    objects: [...(Array.isArray(value) ? [] : [place]), ...inner.flatMap((one) => one.objects)],
  };
}

/** The message with another value at a place. */
export function withValue(message: unknown, place: Place, value: unknown): unknown {
  const [key, ...rest] = place;
  if (key === undefined) return value;
  const copy: Record<string, unknown> = Array.isArray(message) ? ([...message] as never) : { ...(message as object) };
  copy[key] = withValue(copy[key], rest, value);
  return copy;
}

/** The message as JSON with one more key in the object at a place: written as text, for `__proto__` is no key of a literal. */
export function jsonWithKey(message: unknown, place: Place, key: string, value: string): string {
  const mark = `"mark-${key.length}":0`;
  const at = place.reduce<unknown>((inner, step) => (inner as Record<string, unknown>)[step], message);
  const marked = JSON.stringify(withValue(message, place, { ...(at as object), [`mark-${key.length}`]: 0 }));
  return marked.replace(mark, `${JSON.stringify(key)}:${value}`);
}
