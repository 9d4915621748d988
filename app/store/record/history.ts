import type { PhaseName } from "../../../core/index.ts";
import type { RecordedChange, StoredPhase, StoredRun, StoredVariant } from "../content.ts";
import type { Connection } from "../schema/connection.ts";
import { type ChangeRow, changeRowOf, recordedChange, rowColumns } from "./change-log.ts";
import { levelsText, parsed, phaseOfText, runOfText, variantOfText } from "./content-text.ts";
import { sealedRunAt } from "./read-run.ts";
import { variantAt } from "./read-study.ts";

/** The part of a run, or of a phase, that one place shows. */
type Look = (content: StoredRun | null) => unknown;

function lookAtPhase(content: StoredPhase | null | undefined, field: string): unknown {
  if (field === "timing") return content?.timing ?? null;
  return content?.readings.get(field) ?? content?.texts.get(field) ?? null;
}

function lookAtRun(content: StoredRun | null, field: string): unknown {
  if (content === null) return null;
  // As the record writes levels: a list of pairs.
  if (field === "levels") return parsed(levelsText(content.levels));
  return Object.hasOwn(content, field) ? (content[field as keyof StoredRun] as unknown) : null;
}

const lookAt =
  (phase: PhaseName | null, field: string): Look =>
  (content) =>
    phase === null
      ? lookAtRun(content, field)
      : lookAtPhase(
          content?.phases.find((one) => one.phase === phase),
          field,
        );

/** Where the record keeps the seal of an added run alone, what stood there is known from what came next. */
const later = Symbol("later");

function narrowed({ change }: ChangeRow, look: Look, field: string): { before: unknown; after: unknown } {
  const { subject, before, after } = change;
  if (subject === "run") {
    return { before: look(before === null ? null : runOfText(before)), after: after === null ? null : later };
  }
  const read =
    subject === "phase" ? (text: string) => lookAtPhase(phaseOfText(text), field) : (text: string) => parsed(text);
  return { before: before === null ? null : read(before), after: after === null ? null : read(after) };
}

const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/**
 * All that ever stood in one place of a run, oldest first. Changes of its whole phase or of the whole run are among them, with what
 * they changed in this place as `before` and `after`; those that left it as it was are not.
 *
 * @param phase null: `field` is one of the run itself
 */
export function readHistory(
  connection: Connection,
  run: number,
  phase: PhaseName | null,
  field: string,
): RecordedChange[] {
  const rows = connection
    .all(
      `SELECT ${rowColumns} FROM change WHERE item = ?1 AND (subject = 'run'
         OR (subject = 'runField' AND ?2 IS NULL AND field = ?3)
         OR (subject = 'phase' AND phase = ?2)
         OR (subject = 'timing' AND phase = ?2 AND ?3 = 'timing')
         OR (subject IN ('reading', 'text') AND phase = ?2 AND field = ?3)) ORDER BY id`,
      ...[run, phase, field],
    )
    .map(changeRowOf);
  const look = lookAt(phase, field);
  const found: RecordedChange[] = [];
  let next = look(sealedRunAt(connection, run)?.run ?? null);
  for (const row of rows.reverse()) {
    const { before, after } = narrowed(row, look, field);
    const known = after === later ? next : after;
    next = before;
    if (isSame(before, known)) continue;
    const edit = recordedChange({ edit: row.edit, change: { ...row.change, before: null, after: null } });
    found.push({ ...edit, before, after: known });
  }
  return found.reverse();
}

/** A variant as it stands, or as it stood last where it is gone: the record still names it. Null where there never was one. */
export function variantEver(connection: Connection, item: number): StoredVariant | null {
  const now = variantAt(connection, item);
  if (now !== null) return now;
  const row = connection.one(
    `SELECT coalesce("after", "before") AS was FROM change WHERE item = ? AND subject = 'variant' ORDER BY id DESC LIMIT 1`,
    item,
  );
  return row === undefined ? null : variantOfText(row.was as string);
}
