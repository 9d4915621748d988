import {
  type InputFile,
  type LeftOutRow,
  phaseNames,
  type Question,
  type Run,
  type StudyProvenance,
  variantNames,
} from "../../../core/index.ts";
import type {
  Change,
  EditNote,
  StoredHead,
  StoredNamed,
  StoredRun,
  StoredVariant,
  StudyDatabase,
} from "../../store/index.ts";
import { runsOnBench } from "../bench/bench-record.ts";
import type { ReadStudy } from "../open-study.ts";
import { program } from "../program.ts";
import { storedRun } from "../stored/index.ts";
import { settingsParts } from "./stored-settings.ts";

/** Levels that all runs of a variant have: those are the variant's own. */
function agreedLevels(runs: readonly Run[]): Map<string, string> {
  const [first] = runs;
  if (first === undefined) return new Map();
  return new Map(
    [...first.factors].filter(([factor, level]) => runs.every((run) => run.factors.get(factor) === level)),
  );
}

/** What is asked about a run, as its remark keeps it: the run's name may change. */
interface AskedValue {
  readonly rule: string;
  readonly phase: string | null;
  readonly column: string | null;
  readonly message: string;
}

const kept = ({ rule, phase, column, message }: Question): AskedValue => ({ rule, phase, column, message });

/** What takes a file's settings into a study, in place of those that it has. */
function settingsChanges(database: StudyDatabase, head: StoredHead, read: ReadStudy): Change[] {
  const parts = settingsParts(read.study.settings);
  const { method, confidence } = read.study.settings;
  const replaced = (
    subject: "fuel" | "instrument" | "pot",
    items: StoredHead["fuels"],
    wanted: readonly StoredNamed[],
  ): Change[] => {
    const same = (left: unknown, right: unknown) => JSON.stringify(left) === JSON.stringify(right);
    const gone = [...items].filter(([, item]) => !wanted.some((one) => same(one, item)));
    const added = wanted.filter((one) => ![...items.values()].some((item) => same(one, item)));
    return [
      ...gone.map(([item]): Change => ({ subject, item, after: null })),
      ...added.map((after): Change => ({ subject, item: database.nextItem(subject), after })),
    ];
  };
  return [
    ...(method === head.method ? [] : [{ subject: "study", field: "method", after: method } satisfies Change]),
    ...(confidence === head.confidence
      ? []
      : [{ subject: "study", field: "confidence", after: confidence } satisfies Change]),
    ...replaced("fuel", head.fuels, parts.fuels),
    ...replaced("instrument", head.instruments, parts.instruments),
    ...(parts.pots === null ? [] : replaced("pot", head.pots, parts.pots)),
    ...[...parts.settings].flatMap(([field, after]): Change[] =>
      JSON.stringify(head.settings.get(field)) === JSON.stringify(after) ? [] : [{ subject: "setting", field, after }],
    ),
  ];
}

/** What takes the runs of a file into a study, after the runs that it has. Names of runs must be free. */
function runsChanges(
  database: StudyDatabase,
  head: StoredHead,
  runsThere: number,
  { study, questions, provenance }: ReadStudy,
): Change[] {
  const variants = new Map([...head.variants].map(([item, variant]) => [variant.name, { item, variant }]));
  const byVariant = Map.groupBy(study.runs, (run) => run.variant);
  const newVariants = variantNames(study.runs).filter((name) => !variants.has(name));
  let position = Math.max(-1, ...[...head.variants.values()].map((variant) => variant.position)) + 1;
  const addedVariants = newVariants.map((name): Change => {
    const variant: StoredVariant = { name, position, levels: agreedLevels(byVariant.get(name) ?? []) };
    const item = database.nextItem("variant");
    position += 1;
    variants.set(name, { item, variant });
    return { subject: "variant", item, after: variant };
  });

  const attachments = provenance.inputs.map(
    ({ file, sha256 }): Change => ({
      subject: "attachment",
      item: database.nextItem("attachment"),
      after: { file, sha256 },
    }),
  );
  const [readings] = attachments;
  const attachment = readings?.subject === "attachment" ? readings.item : null;

  const firstRun = database.nextItem("run", Math.max(1, study.runs.length));
  const items = new Map(study.runs.map((run, index) => [run.name, firstRun + index]));
  const runs = study.runs.map((run, index): Change => {
    const found = variants.get(run.variant);
    if (found === undefined) throw new Error(`the run ${run.name} has no variant`);
    const after: StoredRun = storedRun(run, {
      position: runsThere + index,
      variant: found.item,
      variantLevels: found.variant.levels,
      attachment,
      act: () => database.nextItem("act"),
    });
    return { subject: "run", item: firstRun + index, after };
  });

  const remark = (kind: "assumed" | "question" | "rowLeftOut", run: number | null, value: unknown): Change => ({
    subject: "remark",
    item: database.nextItem("remark"),
    after: { kind, run, value },
  });
  return [
    ...addedVariants,
    ...attachments,
    ...runs,
    ...provenance.readingNotes.map((note) => remark("assumed", null, note)),
    ...questions.map((question) => remark("question", items.get(question.run ?? "") ?? null, kept(question))),
    ...provenance.leftOutRows.map((row) => remark("rowLeftOut", null, row)),
  ];
}

/** What takes a file into a study, in one step, and what the record notes of it. */
export function takingIn(
  database: StudyDatabase,
  head: StoredHead,
  runsThere: number,
  read: ReadStudy,
  withSettings: boolean,
): { readonly note: Omit<EditNote, "who">; readonly changes: readonly Change[] } {
  const [input] = read.provenance.inputs;
  const about = { file: input?.file ?? "", runs: read.study.runs.length };
  const settings = withSettings ? settingsChanges(database, head, read) : [];
  const changes = [...settings, ...runsChanges(database, head, runsThere, read)];
  return { note: { what: "import", about, why: null }, changes };
}

/** Where the readings of a study file come from. */
export function provenanceOf(head: StoredHead): StudyProvenance {
  const remarks = [...head.remarks.values()];
  return {
    inputs: [...head.attachments.values()].map(({ file, sha256 }): InputFile => ({ file, sha256 })),
    leftOutRows: remarks.filter(({ kind }) => kind === "rowLeftOut").map(({ value }) => value as LeftOutRow),
    runsOnBench: [...runsOnBench(head)].map(String),
    readingNotes: remarks.filter(({ kind }) => kind === "assumed").map(({ value }) => String(value)),
    isExample: head.isExample,
    program,
  };
}

/** The questions that arose in reading the files, with the runs' names of today. */
export function readingQuestionsOf(head: StoredHead, nameOf: (run: number) => string | undefined): Question[] {
  return [...head.remarks.values()].flatMap(({ kind, run, value }): Question[] => {
    if (kind !== "question") return [];
    const { rule, phase, column, message } = value as AskedValue;
    const name = run === null ? null : (nameOf(run) ?? null);
    return [
      { rule, run: name, variant: null, phase: phaseNames.find((one) => one === phase) ?? null, column, message },
    ];
  });
}
