import {
  type Locale,
  nothingKnown,
  type SheetKnown,
  type SheetRequest,
  sheetDocument,
  wordsFor,
} from "../../core/index.ts";
import type { ExportedFile, Request } from "../contract/index.ts";
import { renderSheetPdf } from "../report/index.ts";
import type { StoredHead } from "../store/index.ts";
import { nextRunName } from "./next-run.ts";
import { program } from "./program.ts";
import { refuse } from "./refused.ts";
import type { StudyContent } from "./study/study-content.ts";

type Asked = Extract<Request, { kind: "sheets.print" }>;

/** Blank sheets for runs of a study, with what is known of it printed in. */
export async function blankSheets(content: StudyContent, asked: Asked, locale: Locale): Promise<ExportedFile> {
  const { head } = content;
  const { pots, charAtHotStart, emissions } = asked;
  const document = sheetDocument({
    study: head.name,
    method: head.method,
    options: { pots, charAtHotStart, emissions },
    runs: runsToPrint(content, asked, locale),
    known: knownOf(head),
    version: program.version,
    locale,
  });
  const pdf = await renderSheetPdf(document);
  return {
    fileName: "sheets.pdf",
    mediaType: "application/pdf",
    contentBase64: Buffer.from(pdf).toString("base64"),
  };
}

/** What is set up once and holds on every sheet. Several pots to choose from: the mass is written by hand. */
function knownOf({ fuels, pots, settings }: StoredHead): SheetKnown {
  const number = (value: unknown, key: string) => {
    const found = (value as Record<string, unknown> | null | undefined)?.[key];
    return typeof found === "number" && Number.isFinite(found) ? found : null;
  };
  const [pot, ...others] = pots.values();
  const emptyGrams = others.length === 0 ? number(pot?.value, "emptyMass_g") : null;
  return {
    ...nothingKnown,
    fuels: [...fuels.values()].map(({ name }) => name),
    pots: emptyGrams === null ? [] : [{ pot: 1, emptyGrams }],
    altitudeMetres: number(settings.get("place"), "altitude_m"),
  };
}

/** The runs that the sheets are for: names and order go on from the last run of the study. */
function runsToPrint(content: StudyContent, { sheets, variants }: Asked, locale: Locale): SheetRequest["runs"] {
  if (variants.kind === "none") return { blank: sheets };
  const known = [...content.head.variants.values()]
    .sort((one, other) => one.position - other.position)
    .map(({ name }) => name);
  const wanted = variants.kind === "inTurn" ? known : known.filter((name) => name === variants.variant);
  if (wanted.length === 0) refuse(wordsFor(locale).service.noVariantToPrint);
  const lines: { name: string; position: number }[] = [...content.lines()];
  const orders = content.overview().facts.map(({ order }) => order ?? 0);
  const last = orders.reduce((most, order) => Math.max(most, order), 0) || lines.length;
  return Array.from({ length: sheets }, (_, index) => {
    const run = nextRunName(lines);
    lines.push({ name: run, position: Number.MAX_SAFE_INTEGER - sheets + index });
    return { run, variant: wanted[index % wanted.length] ?? null, order: last + index + 1, block: null };
  });
}
