import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type Locale, wordsFor } from "../../core/index.ts";
import { type ReadStudy, readFiles } from "./open-study.ts";
import { program } from "./program.ts";

/** Where the example study lies when the program runs from its sources. */
export const exampleFolder = join(import.meta.dirname, "..", "..", "sample-data", "good");

const files = { readings: "tall-kettle-stove.csv", settings: "tall-kettle-stove.settings.json" };

/** Reads the example study. Throws where its files are missing or not as they were shipped. */
export function readExample(folder: string, locale: Locale): ReadStudy {
  const source = (name: string) => ({ name, bytes: readFileSync(join(folder, name)) });
  const answer = readFiles(
    {
      readings: source(files.readings),
      settings: source(files.settings),
      studyName: wordsFor(locale).service.exampleName,
      isExample: true,
      locale,
    },
    program,
  );
  if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join("\n"));
  return answer.read;
}
