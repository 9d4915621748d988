import {
  dryMoistureFromOven,
  type Locale,
  plainNumbers,
  readingDomainFault,
  readingText,
  wetMoistureFromOven,
  wordsFor,
} from "../../../core/index.ts";
import type { Edit } from "../../contract/index.ts";
import { refuse } from "../refused.ts";
import { runChanges } from "../study/edit-changes.ts";
import type { EditContext, Prepared } from "../study/prepared.ts";
import { benchRecord } from "./bench-record.ts";
import { cellsOf, lastingCells } from "./lasting-cells.ts";
import { moistureColumn, specimensColumn } from "./specimens-column.ts";

type SpecimensEdit = Extract<Edit, { kind: "specimens" }>;
type Specimen = SpecimensEdit["specimens"][number];

/** Digits that the mean is written with after the point: one more than meters have. */
const decimals = 2;

/** A number as people type it: comma and point are both decimal marks, and nothing parts thousands. */
function numberOf(text: string, specimen: number, locale: Locale): number {
  const words = wordsFor(locale).benchWork.specimen;
  const plain = text.trim();
  if (plain === "") refuse(words.empty(specimen));
  if (!/^[+-]?\d{1,9}(?:[.,]\d{1,9})?$/.test(plain)) refuse(words.notANumber(specimen, plain));
  return Number(plain.replace(",", "."));
}

/** Moisture of one specimen in per cent of its basis. Refused where its numbers cannot be. */
function percentOf(specimen: Specimen, number: number, basis: "wet" | "dry", locale: Locale): number {
  const words = wordsFor(locale).benchWork.specimen;
  const shown = (value: number) => readingText(value, locale);
  if ("reading" in specimen) {
    const percent = numberOf(specimen.reading, number, locale);
    if (readingDomainFault(basis === "wet" ? "moistureWet" : "moistureDry", percent) !== null) {
      refuse((basis === "wet" ? words.wetRange : words.dryRange)(number, shown(percent)));
    }
    return percent;
  }
  const before = numberOf(specimen.before, number, locale);
  const after = numberOf(specimen.after, number, locale);
  const dish = specimen.dish === null ? 0 : numberOf(specimen.dish, number, locale);
  for (const mass of [before, after]) if (!(mass > 0)) refuse(words.notPositive(number, shown(mass)));
  if (dish < 0) refuse(words.notPositive(number, shown(dish)));
  if (after > before) refuse(words.heavierAfter(number, shown(before), shown(after)));
  if (dish >= after) refuse(words.dishTooHeavy(number, shown(dish), shown(after)));
  const masses = { before, after, dish };
  const fraction = (basis === "wet" ? wetMoistureFromOven : dryMoistureFromOven)(plainNumbers, masses);
  const percent = fraction * 100;
  if (readingDomainFault(basis === "wet" ? "moistureWet" : "moistureDry", percent) !== null) {
    refuse((basis === "wet" ? words.wetRange : words.dryRange)(number, shown(Math.round(percent * 10) / 10)));
  }
  return percent;
}

/** The specimens as they are kept beside their mean. */
function textOf(specimens: readonly Specimen[], locale: Locale): string {
  const words = wordsFor(locale).benchWork.specimen;
  const plain = (text: string) => text.trim().replace(",", ".");
  const meters = specimens.flatMap((one) => ("reading" in one ? [plain(one.reading)] : []));
  if (meters.length === specimens.length) return words.meter(meters);
  const dried = specimens.flatMap((one) =>
    "reading" in one
      ? []
      : [words.dried(plain(one.before), plain(one.after), one.dish === null ? null : plain(one.dish))],
  );
  if (dried.length < specimens.length) refuse(words.mixed);
  return words.oven(dried);
}

/** The mean of several specimens becomes the moisture of a fuel entry; the specimens are kept beside it. */
export function specimensEdit(edit: SpecimensEdit, { content, database, locale }: EditContext): Prepared {
  const words = wordsFor(locale);
  const item = Number(edit.run);
  const { run } = content.run(item) ?? refuse(words.record.runGone);
  const { phase, entry, basis, specimens } = edit;
  if (!run.phases.some((one) => one.phase === phase)) refuse(words.benchWork.notAStep(run.name));
  const text = textOf(specimens, locale);
  const percents = specimens.map((one, index) => percentOf(one, index + 1, basis, locale));
  const mean = percents.reduce((sum, one) => sum + one, 0) / percents.length;
  const other = moistureColumn(entry, basis === "wet" ? "dry" : "wet");
  const cells = [
    ...(cellsOf(run, phase).has(other) ? [{ phase, column: other, text: "" }] : []),
    { phase, column: moistureColumn(entry, basis), text: String(Number(mean.toFixed(decimals))) },
    { phase, column: specimensColumn(entry), text },
  ];
  const record = benchRecord(content.head, item)?.record;
  const lasting = record?.state === "open" ? lastingCells(run, record, cells) : [];
  return {
    note: { what: "specimens", about: { run: run.name, phase, count: specimens.length }, why: null },
    changes: runChanges(item, [...cells, ...lasting], content, database, locale),
  };
}
