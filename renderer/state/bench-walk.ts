import type { BenchFieldView, BenchRunView, BenchStepView } from "../../app/contract/index.ts";

/** A field of a run, or the end of it: what the focus can be sent to. */
export interface BenchSpot {
  readonly step: string;
  /** Null: the step's own button. */
  readonly field: string | null;
}

/** The step behind the last one: the run is finished there. */
export const finishStep = "finish";

/** What tells a field from all others of the run. */
export const benchKey = ({ phase, column }: Pick<BenchFieldView, "phase" | "column">): string =>
  `${phase ?? "run"}.${column}`;

/** Where the focus of a spot goes; also the field's id in the page. */
export const spotId = ({ step, field }: BenchSpot): string => `bench-${field ?? step}`;

export interface WalkOptions {
  /** Steps whose folded fields are shown. */
  readonly unfolded: ReadonlySet<string>;
  /** Fields that are in sight although Enter would pass over them: something in them is not saved. */
  readonly isHeld: (field: BenchFieldView) => boolean;
  /** Something stands in the field, saved or not yet. */
  readonly isFilled: (field: BenchFieldView) => boolean;
  /** The field that has the focus: it is not folded away under it. */
  readonly focused: string | null;
}

/** Fields of a step that are in sight, in the order in which they are taken, and those that can be folded away. */
export function partsOf(
  step: BenchStepView,
  { unfolded, isHeld, isFilled, focused }: WalkOptions,
): { readonly shown: readonly BenchFieldView[]; readonly folded: readonly BenchFieldView[] } {
  const isNeedless = ({ phase, insteadOf }: BenchFieldView) =>
    insteadOf !== null &&
    step.fields.some((field) => field.phase === phase && field.column === insteadOf && isFilled(field));
  const isFolded = (field: BenchFieldView) =>
    (field.isPassed || isNeedless(field)) &&
    benchKey(field) !== focused &&
    !isHeld(field) &&
    !field.questions.some(({ answer }) => answer === null);
  return {
    shown: unfolded.has(step.id) ? step.fields : step.fields.filter((field) => !isFolded(field)),
    folded: step.fields.filter(isFolded),
  };
}

/** All that Enter walks through, in order: fields of all steps, then the end of the run. */
export function walkOf(run: BenchRunView, options: WalkOptions): BenchSpot[] {
  const spots = run.steps.flatMap((step) => {
    return partsOf(step, options).shown.map((field) => ({ step: step.id, field: benchKey(field) }));
  });
  return [...spots, { step: finishStep, field: null }];
}

/** The spot before or behind another; of one that is not walked through, that of its step. Null where the walk ends. */
export function spotBeside(
  run: BenchRunView,
  walk: readonly BenchSpot[],
  from: BenchSpot,
  way: 1 | -1,
): BenchSpot | null {
  const at = walk.findIndex((spot) => spot.step === from.step && spot.field === from.field);
  if (at >= 0) return walk[at + way] ?? null;
  const order = [...run.steps.map(({ id }) => id), finishStep];
  const place = order.indexOf(from.step);
  return way === 1
    ? (walk.find((spot) => order.indexOf(spot.step) > place) ?? null)
    : (walk.findLast((spot) => order.indexOf(spot.step) < place) ?? null);
}

/** Where somebody who comes to a step begins: at its first field in which nothing stands, else at its first. */
export function spotToBegin(run: BenchRunView, walk: readonly BenchSpot[], step: string): BenchSpot | null {
  const own = walk.filter((spot) => spot.step === step);
  const fields = run.steps.find(({ id }) => id === step)?.fields ?? [];
  const isEmpty = (spot: BenchSpot) => fields.some((field) => benchKey(field) === spot.field && field.text === "");
  return own.find(isEmpty) ?? own[0] ?? null;
}

/** The fields in which what lacks is to be written, each with the step in which it is taken. */
export function lackingFields(
  run: BenchRunView,
): readonly { readonly step: BenchStepView; readonly field: BenchFieldView }[] {
  return run.lacking.flatMap((at) => {
    const spots = run.steps.flatMap((step) =>
      step.fields.filter((field) => benchKey(field) === benchKey(at)).map((field) => ({ step, field })),
    );
    return spots.slice(0, 1);
  });
}

export const openQuestionsOf = (step: BenchStepView): number =>
  step.fields.reduce((sum, field) => sum + field.questions.filter(({ answer }) => answer === null).length, 0);
