import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compareVariants } from "../../core/analysis/comparison.ts";
import { type Finding, findingOf } from "../../core/analysis/finding.ts";
import { allQuantityKeys, keyText, type QuantityKey } from "../../core/quantity/quantity-key.ts";
import { quantityEntry } from "../../core/quantity/quantity-table.ts";
import { isBoilingPhase, isHoldingPhase } from "../../core/readings/phase.ts";
import { keyOf, runsWith } from "../build/results.ts";

const task = keyOf("taskFuel5L");
const efficiency = keyOf("highPowerThermalEfficiency");
const char = keyOf("cold-start.charFormed");

/** The finding on the skirt's values against those without. */
function finding(
  key: QuantityKey,
  without: readonly number[],
  withSkirt: readonly number[],
  more: { confidence?: number; blocks?: readonly string[] } = {},
): Finding {
  const blocks = more.blocks === undefined ? {} : { blocks: more.blocks };
  const runs = [...runsWith("no skirt", key, without, blocks), ...runsWith("skirt", key, withSkirt, blocks)];
  const confidence = more.confidence ?? 0.95;
  const comparison = compareVariants(runs, { key, baseline: "no skirt", variant: "skirt", confidence, locale: "en" });
  if (comparison === null) throw new Error("no comparison");
  return findingOf(comparison, "en");
}

