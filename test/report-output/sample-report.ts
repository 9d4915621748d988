import type { ChartSpecification, ReportDocument, VariantRow } from "../../core/index.ts";

/** Runs about a mean at fixed places, so that two of each variant nearly coincide. */
const places = [-1.4, -0.4, 0.05, 0.12, 0.5, 1.1];

/** A variant with six invented runs. */
export function inventedRow(
  index: number,
  variant: string,
  mean: number,
  spread: number,
  change: VariantRow["change"],
): VariantRow {
  return {
    variant,
    index,
    runs: places.map((place, at) => ({
      name: `run ${index * places.length + at + 1}`,
      value: mean + place * spread,
      leftOut: index === 1 && at === 5,
    })),
    mean: { value: mean, lower: mean - 1.1 * spread, upper: mean + 1.1 * spread, text: String(Math.round(mean)) },
    change,
    isBaseline: index === 0,
  };
}

/** Chart of the four invented variants of the sketches. */
export const inventedChart: ChartSpecification = {
  kind: "runs-and-change",
  valueTitle: "wood for 5 litres, g of dry wood",
  changeTitle: "change from no skirt, wide gap",
  changeUnit: "%",
  noChangeText: "no change",
  decimals: 0,
  rows: [
    inventedRow(0, "no skirt, wide gap", 752, 16, null),
    inventedRow(1, "no skirt, narrow gap", 663, 29, { value: -12, lower: -17, upper: -6, text: "12 % less" }),
    inventedRow(2, "skirt, wide gap", 591, 35, { value: -21, lower: -27, upper: -15, text: "21 % less" }),
    inventedRow(3, "skirt, narrow gap", 553, 28, { value: -26, lower: -31, upper: -21, text: "26 % less" }),
  ],
  textAlternative:
    "Wood for 5 litres by variant. No skirt, wide gap: 752 g. Skirt, wide gap: 591 g, which is 21 % less, interval 15 to 27 % less.",
};

/** A whole report about two invented variants: every kind of block, and tables long enough to go on over pages. */
export const inventedReport: ReportDocument = {
  locale: "en",
  kind: "Boil-test report · full",
  title: "Tall kettle stove, skirt and gap",
  banner: "Invented example: not real tests",
  question: "Does a skirt round the pot save wood on the tall kettle stove?",
  finding: "With the skirt the stove used 21\u00a0% less wood to boil 5\u00a0litres.",
  lead: [
    "The true saving lies between 15 and 27\u00a0% with 95\u00a0% confidence, from 6 runs with the skirt and 6 without, made on 6 days in changing order.",
    "Boiling took about as long: these runs cannot tell a difference in time.",
  ],
  blocks: [
    { kind: "chart", chart: inventedChart, caption: "Each shape is one run. Bars are means with 95 % intervals." },
    {
      kind: "table",
      table: {
        caption: "Results by variant, means with 95 % intervals",
        columns: [
          { label: "variant", align: "text", weight: 2 },
          { label: "runs", align: "number" },
          { label: "wood for 5 litres, g", align: "number" },
          { label: "efficiency, %", align: "number" },
          { label: "time to boil, min", align: "number" },
        ],
        rows: [
          ["no skirt, wide gap", "6", "752 ± 17", "21.4 ± 1.1", "27.1 ± 2.1"],
          ["no skirt, narrow gap", "5", "663 ± 29", "23.3 ± 1.2", "26.3 ± 2.2"],
          ["skirt, wide gap", "6", "591 ± 35", "25.2 ± 1.3", "25.5 ± 2.3"],
          ["skirt, narrow gap", "6", "553 ± 28", "27.1 ± 1.4", "24.7 ± 2.4"],
        ],
        note: "Wood is counted as dry wood; remaining char is taken off.",
      },
    },
    {
      kind: "aside",
      title: "Before you rely on it",
      texts: [
        "Run 7 (no skirt) is unusually high. Without it the stove with the skirt used 20 % less (14 to 26 %).",
        "One run of no skirt, narrow gap was left out because the scale was moved.",
      ],
      tone: "attention",
    },
    { kind: "heading", level: 2, text: "What this does not show" },
    {
      kind: "paragraph",
      text: "A boil test compares stoves in a laboratory. It does not predict how much wood a household will save, and it is not a certification.",
      tone: "plain",
    },
    {
      kind: "aside",
      title: "Carbon monoxide",
      texts: ["Burning wood gives off carbon monoxide: test outdoors or under a hood, with an alarm."],
      tone: "plain",
    },
    { kind: "heading", level: 2, text: "Annex: how the figures were found", startsPage: true },
    { kind: "heading", level: 3, text: "Thermal efficiency" },
    {
      kind: "paragraph",
      text: "η = (m·c·ΔT + Δm·L) / (f·q), with Σ over phases; σ is the standard uncertainty → coverage factor k = 2.45 where ν = 6.",
      tone: "plain",
    },
    {
      kind: "list",
      items: [
        "Latent heat at the boiling point of the place, from the altitude.",
        "Char is taken off at its own calorific value, and its mass is weighed while it is still hot; this item is long enough that it needs a second line on the page.",
        "Water that has left the pot counts as heat used.",
      ],
    },
    { kind: "heading", level: 3, text: "All runs" },
    {
      kind: "table",
      table: {
        caption: "Every run",
        columns: [
          { label: "run", align: "text" },
          { label: "variant", align: "text", weight: 2 },
          { label: "day", align: "text" },
          { label: "wood, g", align: "number" },
          { label: "char, g", align: "number" },
          { label: "water at start, g", align: "number" },
          { label: "water at end, g", align: "number" },
          { label: "time to boil, min", align: "number" },
          { label: "efficiency, %", align: "number" },
          { label: "remark", align: "text", weight: 3 },
        ],
        rows: Array.from({ length: 48 }, (_, at) => [
          `run ${at + 1}`,
          at % 2 === 0 ? "no skirt, wide gap" : "skirt, wide gap",
          `day ${1 + Math.floor(at / 4)}`,
          String(700 + ((at * 37) % 90)),
          String(40 + ((at * 13) % 25)),
          "5 000",
          String(4700 - ((at * 17) % 60)),
          (24 + ((at * 7) % 40) / 10).toFixed(1),
          (21 + ((at * 11) % 50) / 10).toFixed(1),
          at === 6 ? "scale moved; left out" : "",
        ]),
        note: "Runs in the order in which they were made.",
      },
    },
    { kind: "paragraph", text: "The readings themselves are in the data package.", tone: "soft" },
  ],
  foot: "Method: Water Boiling Test 4.2.3 · analysis: Boilbench 0.1 · readings SHA-256 3f9a…c2",
  pageOf: (page, pages) => `${page} of ${pages}`,
  properties: { program: "Boilbench 0.1", subject: "Boil-test report" },
};
