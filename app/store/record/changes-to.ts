import type { Change, StoredHead, StoredRun } from "../content.ts";
import type { Connection } from "../schema/connection.ts";
import { seriesText } from "./content-text.ts";
import { textAfter } from "./place.ts";
import { readRun, readRunLines, seriesAt, seriesItems } from "./read-run.ts";
import { readHead } from "./read-study.ts";

/** Both sides' keys, first ours. */
const keysOf = <K>(ours: ReadonlyMap<K, unknown>, theirs: ReadonlyMap<K, unknown>): Set<K> =>
  new Set([...ours.keys(), ...theirs.keys()]);

/** Changes of one table from our content to theirs, where the two differ. */
function tableChanges<K, V>(
  ours: ReadonlyMap<K, V>,
  theirs: ReadonlyMap<K, V>,
  change: (key: K, after: V | null) => Change,
): Change[] {
  const found: Change[] = [];
  for (const key of keysOf(ours, theirs)) {
    const to = change(key, theirs.get(key) ?? null);
    if (textAfter(change(key, ours.get(key) ?? null)) !== textAfter(to)) found.push(to);
  }
  return found;
}

function studyChanges(ours: StoredHead, theirs: StoredHead): Change[] {
  const found: Change[] = [];
  if (ours.name !== theirs.name) found.push({ subject: "study", field: "name", after: theirs.name });
  if (ours.method !== theirs.method) found.push({ subject: "study", field: "method", after: theirs.method });
  if (ours.confidence !== theirs.confidence) {
    found.push({ subject: "study", field: "confidence", after: theirs.confidence });
  }
  return found;
}

function smallChanges(ours: StoredHead, theirs: StoredHead): Change[] {
  return [
    ...studyChanges(ours, theirs),
    ...tableChanges(ours.settings, theirs.settings, (field, after) => ({ subject: "setting", field, after })),
    ...tableChanges(ours.variants, theirs.variants, (item, after) => ({ subject: "variant", item, after })),
    ...tableChanges(ours.fuels, theirs.fuels, (item, after) => ({ subject: "fuel", item, after })),
    ...tableChanges(ours.pots, theirs.pots, (item, after) => ({ subject: "pot", item, after })),
    ...tableChanges(ours.instruments, theirs.instruments, (item, after) => ({ subject: "instrument", item, after })),
    ...tableChanges(ours.attachments, theirs.attachments, (item, after) => ({ subject: "attachment", item, after })),
  ];
}

function runChanges(ours: Connection, theirs: Connection): Change[] {
  const sealsOf = (connection: Connection): Map<number, string> =>
    new Map(readRunLines(connection).map(({ run, seal }) => [run, seal]));
  const [our, their] = [sealsOf(ours), sealsOf(theirs)];
  const runs = (connection: Connection, seals: ReadonlyMap<number, string>, items: readonly number[]) =>
    new Map(
      items.filter((item) => seals.has(item)).map((item): [number, StoredRun] => [item, readRun(connection, item)]),
    );
  const differing = [...keysOf(our, their)].filter((item) => our.get(item) !== their.get(item));
  return tableChanges(runs(ours, our, differing), runs(theirs, their, differing), (item, after) => ({
    subject: "run",
    item,
    after,
  }));
}

function seriesChanges(ours: Connection, theirs: Connection): Change[] {
  const found: Change[] = [];
  const items = new Set([...seriesItems(ours, null), ...seriesItems(theirs, null)]);
  for (const item of items) {
    const [our, their] = [seriesAt(ours, item), seriesAt(theirs, item)];
    const isSame = our !== null && their !== null ? seriesText(our) === seriesText(their) : our === their;
    if (!isSame) found.push({ subject: "series", item, after: their });
  }
  return found;
}

/**
 * What turns our content into theirs, both of one lineage: the same items have the same numbers. What belongs to a run goes before
 * it and comes after it.
 */
export function changesBetween(ours: Connection, theirs: Connection): Change[] {
  const [our, their] = [readHead(ours), readHead(theirs)];
  const belonging = [
    ...tableChanges(our.remarks, their.remarks, (item, after) => ({ subject: "remark", item, after })),
    ...seriesChanges(ours, theirs),
  ];
  return [
    ...belonging.filter(({ after }) => after === null),
    ...smallChanges(our, their),
    ...runChanges(ours, theirs),
    ...belonging.filter(({ after }) => after !== null),
  ];
}