describe("a finding says direction, size, interval, number of runs and how sure", () => {
  it("when it is sure", () => {
    // Means 1000 and 780. Fieller's limits, worked in R 4.2.2 from the definition with qt: 0.7637 and 0.7966.
    const sure = finding(task, [990, 1010, 1000, 980, 1020, 1000], [770, 790, 780, 760, 800, 780]);
    expect(sure.tone).toBe("sure");
    expect(sure.sentence).toMatch(
      /^“skirt” used 22 % less wood for 5 litres than “no skirt” \(95 % interval 20 to 24 % less; 6 runs against 6\)\.$/,
    );
    expect(sure.verdict).toBe("better");
    expect(sure.directed).toBe("22 % less");
    expect(sure.detail).toMatch(
      / · if the two were alike, runs would differ this much less than once in 1\u202f000 such tests$/,
    );
  });

  it("when it is not: that the runs cannot tell, between what, and what would", () => {
    // Fieller's limits, worked in R 4.2.2 from the definition with qt: 0.8838 and 1.0706.
    const open = finding(task, [1000, 1080, 950, 1120, 1010, 900], [960, 1010, 1060, 890, 930, 1040]);
    expect(open.tone).toBe("open");
    expect(open.sentence).toMatch(
      /^These runs cannot tell “skirt” from “no skirt” in wood for 5 litres: the difference lies between 12 % less and 7 % more \(95 % interval; 6 runs against 6\)\. With 4 more runs of each there would be an 80 % chance of showing a difference of 10 %\.$/,
    );
    expect(open.verdict).toBe("cannot tell: between 12 % less and 7 % more");
  });

  it("of shares in percentage points, and what more runs would show in the same", () => {
    const open = finding(efficiency, [0.2, 0.25, 0.22], [0.21, 0.24, 0.25], { confidence: 0.9 });
    // A tenth of (20 + 25 + 22) / 3 = 22.333 % is 2.2 percentage points; 14 runs of each by R's power.t.test (runs-outlook).
    expect(open.sentence).toMatch(
      /between 3 percentage points less and 5 percentage points more \(90 % interval; 3 runs against 3\)\. With 11 more runs of each there would be an 80 % chance of showing a difference of 2\.2 percentage points\.$/,
    );
    const sure = finding(efficiency, [0.2, 0.205, 0.195], [0.25, 0.256, 0.245]);
    expect(sure.sentence).toMatch(
      /^“skirt” had a thermal efficiency at high power 5 percentage points higher than “no skirt” \(95 % interval 4 to 6 percentage points more; 3 runs against 3\)\.$/,
    );
    // -0.0085 to 0.0185 by Welch: "1 percentage point", not "points".
    const one = finding(efficiency, [0.2, 0.21, 0.19, 0.2], [0.205, 0.214, 0.196, 0.205]);
    expect(one.sentence).toContain("between 1 percentage point less and 2 percentage points more");
  });

  it("with one run of one: the difference, and that nothing is said about how sure", () => {
    const one = finding(task, [1000], [900, 910, 890]);
    expect(one.tone).toBe("open");
    expect(one.sentence).toBe(
      "In these runs “skirt” used 10 % less wood for 5 litres than “no skirt”, but how sure that is cannot be said (3 runs against 1; one run gives no interval).",
    );
    expect(one.verdict).toBe("no interval");
    expect(one.range).toBeNull();
    expect(one.warnings).toEqual(["“no skirt” has one run: nothing can be said about its scatter."]);
  });

  it("without any variation", () => {
    const constant = finding(task, [1000, 1000, 1000], [900, 900, 900]);
    expect(constant.sentence).toBe(
      "In these runs “skirt” used 10 % less wood for 5 litres than “no skirt”, but how sure that is cannot be said (3 runs against 3; runs without any variation give no interval).",
    );
    const equal = finding(keyOf("hot-start.firepower"), [3000, 3000, 3000], [3000, 3000, 3000]);
    expect(equal.headline).toBe(
      "In these runs “skirt” and “no skirt” did not differ in firepower, hot start, but how sure that is cannot be said.",
    );
    expect(equal.directed).toBe("no change");
  });

  it("takes values that differ by rounding alone for equal", () => {
    const [left, right] = [0.3, 0.1 + 0.2];
    expect(left).not.toBe(right);
    expect(finding(task, [left], [right]).sentence).toContain("did not differ in wood for 5 litres");
    expect(finding(efficiency, [left, left], [right, right]).directed).toBe("no change");
  });

  it("in the quantity's own unit where the baseline's mean is not clearly above zero, saying why", () => {
    const unbounded = finding(char, [1, -3, 4, 2], [5, 6, 7, 8]);
    expect(unbounded.sentence).toMatch(
      /^“skirt” left 6 g more char in the cold start than “no skirt” \(95 % interval 1 to 10 g more;/,
    );
    expect(unbounded.warnings).toContain(
      "The mean of “no skirt” is not clearly above zero, so no percentage is given.",
    );
    expect(finding(char, [-10, -11, -12], [-5, -6, -7]).sentence).toContain("left 5 g more char");
  });

  it("never says more than 100 % less: a variant at or under zero is told in the quantity's own unit", () => {
    const negative = finding(char, [10, 11, 12, 10], [-5, -6, -7, -4]);
    expect(negative.sentence).toContain("left 16 g less char");
    expect(negative.warnings).toEqual(["The mean of “skirt” is not clearly above zero, so no percentage is given."]);
    expect(finding(char, [10], [-5]).sentence).toContain("left 15 g less char");
  });

  it("warns where one run decides, either way, and of none where none does", () => {
    // By R 4.2's t.test at 95 %: all runs -47.4 to -3.1; without one of the runs 1, 2, 4 and 5 of "skirt" the interval holds zero.
    const old = [900, 912, 905, 908];
    const sure = finding(task, old, [890, 893, 850, 892, 880]);
    expect(sure.tone).toBe("sure");
    expect(sure.warnings).toEqual([
      "Whether “skirt” differs from “no skirt” hangs on single runs: without run “skirt 2” of “skirt” (or one of 3 others instead) the runs could not tell. All runs count; take it with caution, and make more.",
    ]);
    // All runs -29.2 to 13.9; without run 3 of "skirt" -23.1 to -7.9; no other one changes it.
    const open = finding(task, old, [890, 893, 930, 892, 888]);
    expect(open.tone).toBe("open");
    expect(open.warnings).toEqual([
      "Whether “skirt” differs from “no skirt” hangs on one run: without run “skirt 3” of “skirt” the difference would be clear of zero. All runs count; make more.",
    ]);
    expect(finding(task, old, [860, 863, 858, 862]).warnings).toEqual([]);
  });

  it("says that blocks are ignored, where there are two or more", () => {
    const ignored = "Days (or other blocks) in which the runs were made are ignored here.";
    const blocked = finding(task, [1000, 1010, 990], [900, 905, 903], { blocks: ["Monday", "Tuesday"] });
    expect(blocked.sentence.endsWith(ignored)).toBe(true);
    expect(blocked.warnings).toContain(ignored);
    const oneDay = finding(task, [1000, 1010, 990], [900, 905, 903], { blocks: ["Monday"] });
    expect(oneDay.sentence).not.toContain("ignored");
  });

  it.each([
    // p of R 4.2.2's t.test (Welch), and the number of tests rounded to the cautious side.
    [
      "0.522513",
      [1000, 1080, 950, 1120, 1010, 900],
      [960, 1010, 1060, 890, 930, 1040],
      "in about 53 of 100 such tests",
    ],
    ["0.0789873: once in 12.7", [990, 1000, 1010], [972, 990, 983], "about once in 12 such tests"],
    ["0.0492637: once in 20.3", [990, 1000, 1010], [970, 985, 982], "about once in 20 such tests"],
    ["0.00701890: once in 142.5", [990, 1000, 1010, 1005], [966, 985, 981, 978], "about once in 100 such tests"],
    ["0.00572444: once in 174.7", [990, 1000, 1010, 1005], [960, 985, 975, 970], "about once in 150 such tests"],
    ["0.000737255", [990, 1000, 1010, 1003, 998], [975, 983, 970, 980, 981], "less than once in 1\u202f000 such tests"],
  ])("tells how likely by chance: p = %s", (_p, without, withSkirt, words) => {
    const { detail } = finding(task, without, withSkirt);
    expect(detail.endsWith(`if the two were alike, runs would differ this much ${words}`)).toBe(true);
  });

  it("warns of two runs, not of three", () => {
    expect(finding(task, [1000, 1010], [900, 910]).warnings).toEqual([
      "“skirt” has 2 runs: an interval from so few depends heavily on chance.",
      "“no skirt” has 2 runs: an interval from so few depends heavily on chance.",
    ]);
    expect(finding(task, [1000, 1010, 990], [900, 910, 890]).warnings).toEqual([]);
  });

  it("does not count a run that was left out", () => {
    const counted = [...runsWith("no skirt", task, [1000, 1010, 990]), ...runsWith("skirt", task, [900, 905, 895])];
    const out = [...runsWith("skirt", task, [5000, 1], { leftOut: "fire went out" })];
    const request = { key: task, baseline: "no skirt", variant: "skirt", confidence: 0.95, locale: "en" } as const;
    expect(compareVariants([...counted, ...out], request)).toEqual(compareVariants(counted, request));
    expect(compareVariants([...counted.slice(0, 3), ...out], request)).toBeNull();
  });
});

const reachable = allQuantityKeys.filter(({ phase, quantity }) => {
  if (phase === null) return true;
  if (quantity === "lowPowerSpecificEnergyRate") return isHoldingPhase(phase);
  if (/Corrected$|^effectiveWaterBoiled$/.test(quantity)) return isBoilingPhase(phase);
  return true;
});

describe.each(reachable.map((key) => [keyText(key), key] as const))("the finding on %s", (_text, key) => {
  const entry = quantityEntry(key.quantity, "en");
  const [high, low] = [
    [0.3, 0.31, 0.32, 0.305],
    [0.25, 0.26, 0.255, 0.245],
  ];

  it("has direction and verdict right", () => {
    const less = finding(key, high, low);
    const more = finding(key, low, high);
    expect(less.headline).toMatch(/\b(less|lower|slower)\b/);
    expect(less.headline).not.toMatch(/\b(more|higher|faster)\b/);
    expect(more.headline).toMatch(/\b(more|higher|faster)\b/);
    expect(less.directed).toMatch(/ less$/);
    expect(more.directed).toMatch(/ more$/);
    const verdicts = {
      more: ["worse", "better"],
      less: ["better", "worse"],
      neither: ["lower", "higher"],
    }[entry.direction];
    expect([less.verdict, more.verdict]).toEqual(verdicts);
  });

  it("is a sentence: begins with a capital or a quotation mark, one space, one full stop, no empty part", () => {
    for (const { sentence } of [finding(key, high, low), finding(key, high, [0.29, 0.33, 0.31, 0.3])]) {
      expect(sentence).toMatch(/^[“T][\s\S]*\.$/);
      expect(sentence).not.toMatch(/ {2}|undefined|null|NaN|Infinity|\.\.|\( | \)| ,/);
      expect(sentence).not.toMatch(/\ba (?=[aeiou])/i);
      expect(sentence).not.toMatch(/\ban (?![aeiou8]|1[18])/i);
    }
  });
});

describe("the quantities' directions", () => {
  it.each([
    ["taskFuel5L", "less"],
    ["taskTime", "less"],
    ["highPowerThermalEfficiency", "more"],
    ["meanIsoEfficiencyWithChar", "more"],
    ["coRate", "less"],
    ["pm25PerEnergyDelivered", "less"],
    ["specificFuelConsumption", "less"],
    ["lowPowerSpecificEnergyRate", "less"],
    ["firepower", "neither"],
    ["burningRate", "neither"],
    ["waterEvaporated", "neither"],
  ] as const)("of %s: %s is better", (quantity, direction) => {
    expect(quantityEntry(quantity, "en").direction).toBe(direction);
  });
});

describe("words never contradict the numbers", () => {
  const values = (centre: number) =>
    fc.array(fc.double({ min: centre * 0.8, max: centre * 1.2, noNaN: true }), { minLength: 2, maxLength: 8 });
  const groups = fc.double({ min: 0.7, max: 1.3, noNaN: true }).chain((ratio) => fc.tuple(values(1), values(ratio)));
  /** An end written as zero with a direction after it. */
  const zeroWithDirection = /(?<![\d.,])0(\.0*)?( to [\d. \u202f]+)?( %| percentage points?| \S+)? (less|more)/;

  it.each([
    ["taskFuel5L", 1000],
    ["simmer.lowPowerSpecificEnergyRate", 0.03],
    ["highPowerThermalEfficiency", 0.25],
    ["cold-start.firepower", 6000],
  ])("for random %s", (text, scale) => {
    fc.assert(
      fc.property(groups, ([baseline, variant]) => {
        const scaled = (list: readonly number[]) => list.map((value) => value * scale);
        const found = finding(keyOf(text), scaled(baseline), scaled(variant));
        const bothWays = found.range?.startsWith("between") ?? false;
        if (found.range !== null) expect(bothWays).toBe(found.tone === "open");
        if (found.tone === "sure") {
          expect(`${found.sentence} ${found.directed}`).not.toMatch(zeroWithDirection);
          expect(found.verdict).toMatch(/^(better|worse|lower|higher)$/);
        } else {
          expect(found.verdict).toMatch(/^(cannot tell: |no interval)/);
        }
      }),
      { numRuns: 100 },
    );
  });

  it("when an end is very near zero", () => {
    // The same scatter, moved until the interval's end just leaves zero, by bisection on the tone.
    const baseline = [1000, 1010, 1005, 1002];
    let [open, sure] = [0, 100];
    while (sure - open > 1e-9) {
      const middle = (open + sure) / 2;
      const { tone } = finding(
        task,
        baseline,
        baseline.map((value) => value + middle),
      );
      if (tone === "sure") sure = middle;
      else open = middle;
    }
    const barely = finding(
      task,
      baseline,
      baseline.map((value) => value + sure),
    );
    expect(barely.sentence).toMatch(/used \d\.\d % more .* \(95 % interval just over 0 to \d\.\d % more;/);
    const notQuite = finding(
      task,
      baseline,
      baseline.map((value) => value + open),
    );
    expect(notQuite.sentence).toMatch(/lies between 0 and \d\.\d % more \(95 % interval;/);
  });
});
