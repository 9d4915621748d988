import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { BenchRunView } from "../../app/contract/index.ts";
import type { PhaseName } from "../../core/index.ts";
import { BenchStudy, fieldOf } from "./bench-door.ts";
import { exampleRun, exampleVariant } from "./example-run.ts";

let bench: BenchStudy;
beforeEach(async () => {
  bench = await BenchStudy.onExample();
});
afterEach(() => bench.close());

const allQuestions = (view: BenchRunView) => [
  ...view.questions,
  ...view.steps.flatMap(({ fields }) => fields.flatMap(({ questions }) => questions)),
];

/** Types the run up to one field, which gets another text; then how the Bench takes that. */
async function slipped(phase: PhaseName, column: string, text: string, before: Readonly<Record<string, string>> = {}) {
  const run = await bench.beginRun(exampleVariant, { charAtHotStart: true });
  for (const [one, name, good] of exampleRun) {
    const isSlip = one === phase && name === column;
    const written = isSlip ? text : (before[`${one} ${name}`] ?? good);
    const there = fieldOf(await bench.bench(run), one, name).text;
    if (there === written) continue;
    const reply = await bench.tryType(run, one, name, written, there);
    if (isSlip) return { refused: reply.ok ? null : reply.message, view: await bench.bench(run) };
    if (!reply.ok) expect.fail(`${one} ${name}: ${reply.message}`);
    const asked = before[`${one} ${name}`] === undefined ? allQuestions(await bench.bench(run)) : [];
    if (Object.keys(before).length === 0) expect(asked.map(({ message }) => message)).toEqual([]);
  }
  expect.fail(`no field ${phase} ${column}`);
}

describe("a good run", () => {
  test("is asked nothing while it is typed, nor when it is finished", async () => {
    const run = await bench.beginRun(exampleVariant, { charAtHotStart: true });
    for (const [phase, column, text] of exampleRun) {
      await bench.type(run, phase, column, text, fieldOf(await bench.bench(run), phase, column).text);
      const messages = allQuestions(await bench.bench(run)).map(({ message }) => message);
      expect([phase, column, messages]).toEqual([phase, column, []]);
      for (const message of messages) expect(message).not.toMatch(/NaN|undefined|Infinity/);
    }
    await bench.edit({ kind: "finishRun", run });
    const { questions } = await bench.studyQuestions();
    expect(questions.filter((one) => one.runId === run && one.rule !== "dateFar")).toEqual([]);
  }, 120_000);
});

test("a pot with water that was not weighed empty yet is not asked about: nobody knows what is in it", async () => {
  const run = await bench.beginRun(exampleVariant, { charAtHotStart: true });
  for (const [phase, column, text] of exampleRun) {
    if (column === "pot1_empty_g") continue;
    const there = fieldOf(await bench.bench(run), phase, column).text;
    if (there !== text) await bench.type(run, phase, column, text, there);
    if (phase === "cold-start" && column === "fuel_start_g") break;
  }
  expect(allQuestions(await bench.bench(run)).map(({ message }) => message)).toEqual([]);
  // Weighed empty afterwards, and 500 g of water too few: it is asked at the pot with water.
  await bench.type(run, "cold-start", "pot1_start_g", "5111", "5611");
  await bench.type(run, "cold-start", "pot1_empty_g", "612");
  const asked = await bench.bench(run);
  expect(asked.questions).toEqual([]);
  expect(fieldOf(asked, "cold-start", "pot1_start_g").questions.map(({ rule }) => rule)).toEqual(["waterAtStart"]);
});

describe("slips, at the field at which they can first be seen", () => {
  /** Field, what is typed, how it is told (part of the sentence), and what was typed otherwise before. */
  const slips: readonly (readonly [
    what: string,
    phase: PhaseName,
    column: string,
    text: string,
    told: RegExp,
    before?: Readonly<Record<string, string>>,
  ])[] = [
    ["kg for g: pot with water", "cold-start", "pot1_start_g", "5.611", /612|kg|lighter/],
    ["kg for g: wood", "cold-start", "fuel_start_g", "1.604", /kg|1.604/],
    ["°F for °C: cool water", "cold-start", "pot1_start_C", "68.5", /20\.3|°F|68\.5/],
    ["°F for °C: air", "cold-start", "air_C", "66", /66/],
    ["°F for °C: boiling water", "cold-start", "pot1_end_C", "202", /202/],
    ["end before start", "cold-start", "end", "08:43", /23|midnight|hours/],
    ["no time between", "cold-start", "end", "09:14", /./],
    ["char container lighter with char than empty", "cold-start", "char_with_container_g", "195", /248/],
    ["more wood left than there was", "cold-start", "fuel_end_g", "1907", /1604/],
    ["pot heavier after than before", "cold-start", "pot1_end_g", "5919", /5611/],
    ["4.9 kg of water lost in 29 minutes", "cold-start", "pot1_end_g", "741", /4\.9 kg/],
    ["tare forgotten at the end", "cold-start", "pot1_end_g", "4807", /./],
    ["dry basis for wet", "cold-start", "moisture_wet_percent", "57", /57/],
    ["transposed digits: wood left", "cold-start", "fuel_end_g", "97", /./],
    ["empty pot that other runs contradict", "cold-start", "pot1_empty_g", "712", /612/],
    ["empty container that other runs contradict", "cold-start", "char_container_g", "428", /248/],
    ["water not at the boil", "cold-start", "pot1_end_C", "84.4", /94\.6/],
    ["boiling point of another place", "cold-start", "boiling_C", "99.6", /99\.6/],
    ["water of the second phase not drawn fresh", "hot-start", "pot1_start_C", "60.4", /60\.4/],
    ["wood carried over", "hot-start", "fuel_end_g", "1443", /./],
    ["hot start half an hour before the cold one ended", "hot-start", "start", "09:12", /./],
    ["char at the simmer’s start is not the hot start’s", "simmer", "char_at_start_g", "15", /51/],
    ["a simmer of an hour", "simmer", "end", "11:24", /60/],
    ["simmer far below boiling", "simmer", "pot1_end_C", "82.9", /82\.9/],
  ];

  test.for(slips)("%s", async ([, phase, column, text, told, before]) => {
    const { refused, view } = await slipped(phase, column, text, before);
    const field = fieldOf(view, phase, column);
    const messages = refused === null ? field.questions.map(({ message }) => message) : [refused];
    if (messages.length === 0) {
      expect.fail(`not seen; ${JSON.stringify(allQuestions(view).map((one) => [one.phase, one.column, one.message]))}`);
    }
    // Without the narrow spaces between thousands.
    expect(messages.join(" ").replaceAll("\u202f", "")).toMatch(told);
    expect(messages.join(" ")).not.toMatch(/NaN|undefined|Infinity/);
  });
});
