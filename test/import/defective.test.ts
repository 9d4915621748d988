import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { emptySettingsFile, readReadings, readSettings, readTable } from "../../app/import/index.ts";
import type { Problem } from "../../core/index.ts";

/** The table of sample-data/defective/README.md: each file's defect, written down by hand when the file was made. */
interface Expected {
  readonly file: string;
  readonly kind: "error" | "question";
  readonly problems: readonly Pick<Problem, "rule" | "row" | "column" | "cell">[];
}

const folder = new URL("../../sample-data/defective/", import.meta.url);
const expected = JSON.parse(readFileSync(new URL("expected.json", folder), "utf8")) as {
  readings: readonly Expected[];
  settings: readonly Omit<Expected, "kind">[];
};

const place = ({ rule, row, column, cell }: Expected["problems"][number]) => ({ rule, row, column, cell });

/** A sentence that says what to do: something is to be written, corrected, checked, or a question is asked. */
const saysWhatToDo =
  /\b(write|correct|save|add|take|fill|keep|rename|make|give|convert|shorten|double|check|split|leave|mend|describe|remove|expected was|expected were)\b|\?/i;

const read = (file: string) =>
  readReadings({ table: readTable(readFileSync(new URL(file, folder)), file), settings: emptySettingsFile() });

describe("every defective readings file", () => {
  test.each(expected.readings.map((item) => [item.file, item] as const))("%s", (file, { kind, problems }) => {
    const found = read(file);
    expect(found.problems.map(place)).toEqual(problems.map(place));
    for (const problem of found.problems) {
      expect(problem.severity).toBe(kind);
      expect(problem.file).toBe(file);
      expect(problem.message).toMatch(saysWhatToDo);
      expect(problem.message.replaceAll(/“[^”]*”/g, "")).not.toMatch(/undefined|NaN|\[object/);
    }
    expect(found.study === null).toBe(kind === "error");
  });
});

describe("every defective settings file", () => {
  test.each(expected.settings.map((item) => [item.file, item] as const))("%s", (file, { problems }) => {
    const found = readSettings(readFileSync(new URL(file, folder)), file);
    expect(found.settings).toBeNull();
    expect(found.problems.map(place)).toEqual(problems.map(place));
    for (const problem of found.problems) expect(problem.message).toMatch(saysWhatToDo);
  });
});

test("the table lists every file, and every file is listed", () => {
  const names = (under: string) =>
    readdirSync(new URL(under, folder), { withFileTypes: true }).filter((entry) => entry.isFile());
  const files = names(".")
    .map(({ name }) => name)
    .filter((name) => name.endsWith(".csv"));
  expect(files.sort()).toEqual(expected.readings.map(({ file }) => file).sort());
  const settings = names("settings").map(({ name }) => `settings/${name}`);
  expect(settings.sort()).toEqual(expected.settings.map(({ file }) => file).sort());
});

test("errors that contradict each other name both rows", () => {
  for (const file of ["same-phase-twice.csv", "both-methods.csv", "run-value-conflict.csv"]) {
    for (const { message } of read(file).problems)
      expect(message).toMatch(/\b\d+\b.*\brow(s \d+ and)? \d+\b|rows \d+ and \d+/);
  }
});

test("a wet-basis moisture over 100 % hints at the dry basis", () => {
  expect(read("moisture-out-of-range.csv").problems[0]?.message).toContain("moisture_dry_percent");
});
