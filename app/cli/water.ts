import { defaultLocale, wordsFor } from "../../core/index.ts";
import { waterFile, waterText } from "../service/index.ts";
import { type Console, exitCodes, joinNegative, numberOf, parseCommand, UsageFault } from "./console.ts";

const words = wordsFor(defaultLocale).commandLine;

/** `boilbench water`: pressure, boiling point and latent heat at an altitude or a pressure. */
export function water(commandLine: readonly string[], console: Console): number {
  const { values, positionals } = parseCommand(joinNegative(commandLine, ["altitude", "pressure"]), {
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
