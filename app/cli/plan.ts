import { defaultLocale, wordsFor } from "../../core/index.ts";
import { plannedRunsLimit } from "../contract/index.ts";
import {
  type Console,
  joinNegative,
  numberOf,
  parseCommand,
  probabilityOf,
  seedOf,
  UsageFault,
  wholeOf,
} from "./console.ts";
import { answer, ask, commandDoor } from "./files.ts";

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
  const { sd, detect, runs } = values;
  if (sd === undefined) throw new UsageFault(words.noSd);
  if (detect === undefined && runs === undefined) throw new UsageFault(wordsFor(defaultLocale).planning.nothingAsked);
  const amounts = amountsOf(sd, detect, values);
  const whole = (flag: string, text: string | undefined, least: number) =>
    text === undefined ? null : wholeOf(flag, text, least, plannedRunsLimit);
  const wantsOrder = values.order === true || values.variant !== undefined || values.blocks !== undefined;
  const variants = values.variant ?? ["A", "B"];
  if (variants.length < 2 || variants.length > 100 || variants.some((name) => name.trim() === "")) {
    throw new UsageFault(words.twoVariants);
  }
  const request = {
    kind: "plan.runs",
    ...amounts,
    standardDeviationRuns: whole("--sd-from", values["sd-from"], 2),
    power: probabilityOf("--power", values.power ?? "0.8"),
    confidence: probabilityOf("--confidence", values.confidence ?? "0.95"),
    baselineRuns: whole("--n1", values.n1, 1),
    runs: whole("--runs", runs, 1),
    order: wantsOrder ? { variants, blocks: whole("--blocks", values.blocks, 1), seed: seedOf(values.seed) } : null,
  } as const;
  return answer(console, async () => {
    const { numbers, lines } = await ask<"plan.runs">(commandDoor(), request);
    return values.json === true ? `${JSON.stringify(numbers)}\n` : `${lines.join("\n")}\n`;
  });
}

/** Standard deviation and difference in one unit. */
interface Amounts {
  readonly standardDeviation: number;
  readonly difference: number | null;
  readonly unit: "" | "%";
}

/**
 * Either may be in per cent of the mean (`8%`, or the difference by --relative): with --mean it is taken of that. Without, both must be, as
 * with --relative they are.
 */
function amountsOf(
  sd: string,
  detect: string | undefined,
  { relative = false, mean }: { readonly relative?: boolean | undefined; readonly mean?: string | undefined },
): Amounts {
  const isShare = (text: string | undefined) => text?.trim().endsWith("%") === true;
  const sdIsShare = isShare(sd) || (relative && mean === undefined);
  const detectIsShare = isShare(detect) || (relative && detect !== undefined);
  const anyIsShare = sdIsShare || detectIsShare || relative;
  if (mean !== undefined && !anyIsShare) throw new UsageFault(words.meanWithoutRelative);
  if (mean === undefined && anyIsShare && !(sdIsShare && (detectIsShare || detect === undefined))) {
    throw new UsageFault(words.shareWithoutMean);
  }
  const of = mean === undefined ? 1 : meanOf(mean) / 100;
  const amount = (flag: string, text: string, asShare: boolean) => {
    const value = numberOf(flag, isShare(text) ? text.trim().slice(0, -1) : text) * (asShare ? of : 1);
    if (!Number.isFinite(value)) throw new UsageFault(words.notANumber(flag, text));
    return value;
  };
  const standardDeviation = amount("--sd", sd, sdIsShare);
  if (standardDeviation < 0) throw new UsageFault(words.notBelowZero("--sd"));
  return {
    standardDeviation,
    difference: detect === undefined ? null : amount("--detect", detect, detectIsShare),
    unit: anyIsShare && mean === undefined ? "%" : "",
  };
}

function meanOf(text: string): number {
  const mean = Math.abs(numberOf("--mean", text));
  if (mean === 0) throw new UsageFault(words.meanZero);
  return mean;
}
