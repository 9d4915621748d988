import { describe, expect, it } from "vitest";
import { run } from "../../app/cli/run.ts";
import type { PlanNumbers } from "../../core/index.ts";
import { expectNumber } from "../numbers.ts";
import { cellOf, readExpected, readInput } from "../reference/read-reference.ts";

async function answered(commandLine: readonly string[]) {
  const done = { code: 0, out: "", error: "" };
  done.code = await run(["plan", ...commandLine], {
    out: (text) => {
      done.out += text;
    },
    error: (text) => {
      done.error += text;
    },
    progress: () => {},
  });
  return done;
}

const input = readInput("plan-questions");

describe("a question of planning", () => {
  it.each(readExpected("plan-questions"))(
    "is answered as R does: $case (reference plan-questions)",
    async (expected) => {
      const commandLine = cellOf(input.get(String(expected.case)), "commandLine").split(" ");
      const done = await answered([...commandLine, "--json"]);
      expect([done.code, done.error]).toEqual([0, ""]);
      const plan = JSON.parse(done.out) as PlanNumbers;
      const { runsPerVariant, exact, powerReached, detectable, atUpperLimit } = plan;
      const isSame = (actual: number | null | undefined, field: string) => {
        const value = expected[field];
        if (value === null) expect(actual ?? null, field).toBeNull();
        else expectNumber(actual, Number(value), { relative: 1e-6 });
      };
      isSame(runsPerVariant, "runsPerVariant");
      isSame(exact, "exact");
      isSame(powerReached, "powerReached");
      isSame(detectable?.difference, "detectable");
      isSame(detectable?.power, "powerOfRuns");
      isSame(atUpperLimit?.standardDeviation, "upperLimit");
      isSame(atUpperLimit?.runsPerVariant, "runsAtLimit");
      isSame(atUpperLimit?.exact, "exactAtLimit");
      expect(plan.notes).toEqual([]);
      // What is printed holds the answer, in the unit of the question.
      const { out } = await answered(commandLine);
      if (runsPerVariant !== null) expect(out).toContain(`${runsPerVariant} runs of`);
      const inPercent = commandLine.some((text) => text.endsWith("%") || text === "--relative");
      expect(/(difference|deviation) of [\d.]+ %/.test(out)).toBe(inPercent && !commandLine.includes("--mean"));
    },
  );

  it.each([
    [["--sd", "45", "--detect", "10%"]],
    [["--sd", "8%", "--detect", "40"]],
    [["--sd", "8%", "--runs", "5", "--detect", "1"]],
    [["--sd", "45", "--detect", "40", "--mean", "400"]],
    [["--sd", "45", "--detect", "%", "--mean", "400"]],
    [["--sd", "-8%", "--detect", "10%"]],
    [["--sd", "8%", "--detect", "10%", "--mean", "0"]],
  ])("per cent of nothing, or of something not asked for, is wrong usage: %j", async (commandLine) => {
    const done = await answered(commandLine);
    expect([done.code, done.out]).toEqual([2, ""]);
    expect(done.error).toContain("Usage:");
  });
});
