import { formatFixed, type Locale, wordsFor } from "../../core/index.ts";
import { fileByteLimit } from "../contract/index.ts";
import type { SourceFile } from "./open-study.ts";
import { refuse } from "./refused.ts";

/** A file as a message carries it. Refused where it is larger than the limit. */
export function sourceFile(
  file: { readonly name: string; readonly contentBase64: string },
  locale: Locale,
): SourceFile {
  const bytes = Buffer.from(file.contentBase64, "base64");
  if (bytes.length > fileByteLimit) {
    refuse(wordsFor(locale).service.tooLarge(formatFixed(fileByteLimit / 1024 / 1024, 0, locale)));
  }
  return { name: file.name, bytes };
}
