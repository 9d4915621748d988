import { defaultLocale, wordsFor } from "../../core/index.ts";
import { waterFile, waterText } from "../service/index.ts";
import { type Console, exitCodes, parseCommand, UsageFault } from "./console.ts";

const words = wordsFor(defaultLocale).commandLine;

function numberOf(flag: string, text: string): number {
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text.trim())) throw new UsageFault(words.notANumber(flag, text));
  return Number(text);
}

/** `boilbench water`: pressure, boiling point and latent heat at an altitude or a pressure. */
export function water(commandLine: readonly string[], console: Console): number {
  const { values, positionals } = parseCommand(joinNegative(commandLine), {
    altitude: { type: "string" },
    pressure: { type: "string" },
    json: { type: "boolean" },
  });
  const { altitude, pressure } = values;
  if (positionals.length > 0 || (altitude === undefined) === (pressure === undefined)) {
    throw new UsageFault(words.onePlace);
  }
  const place =
    altitude === undefined
      ? { pressure: numberOf("--pressure", pressure ?? "") }
      : { altitude: numberOf("--altitude", altitude) };
  const found = waterFile(place);
  if (!found.ok) {
    console.error(`${waterText(place)}\n`);
    return exitCodes.refused;
  }
  const { ok: _, ...numbers } = found;
  console.out(values.json === true ? `${JSON.stringify(numbers)}\n` : `${waterText(place)}\n`);
  return exitCodes.done;
}

/** `--altitude -20` as `--altitude=-20`: a number below zero is no flag. */
function joinNegative(commandLine: readonly string[]): string[] {
  const joined: string[] = [];
  for (const text of commandLine) {
    const last = joined.at(-1);
    if (/^-[\d.]/.test(text) && (last === "--altitude" || last === "--pressure"))
      joined[joined.length - 1] = `${last}=${text}`;
    else joined.push(text);
  }
  return joined;
}
