import { keepTogether } from "../format/keep-together.ts";
import { fieldName, stepWords } from "../procedure/field-help.ts";
import { fieldKind } from "../procedure/field-kind.ts";
import type { ProcedureField } from "../procedure/procedure-field.ts";
import type { ProcedureStep } from "../procedure/procedure-step.ts";
import { procedureSteps } from "../procedure/procedure-steps.ts";
import { wordsFor } from "../words/index.ts";
import type { Sheet, SheetBand, SheetDocument, SheetField } from "./sheet-document.ts";
import type { SheetKnown, SheetRequest, SheetRun } from "./sheet-request.ts";

/** Fields of usual width in one row of the form. */
export const fieldsInRow = 4;
/** Fuels whose names can stand in one field, each with its box to tick, and how long they may be together. */
const mostFuelChoices = 3;
const longestFuelChoices = 60;
/** A mass or height as it is written by hand: no thousands apart, no zeros at the end. */
const plainNumber = (value: number) => String(value);

/**
 * Blank sheets to print: the steps of the Bench as a form, one run a sheet, with what is known printed in. Throws a RangeError
 * where no sheet, or a count that is none, is asked for.
 */
export function sheetDocument(request: SheetRequest): SheetDocument {
  const { locale, study, version } = request;
  const words = wordsFor(locale).procedure.sheet;
  const runs = sheetRuns(request.runs);
  return {
    locale,
    title: words.title(study),
    properties: { program: words.program(version), subject: words.subject },
    sheets: runs.map((run, index) => sheetOf(request, run, words.number(index + 1, runs.length))),
    sideOf: (number, side, sides) => (sides === 1 ? number : words.side(number, side, sides)),
  };
}

function sheetRuns(runs: SheetRequest["runs"]): readonly SheetRun[] {
  const asked: readonly SheetRun[] =
    "blank" in runs
      ? Array.from({ length: Number.isInteger(runs.blank) ? runs.blank : 0 }, () => ({
          run: null,
          variant: null,
          order: null,
          block: null,
        }))
      : runs;
  if (asked.length === 0) throw new RangeError("sheets are asked for at least one run");
  return asked;
}

function sheetOf(request: SheetRequest, run: SheetRun, number: string): Sheet {
  const { locale, method, options, study, version } = request;
  const { screens, procedure, quantities } = wordsFor(locale);
  const words = procedure.sheet;
  const steps = procedureSteps(method, options);
  // A run's name stands at the head of its sheet; its box is for those that have none, and leaves its room to the variant.
  const isNamed = run.run !== null;
  const makeField = (field: ProcedureField): SheetField => {
    const made = sheetField(request, field, knownValue(request.known, run, field));
    return isNamed && field.column === "variant" ? { ...made, width: 3 } : made;
  };
  const ofRun = steps.flatMap(({ fields }) => fields.filter(({ phase }) => phase === null));
  const ofHead = ofRun.filter(({ column }) => column !== "run" || !isNamed);
  const ofFurtherHead = ofHead.filter(({ column }) => column === "run" || column === "variant");
  return {
    number,
    title: run.run === null ? words.runBlank : words.run(run.run),
    study,
    cautions: { title: words.cautions, texts: screens.cautions },
    head: ofHead.map(makeField),
    furtherHead: ofFurtherHead.map(makeField),
    bands: bandsOf(steps, request, makeField),
    foot: [study, quantities.methods[method], words.program(version)].join(screens.separator),
  };
}

function bandsOf(
  steps: readonly ProcedureStep[],
  request: SheetRequest,
  makeField: (field: ProcedureField) => SheetField,
): SheetBand[] {
  const words = wordsFor(request.locale).procedure.sheet;
  const bands: { steps: SheetBand["steps"]; fields: readonly SheetField[]; part: string; onClock: boolean }[] = [];
  for (const step of steps) {
    const { title, sentence } = stepWords(step.id, request.locale);
    // What stays as it was is asked for once; what is the run's own stands in the head.
    const asked = step.fields.filter(({ phase, begins }) => phase !== null && begins?.stays !== true);
    const isUnusual = step.id === "anything-unusual";
    const fields = isUnusual ? [notesField(request)] : asked.map(makeField);
    const mayStay = !isUnusual && asked.some(({ begins }) => begins !== null);
    const runIn = words.runIn(title);
    const shown = { id: step.id, title, runIn, sentence: mayStay ? `${sentence} ${words.unlessReadAnew}` : sentence };
    const part = step.phase ?? step.id;
    const last = bands.at(-1);
    const onClock = step.clock !== null;
    const together = last === undefined ? Number.POSITIVE_INFINITY : widthOf(last.fields) + widthOf(fields);
    if (last?.part === part && last.onClock && onClock && together <= fieldsInRow) {
      bands[bands.length - 1] = { ...last, steps: [...last.steps, shown], fields: [...last.fields, ...fields] };
    } else bands.push({ steps: [shown], fields, part, onClock });
  }
  return bands.map(({ steps: own, fields, part }) => ({ steps: own, fields, part }));
}

function widthOf(fields: readonly SheetField[]): number {
  return fields.reduce((sum, { width }) => sum + (width === "rest" ? fieldsInRow : width), 0);
}

function notesField({ locale }: SheetRequest): SheetField {
  const words = wordsFor(locale).procedure.sheet;
  return { ...emptyField(words.notes, words.toFill), width: "rest" };
}

function emptyField(label: string, blank: string): SheetField {
  return {
    label,
    unit: null,
    hint: null,
    value: null,
    isTicked: false,
    choices: [],
    isWritten: true,
    width: 1,
    blank,
  };
}

function sheetField(request: SheetRequest, field: ProcedureField, value: string | null): SheetField {
  const { locale, options, known } = request;
  const { sheet, lidChoices, moistureChoices } = wordsFor(locale).procedure;
  const { kind } = fieldKind(field);
  const isTime = field.group === "time";
  const plain: SheetField = {
    ...emptyField(fieldName(field, options.pots, locale), sheet.toFill),
    unit: field.unit,
    hint: isTime ? sheet.clock : null,
    value: value === null ? null : keepTogether(value),
    isTicked: isTime,
  };
  switch (kind) {
    case "variant":
      return { ...plain, width: 2 };
    case "moisture":
      return { ...plain, width: 2, choices: [moistureChoices.wet, moistureChoices.dry] };
    case "lid":
      return { ...plain, choices: [lidChoices.on, lidChoices.off], isWritten: false };
    case "fuel": {
      const isChoice = known.fuels.length > 1 && known.fuels.length <= mostFuelChoices;
      const fits = isChoice && known.fuels.join("").length <= longestFuelChoices;
      return { ...plain, width: 2, choices: fits ? known.fuels : [], isWritten: !fits };
    }
    default:
      return plain;
  }
}

/** What is known of a field before the run is made, as it is written by hand. */
function knownValue(known: SheetKnown, run: SheetRun, field: ProcedureField): string | null {
  const number = (value: number | null | undefined) => (value == null ? null : plainNumber(value));
  const { kind, pot } = fieldKind(field);
  switch (kind) {
    case "run":
      return run.run;
    case "variant":
      return run.variant;
    case "order":
      return number(run.order);
    case "block":
      return run.block;
    case "date":
      return known.date;
    case "operator":
      return known.operator;
    case "fuel":
      return known.fuels.length === 1 ? (known.fuels[0] ?? null) : null;
    case "potEmpty":
      return number(known.pots.find((one) => one.pot === pot)?.emptyGrams);
    case "charContainer":
      return number(known.charContainerGrams);
    case "altitude":
      return number(known.altitudeMetres);
    default:
      return null;
  }
}
