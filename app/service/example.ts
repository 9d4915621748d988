import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type Locale, wordsFor } from "../../core/index.ts";
import { type OpenStudy, openFiles } from "./open-study.ts";
import { program } from "./program.ts";

/** Where the example study lies when the program runs from its sources. */
export const exampleFolder = join(import.meta.dirname, "..", "..", "sample-data", "good");

const files = { readings: "tall-kettle-stove.csv", settings: "tall-kettle-stove.settings.json" };

/** Opens the example study. Throws where its files are missing or not as they were shipped. */
export function openExample(folder: string, locale: Locale): OpenStudy {
  const source = (name: string) => ({ name, bytes: readFileSync(join(folder, name)) });
  const read = openFiles(
    {
      readings: source(files.readings),
      settings: source(files.settings),
      studyName: wordsFor(locale).service.exampleName,
      isExample: true,
      locale,
    },
    program,
  );
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join("\n"));
  return read.open;
}
