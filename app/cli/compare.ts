import { defaultLocale, wordsFor } from "../../core/index.ts";
import { resamplesLimit } from "../contract/index.ts";
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
import { answer, ask, carried, commandDoor, refusedBy } from "./files.ts";

const words = wordsFor(defaultLocale).commandLine;

const usualResamples = 10_000;

/** `boilbench compare`: a table of results in, its comparison out. */
export async function compare(commandLine: readonly string[], console: Console): Promise<number> {
  const { values, positionals } = parseCommand(joinFactors(joinNegative(commandLine, ["margin"])), {
    value: { type: "string" },
    by: { type: "string" },
    baseline: { type: "string" },
    block: { type: "string" },
    factor: { type: "string", multiple: true },
    margin: { type: "string" },
    confidence: { type: "string" },
    resamples: { type: "string" },
    seed: { type: "string" },
    json: { type: "boolean" },
  });
  const [path] = positionals;
  if (path === undefined || positionals.length > 1) throw new UsageFault(words.oneTable);
  const { value, by } = values;
  if (value === undefined || value === "" || by === undefined || by === "") throw new UsageFault(words.valueAndBy);
  const margin = values.margin === undefined ? null : numberOf("--margin", values.margin);
  if (margin !== null && margin < 0) throw new UsageFault(words.notBelowZero("--margin"));
  const request = {
    kind: "table.compare",
    value,
    by,
    block: values.block ?? null,
    factors: values.factor ?? [],
    baseline: values.baseline ?? null,
    margin,
    confidence: probabilityOf("--confidence", values.confidence ?? "0.95"),
    resamples: wholeOf("--resamples", values.resamples ?? String(usualResamples), 0, resamplesLimit),
    seed: seedOf(values.seed),
  } as const;
  return answer(console, async () => {
    const table = carried(path, console);
    console.progress(`${words.comparing}\n`);
    const compared = await ask<"table.compare">(commandDoor(), { ...request, factors: [...request.factors], table });
    if (compared.outcome === "refused") throw refusedBy(compared.problems);
    const { comparison, lines } = compared;
    return values.json === true ? `${JSON.stringify(comparison, null, 2)}\n` : `${lines.join("\n")}\n`;
  });
}

/**
 * `--factor skirt gap` as `--factor skirt --factor gap`: texts after the first are factors too, as long as one text is left for the
 * table.
 */
function joinFactors(commandLine: readonly string[]): string[] {
  const before = commandLine.slice(0, Math.max(0, commandLine.indexOf("--factor")));
  // The table is the one text that is neither a flag nor its value.
  const tableFirst = before.some(
    (text, index) => !text.startsWith("-") && !/^--(?!json$)[a-z]+$/.test(before[index - 1] ?? ""),
  );
  if (!tableFirst) return [...commandLine];
  const joined: string[] = [];
  let after: "flag" | "factor" | null = null;
  for (const text of commandLine) {
    if (text === "--factor") after = "flag";
    else if (text.startsWith("--")) after = null;
    else if (after === "flag") after = "factor";
    else if (after === "factor") joined.push("--factor");
    joined.push(text);
  }
  return joined;
}
