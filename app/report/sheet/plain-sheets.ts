import type { SheetDocument } from "../../../core/index.ts";
import { plainText } from "../../chart/index.ts";

/** The same sheets with every text cleaned of what cannot be seen (`plainText`). */
export function plainSheets(document: SheetDocument): SheetDocument {
  return plain(document);
}

/** Every text within a value of plain data; functions and numbers stay as they are. */
function plain<T>(value: T): T {
  if (typeof value === "string") return plainText(value) as T;
  if (Array.isArray(value)) return value.map(plain) as T;
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, plain(one)])) as T;
}
