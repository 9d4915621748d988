import type {
  CompareView,
  GridColumnView,
  GridRowView,
  GridView,
  QuestionsView,
  QuestionView,
  StudyState,
  StudyView,
  VariantView,
} from "../../app/contract/index.ts";
import type { PhaseName } from "../../core/index.ts";

/** Invented views, as the door would give them; numbers are made up and prove nothing about stoves. */

const variantNames = ["no skirt, wide gap", "no skirt, narrow gap", "skirt, wide gap", "skirt, narrow gap"] as const;

export const questions: readonly QuestionView[] = [
  {
    id: "1".repeat(32),
    rule: "simmerLength",
    answer: null,
    run: "R07",
    phase: "simmer",
    column: "end",
    setUp: null,
    message: "The simmer took 51 min, not 45 ± 1 min. Was the clock read at the end of the simmer?",
  },
  {
    id: "2".repeat(32),
    rule: "moistureRange",
    answer: null,
    run: "R12",
    phase: "cold-start",
    column: "moisture_wet_percent",
    setUp: null,
    message: "The wood is unusually wet: 36 %. Was the meter set to wet basis?",
  },
  {
    id: "3".repeat(32),
    rule: "waterAtStart",
    answer: null,
    run: null,
    phase: null,
    column: null,
    setUp: null,
    message: "The pots held 4.6 L at start, not 5 L or 2.5 L.",
  },
];

export const variants: readonly VariantView[] = variantNames.map((name, index) => ({
  name,
  index,
  runs: 6,
  leftOut: index === 1 ? 1 : 0,
  onBench: 0,
  factors: [
    { factor: "skirt", level: index < 2 ? "no" : "yes" },
    { factor: "gap", level: index % 2 === 0 ? "wide" : "narrow" },
  ],
}));

export const studyState: StudyState = {
  study: "tall-kettle",
  revision: 7,
  undo: { edit: 7, label: "the change of fuel after in run R02 from 1 074 to 1 047" },
  redo: null,
  readOnly: null,
  looking: null,
  fileNotes: [],
};

export const study: StudyView = {
  ...studyState,
  file: "/home/bench/studies/Tall kettle stove.boilstudy",
  names: ["Ama", "Kofi"],
  locale: "en",
  name: "Tall kettle stove, skirt and gap",
  isExample: true,
  method: "wbt",
  confidence: 0.95,
  runs: 24,
  leftOut: 1,
  onBench: [],
  variants,
  blocks: ["day 1", "day 2", "day 3"],
  operators: ["first", "second"],
  fuels: [{ name: "dry eucalyptus", detail: "net calorific value 18 400 kJ/kg ± 180 kJ/kg" }],
  settings: [
    { name: "char", detail: "net calorific value 29 500 kJ/kg ± 500 kJ/kg" },
    { name: "fuel balance", detail: "resolution ± 0.5 g; gain 0.2 % (k = 2), shared" },
    { name: "thermometer", detail: "resolution ± 0.05 °C; offset 0.5 °C, shared" },
  ],
  openQuestions: questions.length,
  questions,
  answeredQuestions: [],
  notes: ["Columns kept as notes: weather."],
  inputs: [{ file: "tall-kettle.csv", sha256: "3f9a".padEnd(64, "0c7d") }],
  leftOutRuns: [{ run: "R09", reason: "abandoned: the pot tipped over" }],
  leftOutRows: [{ file: "tall-kettle.csv", row: 31, reasons: ["fuel_end_g: heavier than before"] }],
};

export const readingColumns = [
  "start",
  "end",
  "fuel",
  "fuel_start_g",
  "fuel_end_g",
  "moisture_wet_percent",
  "char_container_g",
  "char_with_container_g",
  "air_C",
  "boiling_C",
  "pot1_empty_g",
  "pot1_start_g",
  "pot1_end_g",
  "pot1_start_C",
  "pot1_end_C",
] as const;

const two = (n: number) => String(n).padStart(2, "0");

export const ofRun = ["run", "variant", "order", "date", "block", "operator", "excluded"] as const;
const phaseQuantities = ["fuelConsumedMoist", "charFormed", "thermalEfficiency", "firepower", "timeToBoil"] as const;
const runQuantities = ["taskFuel5L", "highPowerThermalEfficiency", "turnDownRatio"] as const;
const texts = new Set<string>(["start", "end", "fuel", "note"]);

const written = (kind: "run" | "reading", column: string): GridColumnView => ({
  key: `${kind}.${column}`,
  kind,
  column,
  quantity: null,
  isNumber: kind === "run" ? column === "order" : !texts.has(column),
  isEmpty: column === "note",
});

