import type {
  BenchFieldView,
  BenchRunView,
  BenchStepView,
  BenchView,
  EditedView,
  QuestionView,
} from "../../app/contract/index.ts";
import { studyState } from "./fixture.ts";

/** Invented views of the Bench, as the door would give them; numbers are made up. */

export function field(column: string, name: string, more: Partial<BenchFieldView> = {}): BenchFieldView {
  return {
    phase: "cold-start",
    column,
    name,
    what: `What ${name} is.`,
    how: `How ${name} is taken.`,
    feeds: "Used for: thermal efficiency.",
    group: "mass",
    unit: "g",
    needed: true,
    text: "",
    offered: null,
    usual: null,
    choices: null,
    isPassed: false,
    insteadOf: null,
    other: null,
    specimens: null,
    entry: null,
    questions: [],
    ...more,
  };
}

export function step(id: string, title: string, fields: readonly BenchFieldView[], more: Partial<BenchStepView> = {}) {
  return {
    id,
    title,
    sentence: `What to do in ${title}.`,
    phase: "cold-start",
    fields,
    clock: null,
    isDone: false,
    summary: "",
    nextEntry: null,
    ...more,
  } satisfies BenchStepView;
}

export const question: QuestionView = {
  id: "a".repeat(32),
  rule: "woodUsual",
  run: "R26",
  phase: "cold-start",
  column: "fuel_end_g",
  setUp: null,
  message:
    "457 g of wood is less than this variant has used before (480 to 610 g). Were all the sticks on the balance?",
  answer: null,
};

const time = { group: "time", unit: null } as const;

export const steps: readonly BenchStepView[] = [
  step(
    "before-the-fire",
    "Before the fire",
    [
      field("air_C", "Air", { group: "temperature", unit: "°C", needed: false, text: "21.5" }),
      field("boiling_C", "Boiling point", { group: "temperature", unit: "°C", text: "94.6" }),
      field("humidity_percent", "Humidity of the air", { group: "number", unit: "%", needed: false, isPassed: true }),
      field("moisture_wet_percent", "Moisture of the wood", {
        group: "number",
        unit: "%",
        text: "11.2",
        other: { column: "moisture_dry_percent", name: "dry basis", here: "wet basis", isIn: false },
      }),
      field("pot1_empty_g", "Pot, empty", { text: "612", offered: null }),
    ],
    { phase: null, isDone: true, summary: "air 21.5 °C · boiling 94.6 °C · moisture 11.2 %" },
  ),
  step(
    "cold-start.weigh",
    "Weigh for the cold start",
    [field("pot1_start_g", "Pot with water"), field("fuel_start_g", "Wood to burn", { text: "1504" })],
    { summary: "wood 1 504 g", nextEntry: 2 },
  ),
  step("cold-start.light", "Light it, cold stove", [field("start", "Lit at", time)], {
    clock: { act: "starts", column: "start", press: "Lit now" },
    nextEntry: 2,
  }),
  step(
    "cold-start.boils",
    "Water boils",
    [field("end", "Boiled at", time), field("pot1_end_C", "Water", { group: "temperature", unit: "°C" })],
    { clock: { act: "boils", column: "end", press: "It boils now" }, nextEntry: 2 },
  ),
  step("cold-start.weigh-after", "Weigh after the cold start", [
    field("pot1_end_g", "Pot with water", { usual: "was 5 612 g · usual loss here 180 to 420 g" }),
    field("fuel_end_g", "Wood left", { text: "1047", questions: [question] }),
    field("char_with_container_g", "Container with char", {
      needed: false,
      offered: { text: "286", from: "as in run R25" },
    }),
  ]),
];

export const run: BenchRunView = {
  id: "26",
  run: "R26",
  variant: "skirt, wide gap",
  variantIndex: 2,
  date: null,
  state: "open",
  reason: null,
  pots: 1,
  charAtHotStart: false,
  emissions: false,
  steps,
  nextStep: "cold-start.weigh",
  soFar: [
    {
      title: "cold start",
      results: [
        { label: "time to boil", text: "25.4 min", because: null },
        { label: "thermal efficiency", text: null, because: "after the char" },
      ],
    },
  ],
  questions: [],
  clock: null,
  lacks: ["Pot with water, cold start, is not recorded."],
  lacking: [{ phase: "cold-start", column: "pot1_start_g" }],
};

export const bench: BenchView = {
  unfinished: [
    {
      id: "26",
      run: "R26",
      variant: "skirt, wide gap",
      date: "2026-11-25",
      state: "open",
      reason: null,
      next: "Weigh for the cold start",
    },
    {
      id: "9",
      run: "R09",
      variant: "no skirt, wide gap",
      date: "2026-11-24",
      state: "abandoned",
      reason: "the pot tipped over",
      next: "Water boils",
    },
  ],
  begin: {
    run: "R27",
    variants: ["no skirt, wide gap", "skirt, wide gap"],
    variant: "skirt, wide gap",
    pots: 1,
    charAtHotStart: false,
    emissions: false,
  },
  bench: run,
};

export const withField = (view: BenchView, column: string, change: Partial<BenchFieldView>): BenchView => ({
  ...view,
  bench:
    view.bench === null
      ? null
      : {
          ...view.bench,
          steps: view.bench.steps.map((one) => ({
            ...one,
            fields: one.fields.map((of) => (of.column === column ? { ...of, ...change } : of)),
          })),
        },
});

export const withRun = (change: Partial<BenchRunView>): BenchView => ({ ...bench, bench: { ...run, ...change } });

export const begun: EditedView = { ...studyState, revision: 8, run: "26", done: "run R26 begun" };
