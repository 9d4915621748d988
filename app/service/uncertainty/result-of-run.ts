import { keyText, type Locale, parseKey, type QuantityKey, type Run, wordsFor } from "../../../core/index.ts";
import type { StoredRunLine } from "../../store/index.ts";
import { refuse } from "../refused.ts";
import type { StudySession } from "../study/study-session.ts";

/** A result that a page asks about: of which run, and which quantity. */
export interface AskedResult {
  readonly run: string;
  /** Text of the quantity's key. */
  readonly quantity: string;
}

/** A run of a study with one of its quantities. */
export interface FoundResult {
  readonly line: StoredRunLine;
  readonly run: Run;
  readonly key: QuantityKey;
  readonly keyText: string;
}

/** The run and quantity that are asked about. Refused where the study has no such run, or no such quantity is known. */
export function resultOfRun({ content }: StudySession, asked: AskedResult, locale: Locale): FoundResult {
  const words = wordsFor(locale);
  const key = parseKey(asked.quantity);
  if (key === null) refuse(words.service.unknownQuantity(asked.quantity));
  const line = content.lines().find(({ run }) => run === Number(asked.run));
  const run = line === undefined ? null : content.readRun(line);
  if (line === undefined || run === null) refuse(words.record.runGone);
  return { line, run, key, keyText: keyText(key) };
}