export const gridColumns: readonly GridColumnView[] = [
  ...ofRun.map((column) => written("run", column)),
  ...[...readingColumns, "note"].map((column) => written("reading", column)),
  ...phaseQuantities.map(
    (quantity): GridColumnView => ({
      key: `result.${quantity}`,
      kind: "result",
      column: null,
      quantity,
      isNumber: true,
      isEmpty: false,
    }),
  ),
  ...runQuantities.map(
    (quantity): GridColumnView => ({
      key: `runResult.${quantity}`,
      kind: "runResult",
      column: null,
      quantity,
      isNumber: true,
      isEmpty: false,
    }),
  ),
];

function readingsOf(phase: PhaseName, run: number, variant: number): string[] {
  const isSimmer = phase === "simmer";
  const end = 1047 + run * 3 + variant * 25;
  return [
    isSimmer ? "11:20" : "10:42",
    isSimmer ? "12:05" : `11:${two(7 + (run % 5))}`,
    "dry eucalyptus",
    "1504",
    String(end),
    run === 12 ? "36" : "11.2",
    "248",
    run === 4 ? "" : String(280 + run),
    "21.5",
    "94.6",
    "612",
    "5612",
    String(5287 - run),
    "21.0",
    "94.5",
  ];
}

function row(number: number, phase: PhaseName, isFirst: boolean): GridRowView {
  const variantIndex = (number - 1) % 4;
  const name = `R${two(number)}`;
  const variant = variantNames[variantIndex] ?? "";
  const leftOut = name === "R09" ? "abandoned: the pot tipped over" : null;
  const readings = readingsOf(phase, number, variantIndex);
  const none = (text: string) => (text === "" ? null : text);
  const day = `2025-03-${two(1 + Math.floor((number - 1) / 4))}`;
  const block = `day ${1 + Math.floor((number - 1) / 8)}`;
  const operator = number % 2 === 0 ? "second" : "first";
  const first = (value: number | null) => (isFirst ? value : null);
  return {
    runId: String(100 + number),
    run: name,
    phase,
    isFirst,
    variant,
    variantIndex,
    leftOut,
    cells: [
      ...[name, variant, String(number), day, block, operator, leftOut],
      ...readings.map(none),
      null,
      1504 - Number(readings[4]),
      number === 4 ? null : 30 + number,
      0.214 + variantIndex * 0.018 + number * 0.0007,
      5210 - variantIndex * 240 + number * 7,
      phase === "simmer" ? null : 27.1 - variantIndex * 0.8 + (number % 5) * 0.3,
      first(752 - variantIndex * 66 + ((number * 7) % 23)),
      first(0.22 + variantIndex * 0.017),
      first(number === 5 ? null : 1.9 + number * 0.01),
    ],
    // Half-widths of the five results of phases and the three of runs.
    expanded: [1.6, null, 0.011, 310, phase === "simmer" ? null : 0.82, first(46), first(0.01), null],
    missing: [
      ...(number === 4 ? [{ key: "result.charFormed", because: "the char was not weighed" }] : []),
      ...(number === 5 && isFirst ? [{ key: "runResult.turnDownRatio", because: "no simmer phase" }] : []),
    ],
    questions: questions.filter((question) => question.run === name && question.phase === phase),
  };
}

const phases: readonly PhaseName[] = ["cold-start", "hot-start", "simmer"];

/** So many runs of three phases, as the grid has them; all of its rows are in `part`. */
export function gridOf(runs: number): GridView {
  const part = Array.from({ length: runs }, (_, index) =>
    phases.map((phase, at) => row(index + 1, phase, at === 0)),
  ).flat();
  const count = { rows: part.length, runs, allRows: part.length, allRuns: runs };
  return { revision: 7, columns: gridColumns, hasErrors: true, ...count, from: 0, part };
}

export const grid: GridView = gridOf(24);

/** The grid with one reading in another state. */
export function withReading(view: GridView, run: string, phase: PhaseName, column: string, text: string): GridView {
  const at = gridColumns.findIndex((one) => one.column === column);
  const change = (one: GridRowView): GridRowView =>
    one.run === run && one.phase === phase
      ? { ...one, cells: one.cells.map((cell, index) => (index === at ? text : cell)) }
      : one;
  return { ...view, part: view.part.map(change) };
}

export const questionsView: QuestionsView = {
  questions: questions.map((question) => ({
    ...question,
    runId: question.run === null ? null : String(100 + Number(question.run.slice(1))),
    variant: question.run === null ? null : (grid.part.find(({ run }) => run === question.run)?.variant ?? null),
  })),
};

const changes = [null, -12, -21, -26];
const means = [752, 663, 591, 553];

