import { defaultLocale, wordsFor } from "../../core/index.ts";
import { plannedRunsLimit } from "../contract/index.ts";
import {
  type Console,
  exitCodes,
  joinNegative,
  numberOf,
  parseCommand,
  probabilityOf,
  seedOf,
  UsageFault,
  wholeOf,
} from "./console.ts";
import { ask, CommandEnded, commandDoor } from "./files.ts";

const words = wordsFor(defaultLocale).commandLine;

/** `boilbench plan`: how many runs, what given ones can detect, in which order. */
export async function plan(commandLine: readonly string[], console: Console): Promise<number> {
  const { values, positionals } = parseCommand(joinNegative(commandLine, ["sd", "detect", "mean"]), {
    sd: { type: "string" },
    detect: { type: "string" },
    power: { type: "string" },
    confidence: { type: "string" },
    n1: { type: "string" },
    relative: { type: "boolean" },
    mean: { type: "string" },
    runs: { type: "string" },
    "sd-from": { type: "string" },
    order: { type: "boolean" },
    variant: { type: "string", multiple: true },
    blocks: { type: "string" },
    seed: { type: "string" },
    json: { type: "boolean" },
  });
  if (positionals.length > 0) throw new UsageFault(words.noPlanFile);
  const { sd, detect, runs, mean, relative = false } = values;
  if (sd === undefined) throw new UsageFault(words.noSd);
  if (detect === undefined && runs === undefined) throw new UsageFault(wordsFor(defaultLocale).planning.nothingAsked);
  const standardDeviation = numberOf("--sd", sd);
  if (standardDeviation < 0) throw new UsageFault(words.notBelowZero("--sd"));
  if (mean !== undefined && !relative) throw new UsageFault(words.meanWithoutRelative);
  const share = mean === undefined ? 1 : meanOf(mean) / 100;
  const whole = (flag: string, text: string | undefined, least: number) =>
    text === undefined ? null : wholeOf(flag, text, least, plannedRunsLimit);
  const wantsOrder = values.order === true || values.variant !== undefined || values.blocks !== undefined;
  const variants = values.variant ?? ["A", "B"];
  if (variants.length < 2 || variants.length > 100 || variants.some((name) => name.trim() === "")) {
    throw new UsageFault(words.twoVariants);
  }
  const difference = detect === undefined ? null : numberOf("--detect", detect) * share;
  if (difference !== null && !Number.isFinite(difference))
    throw new UsageFault(words.notANumber("--detect", detect ?? ""));
  const request = {
    kind: "plan.runs",
    standardDeviation,
    standardDeviationRuns: whole("--sd-from", values["sd-from"], 2),
    difference,
    power: probabilityOf("--power", values.power ?? "0.8"),
    confidence: probabilityOf("--confidence", values.confidence ?? "0.95"),
    baselineRuns: whole("--n1", values.n1, 1),
    runs: whole("--runs", runs, 1),
    order: wantsOrder ? { variants, blocks: whole("--blocks", values.blocks, 1), seed: seedOf(values.seed) } : null,
    // Without a mean to take per cent of, the standard deviation is in per cent as well.
    unit: relative && mean === undefined ? "%" : "",
  } as const;
  try {
    const { numbers, lines } = await ask<"plan.runs">(commandDoor(), request);
    console.out(values.json === true ? `${JSON.stringify(numbers)}\n` : `${lines.join("\n")}\n`);
    return exitCodes.done;
  } catch (error) {
    if (!(error instanceof CommandEnded)) throw error;
    console.error(`${error.message}\n`);
    return error.exitCode;
  }
}

function meanOf(text: string): number {
  const mean = Math.abs(numberOf("--mean", text));
  if (mean === 0) throw new UsageFault(words.meanZero);
  return mean;
}
