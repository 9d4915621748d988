import type { PhaseName } from "../../../core/index.ts";
import type {
  Change,
  RunField,
  StoredAttachment,
  StoredNamed,
  StoredReading,
  StoredRemark,
  StoredTiming,
  Subject,
} from "../content.ts";
import {
  levelsOfText,
  levelsText,
  parsed,
  phaseOfText,
  phaseText,
  runOfText,
  runText,
  seriesOfText,
  seriesText,
  variantOfText,
  variantText,
} from "./content-text.ts";

/** Where in the file a change is: the columns of the record that name its place. */
export interface Place {
  readonly subject: Subject;
  readonly item: number | null;
  readonly phase: PhaseName | null;
  readonly field: string | null;
}

export const placeOf = (change: Change): Place => ({
  subject: change.subject,
  item: "item" in change ? change.item : null,
  phase: "phase" in change ? change.phase : null,
  field: "field" in change ? change.field : null,
});

/** What is to stand at the place of a change, as text; null: nothing. */
export function textAfter(change: Change): string | null {
  const { after } = change;
  if (after === null) return null;
  switch (change.subject) {
    case "variant":
      return change.after === null ? null : variantText(change.after);
    case "series":
      return change.after === null ? null : seriesText(change.after);
    case "run":
      return change.after === null ? null : runText(change.after);
    case "phase":
      return change.after === null ? null : phaseText(change.after);
    case "reading":
      return change.after === null ? null : readingText(change.after);
    case "fuel":
    case "pot":
    case "instrument":
      return change.after === null ? null : namedText(change.after);
    case "attachment":
      return change.after === null ? null : attachmentText(change.after);
    case "remark":
      return change.after === null ? null : remarkText(change.after);
    case "runField":
      return change.field === "levels" ? levelsText(after as ReadonlyMap<string, string | null>) : valueText(after);
    default:
      return valueText(after);
  }
}

/** JSON has no form for some values (undefined, a function): asking for one is a programmer's error. */
export function valueText(value: unknown): string {
  const text = JSON.stringify(value) as string | undefined;
  if (text === undefined) throw new TypeError(`${typeof value} is not data that JSON has a form for`);
  return text;
}

export const readingText = ({ act, value }: StoredReading): string => JSON.stringify({ act, value });
export const namedText = ({ name, value }: StoredNamed): string =>
  `{"name":${valueText(name)},"value":${valueText(value)}}`;
export const attachmentText = ({ file, sha256 }: StoredAttachment): string => JSON.stringify({ file, sha256 });
export const remarkText = ({ kind, run, value }: StoredRemark): string =>
  `{"kind":${valueText(kind)},"run":${valueText(run)},"value":${valueText(value)}}`;

/** The change that puts a text of the record back at its place. */
export function changeTo({ subject, item, phase, field }: Place, text: string | null): Change {
  const number = item as number;
  const name = field as string;
  const phaseName = phase as PhaseName;
  const read = <T>(of: (text: string) => T): T | null => (text === null ? null : of(text));
  switch (subject) {
    case "study":
      return { subject, field: name, after: read(parsed) } as Change;
    case "setting":
      return { subject, field: name, after: read(parsed) };
    case "variant":
      return { subject, item: number, after: read(variantOfText) };
    case "fuel":
    case "pot":
    case "instrument":
      return { subject, item: number, after: read(parsed) as StoredNamed | null };
    case "attachment":
      return { subject, item: number, after: read(parsed) as StoredAttachment | null };
    case "remark":
      return { subject, item: number, after: read(parsed) as StoredRemark | null };
    case "series":
      return { subject, item: number, after: read(seriesOfText) };
    case "run":
      return { subject, item: number, after: read(runOfText) };
    case "runField": {
      const after = name === "levels" ? read(levelsOfText) : read(parsed);
      return { subject, item: number, field: name as RunField, after };
    }
    case "phase":
      return { subject, item: number, phase: phaseName, after: read(phaseOfText) };
    case "timing":
      return { subject, item: number, phase: phaseName, after: read(parsed) as StoredTiming };
    case "reading":
      return { subject, item: number, phase: phaseName, field: name, after: read(parsed) as StoredReading | null };
    case "text":
      return { subject, item: number, phase: phaseName, field: name, after: read(parsed) as string | null };
  }
}