export const comparison: CompareView = {
  choice: { quantity: "taskFuel5L", variant: "skirt, wide gap", baseline: "no skirt, wide gap" },
  quantities: [
    { key: "taskFuel5L", label: "wood for 5 litres", unit: "g" },
    { key: "highPowerThermalEfficiency", label: "thermal efficiency, high power", unit: "%" },
    { key: "cold-start.timeToBoil", label: "time to boil, cold start", unit: "min" },
  ],
  variants,
  finding: "“skirt, wide gap” used 21 % less wood for 5 litres.",
  detail:
    "95 % interval 15 to 27 % less · 6 runs against 6 · if nothing had changed, runs would differ this much less than once in 1 000 such tests",
  tone: "sure",
  warnings: ["Run R07 (no skirt) is unusually high. Without it: 20 % less (14 to 26 %)."],
  chart: {
    kind: "runs-and-change",
    valueTitle: "wood for 5 litres, g of dry wood",
    changeTitle: "change from no skirt, wide gap",
    changeUnit: "%",
    noChangeText: "no change",
    decimals: 0,
    rows: variantNames.map((variant, index) => {
      const mean = means[index] ?? 0;
      const change = changes[index] ?? null;
      return {
        variant,
        index,
        runs: [-28, -14, -3, 2, 9, 33].map((off, at) => ({
          name: `R${two(index + 1 + at * 4)}`,
          value: mean + off * (index === 0 ? 0.8 : 1.3),
          leftOut: index === 1 && at === 5,
        })),
        mean: { value: mean, lower: mean - 25, upper: mean + 25, text: String(mean) },
        change:
          change === null ? null : { value: change, lower: change - 5, upper: change + 5, text: `${-change} % less` },
        isBaseline: index === 0,
      };
    }),
    textAlternative:
      "Wood for 5 litres by variant: no skirt, wide gap 752 g; no skirt, narrow gap 663 g, 12 % less; skirt, wide gap 591 g, 21 % less; skirt, narrow gap 553 g, 26 % less.",
  },
  chartTable: variantNames.map((variant, index) => ({
    variant,
    runs: [1, 2, 3, 4, 5, 6].map((at) => ({
      name: `R${two(index + at * 4 - 3)}`,
      text: String((means[index] ?? 0) + at * 6),
      leftOut: index === 1 && at === 6,
    })),
    mean: String(means[index]),
    interval: `${(means[index] ?? 0) - 25} to ${(means[index] ?? 0) + 25}`,
    standardDeviation: "24",
    coefficientOfVariation: "3.2 %",
    change: index === 0 ? "" : `${-(changes[index] ?? 0)} % less`,
  })),
  everything: [
    strip("taskFuel5L", "wood for 5 litres, g", "752 ± 17", "591 ± 35", -21, 6, "sure", "less wood: sure"),
    strip(
      "highPowerThermalEfficiency",
      "thermal efficiency, high power, %",
      "21.4 ± 1.1",
      "26.9 ± 1.2",
      26,
      9,
      "sure",
      "better: sure",
    ),
    strip(
      "cold-start.timeToBoil",
      "time to boil, cold start, min",
      "27.1 ± 2.4",
      "24.8 ± 2.1",
      -8,
      11,
      "open",
      "cannot tell: between 19 % faster and 3 % slower",
    ),
    strip(
      "cold-start.firepower",
      "firepower, cold start, W",
      "5 210 ± 340",
      "4 420 ± 290",
      -15,
      7,
      "sure",
      "gentler fire: sure",
    ),
    {
      ...strip(
        "cold-start.isoFirepower",
        "firepower, cold start, W",
        "5 300 ± 360",
        "4 500 ± 310",
        -15,
        8,
        "sure",
        "gentler fire: sure",
      ),
      formulaOnly: true,
    },
    {
      ...strip("turnDownRatio", "turn-down ratio", "1.9 ± 0.3", "", 0, 0, "open", "cannot tell: one run"),
      strip: null,
    },
  ],
  surer: [
    "Nearly all of the width of this interval comes from run-to-run scatter.",
    "Four more runs of each would narrow it to ± 5 %. A better balance would change it by less than 1 %.",
  ],
};

function strip(
  key: string,
  label: string,
  baseline: string,
  variant: string,
  value: number,
  half: number,
  tone: "sure" | "open",
  verdict: string,
): CompareView["everything"][number] {
  return {
    key,
    label,
    baseline,
    variant,
    verdict,
    tone,
    formulaOnly: false,
    strip: {
      kind: "change-strip",
      change: { value, lower: value - half, upper: value + half, text: `${value} %` },
      extent: 40,
      tone,
      textAlternative: `${label}: ${value} %, between ${value - half} and ${value + half} %`,
    },
  };
}
