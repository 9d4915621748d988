import { describe, expect, it } from "vitest";
import { ask } from "./slips/ask.ts";

type Cells = Record<string, string>;

/** One run, made up by hand: limits are those of within-run.ts (common practice). */
const cold: Cells = {
  ...{ run: "R1", variant: "A", phase: "cold-start", duration_min: "30", fuel_start_g: "1203", fuel_end_g: "603" },
  ...{ moisture_wet_percent: "12", net_calorific_kJ_per_kg: "18400", char_g: "30", air_C: "22", boiling_C: "98" },
  ...{ pot1_empty_g: "900", pot1_start_g: "5900", pot1_end_g: "5780", pot1_start_C: "20", pot1_end_C: "98" },
};
const hot: Cells = { ...cold, phase: "hot-start", duration_min: "28", fuel_start_g: "1156", fuel_end_g: "586" };

function askedOf(changedCold: Cells, changedHot: Cells) {
  const said = ask([
    { ...cold, ...changedCold },
    { ...hot, ...changedHot },
  ]);
  expect(said.filter(({ isError }) => isError)).toEqual([]);
  return said
    .filter(({ run }) => run === "R1")
    .map((question) => ({ ...question, message: question.message.replace(/\s/gu, " ") }));
}
const rulesOf = (changedCold: Cells, changedHot: Cells) => askedOf(changedCold, changedHot).map(({ rule }) => rule);

describe("a lone run by itself", () => {
  it("nothing is asked of an ordinary one", () => {
    expect(rulesOf({}, {})).toEqual([]);
  });

  it.each([
    // 1.8 times 30 min and 600 g; 7 K above 20 °C; 6 % of 5000 g.
    ["time", { duration_min: "54" }, { duration_min: "54.1" }],
    ["wood", { fuel_start_g: "1666" }, { fuel_start_g: "1667" }],
    ["temperature", { pot1_start_C: "27" }, { pot1_start_C: "27.1" }],
  ])("%s beside the cold start: within its limit no, beyond it yes", (_, within, beyond) => {
    expect(rulesOf({}, within)).not.toContain("phasesUnlike");
    expect(rulesOf({}, beyond)).toContain("phasesUnlike");
  });

  it("water that one phase has more of", () => {
    // 5000 less 5000 × 6 % is 4700.
    expect(rulesOf({}, { pot1_start_g: "5600", pot1_end_g: "5480" })).not.toContain("phasesUnlike");
    expect(rulesOf({}, { pot1_start_g: "5599", pot1_end_g: "5479" })).toContain("phasesUnlike");
  });

  it("the cold start's wood left as the hot start's before, where it burnt otherwise", () => {
    const [question] = askedOf({}, { fuel_start_g: "603", fuel_end_g: "203" });
    expect(question).toMatchObject({ rule: "phasesUnlike", phase: "hot-start", column: "fuel_start_g" });
    expect(question?.message).toContain("400 g of wood were burnt here and 600 g in the cold start");
    expect(rulesOf({}, { fuel_start_g: "603", fuel_end_g: "63" })).not.toContain("phasesUnlike");
  });

  it("a pot weighed without its own mass all through: one question, with the arithmetic", () => {
    const net = { pot1_start_g: "5000", pot1_end_g: "4880" };
    const asked = askedOf(net, net);
    expect(asked).toHaveLength(1);
    expect(asked[0]).toMatchObject({ rule: "missingTare", phase: "cold-start", column: "pot1_start_g" });
    expect(asked[0]?.message).toContain("5 000 − 900 = 4 100 g");
    // 1.5 % off 5 L it may be water alone, further it is not said.
    const further = { pot1_start_g: "5076", pot1_end_g: "4956" };
    expect(rulesOf(further, further)).not.toContain("missingTare");
  });

  it("an empty pot with two digits exchanged", () => {
    const [question] = askedOf(
      { pot1_empty_g: "1258", pot1_start_g: "6528", pot1_end_g: "6408" },
      {
        pot1_empty_g: "1258",
        pot1_start_g: "6528",
        pot1_end_g: "6408",
      },
    );
    expect(question).toMatchObject({ rule: "valueSlipped", column: "pot1_empty_g" });
    expect(question?.message).toContain("1 528");
  });
});
