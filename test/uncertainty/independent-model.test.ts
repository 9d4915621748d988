import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readReadings, readSettings, readTable } from "../../app/import/index.ts";
import { atOnce } from "../../core/numeric/in-steps.ts";
import type { Study } from "../../core/readings/study.ts";
import { moments } from "../../core/statistics/moments.ts";
import {
  combinedDifference,
  combinedMean,
  combinedRatio,
  type GroupWithErrors,
} from "../../core/uncertainty/combined-comparison.ts";
import { firstOrder } from "../../core/uncertainty/first-order.ts";
import { monteCarlo } from "../../core/uncertainty/monte-carlo/monte-carlo.ts";
import { runErrors } from "../../core/uncertainty/run-errors.ts";
import { runModel } from "../../core/uncertainty/run-model.ts";
import { expectNumber } from "../numbers.ts";
import { numberOf, type ReferenceCase, readExpected } from "../reference/read-reference.ts";

/**
 * Whole files against a second model of the test, written in Python from the published formulas and the description of the files alone:
 * derivatives by complex steps, trials by numpy (test/reference/uncertainty).
 */
const reference = readExpected("uncertainty");
const referenceTrials = 400_000;
const trials = 50_000;

function bytesOf(file: string): Uint8Array {
  return readFileSync(new URL(`../reference/uncertainty/cases/${file}`, import.meta.url));
}

function studyOf(name: string): Study {
  const { settings } = readSettings(bytesOf(`${name}.json`), `${name}.json`);
  if (settings === null) throw new Error(name);
  const { study, problems } = readReadings({ table: readTable(bytesOf(`${name}.csv`), `${name}.csv`), settings });
  if (study === null) throw new Error(problems.map(({ message }) => message).join(" "));
  return study;
}

function expectedOf(kind: string, name: string, of: string): ReferenceCase[] {
  return reference.filter((one) => one.kind === kind && one.case === name && one.of === of);
}

/** A drawn figure lies within five of its sampling errors: that of the reference, and this one's of fewer trials. */
function expectDrawn(actual: number | null | undefined, one: ReferenceCase, field: string, settlesBy: number): void {
  if (one[field] === undefined) return;
  const fewer = (referenceTrials / trials) ** settlesBy;
  const error = Math.hypot(1, fewer) * numberOf(one, `${field}Error`);
  expectNumber(actual, numberOf(one, field), { absolute: 5 * error });
}

const names = [...new Set(reference.map((one) => String(one.case)))];

describe.each(names)("%s", (name) => {
  const study = studyOf(name);
  const { settings } = study;

  it.each(study.runs.map((run) => [run.name, run] as const))("run %s: values and first order", (of, run) => {
    const model = runModel(run, settings);
    const results = firstOrder(model);
    const expected = expectedOf("run", name, of);
    expect(expected.length).toBeGreaterThan(15);
    for (const one of expected) {
      const result = results[model.keys.indexOf(String(one.quantity))];
      expectNumber(result?.value, numberOf(one, "value"), { relative: 1e-9 });
      expectNumber(result?.standardUncertainty, numberOf(one, "standardUncertainty"), { relative: 1e-6 });
    }
  });

  it("first run: mean, standard deviation and both intervals of the trials", () => {
    const [run] = study.runs;
    if (run === undefined) throw new Error(name);
    const model = runModel(run, settings);
    const { outputs } = atOnce(monteCarlo(model, { trials, seed: 5, confidence: settings.confidence }));
    let checked = 0;
    for (const one of expectedOf("run", name, run.name)) {
      const output = outputs[model.keys.indexOf(String(one.quantity))];
      expectDrawn(output?.mean, one, "mean", 1 / 2);
      expectDrawn(output?.standardUncertainty, one, "deviation", 1 / 2);
      expectDrawn(output?.symmetricInterval?.lower, one, "lower", 1 / 2);
      expectDrawn(output?.symmetricInterval?.upper, one, "upper", 1 / 2);
      expectDrawn(output?.shortestInterval?.lower, one, "shortestLower", 1 / 3);
      expectDrawn(output?.shortestInterval?.upper, one, "shortestUpper", 1 / 3);
      if (one.lower !== undefined) checked += 1;
    }
    expect(checked).toBeGreaterThan(15);
  });
});

describe("variants that share a balance, a thermometer and a fuel", () => {
  const { runs, settings } = studyOf("variants");
  const { confidence } = settings;
  const errors = new Map(runs.map((run) => [run, runErrors(run, settings)] as const));

  function groupOf(variant: string, quantity: string): GroupWithErrors {
    const own = runs.filter((run) => run.variant === variant);
    const found = own.map((run) => {
      const model = runModel(run, settings);
      return firstOrder(model)[model.keys.indexOf(quantity)]?.value ?? Number.NaN;
    });
    const { n, mean, standardDeviation } = moments(found);
    const errorsOfRuns = own.map((run) => {
      const error = errors.get(run)?.of(quantity);
      if (error == null) throw new Error(quantity);
      return error;
    });
    return { n, mean: mean ?? Number.NaN, standardDeviation, errors: errorsOfRuns };
  }

  const close = { relative: 1e-6 };

  it.each(["old", "new", "lone"])("%s: mean with shared errors (JCGM 100, G.4)", (variant) => {
    const expected = expectedOf("mean", "variants", variant);
    expect(expected.length).toBeGreaterThan(15);
    for (const one of expected) {
      const { standardUncertainty, interval } = combinedMean(groupOf(variant, String(one.quantity)), confidence);
      expectNumber(standardUncertainty, numberOf(one, "standardUncertainty"), close);
      expectNumber(interval.lower, numberOf(one, "lower"), close);
      expectNumber(interval.upper, numberOf(one, "upper"), close);
    }
  });

  it.each(["new", "lone"])("%s beside old: what both share cancels (Welch and Satterthwaite; Fieller)", (variant) => {
    const differences = expectedOf("difference", "variants", variant);
    expect(differences.length).toBeGreaterThan(15);
    for (const one of differences) {
      const [baseline, other] = [groupOf("old", String(one.quantity)), groupOf(variant, String(one.quantity))];
      const { standardUncertainty, interval } = combinedDifference(baseline, other, confidence);
      expectNumber(standardUncertainty, numberOf(one, "standardUncertainty"), close);
      // Ends next to zero have the digits of the uncertainty.
      const absolute = 1e-6 * numberOf(one, "standardUncertainty");
      expectNumber(interval.lower, numberOf(one, "lower"), { ...close, absolute });
      expectNumber(interval.upper, numberOf(one, "upper"), { ...close, absolute });
    }
    for (const one of expectedOf("ratio", "variants", variant)) {
      const [baseline, other] = [groupOf("old", String(one.quantity)), groupOf(variant, String(one.quantity))];
      const { ratio, standardUncertainty, lower, upper } = combinedRatio(baseline, other, confidence);
      expectNumber(ratio, numberOf(one, "value"), close);
      expectNumber(standardUncertainty, numberOf(one, "standardUncertainty"), close);
      expectNumber(lower, numberOf(one, "lower"), close);
      expectNumber(upper, numberOf(one, "upper"), close);
    }
  });
});
