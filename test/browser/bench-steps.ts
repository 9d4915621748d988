import AxeBuilder from "@axe-core/playwright";
import type { Page } from "playwright-core";
import { expect } from "vitest";
import type { Door, ReplyValues, Request } from "../../app/contract/index.ts";
import { oneRun, type Written } from "../bench-run/one-run.ts";

/** What a technician does at the Bench, as the tests in the browser do it. */

export const fuelOfExample = "eucalyptus, split, air-dried";

/** The run of `one-run.ts` on the example study's sheet: its wood, and the hot start's char weighed. */
export const paperRun: readonly Written[] = oneRun.flatMap((one): Written[] => {
  const [phase, column] = one;
  if (column === "fuel") return [[phase, column, fuelOfExample]];
  if (phase === "hot-start" && column === "fuel_end_g") return [one, [phase, "char_with_container_g", "262"]];
  if (phase === "simmer" && column === "fuel_start_g") return [one, [phase, "char_at_start_g", "50"]];
  return [one];
});

/** What stands on paper for a field, by its key in the page. */
export function onPaper(key: string): string | undefined {
  return paperRun.find(([phase, column]) => `${phase ?? "run"}.${column}` === key)?.[2];
}

/** Presses keys one by one and counts them; digits, decimal signs and colons apart from all others. */
export class Keys {
  readonly page: Page;
  navigation = 0;
  digits = 0;
  constructor(page: Page) {
    this.page = page;
  }
  async press(key: string): Promise<void> {
    if (/^[\d.,:]$/.test(key)) this.digits += 1;
    else this.navigation += 1;
    await this.page.keyboard.press(key);
  }
  async type(text: string): Promise<void> {
    for (const character of text) await this.press(character);
  }
}

/** The key of the field, or the button, that has the focus; waits until one of the Bench has it. */
export async function focusedKey(page: Page): Promise<string> {
  const handle = await page.waitForFunction(() => {
    const id = document.activeElement?.id ?? "";
    return id.startsWith("bench-") ? id.slice("bench-".length) : null;
  });
  return (await handle.jsonValue()) ?? "";
}

/** What is offered or stands in the field that has the focus. */
export const focusedTexts = (page: Page) =>
  page.evaluate(() => {
    const field = document.activeElement;
    return field instanceof HTMLInputElement ? { text: field.value, offered: field.placeholder } : null;
  });

/** axe finds nothing. */
export async function expectAccessible(page: Page, what: string): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  const told = violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" | ")}`);
  expect(told, what).toEqual([]);
}

export async function openBench(page: Page): Promise<void> {
  await page.getByRole("navigation").getByRole("link", { name: "Bench", exact: true }).click();
  await page.getByRole("heading", { level: 1, name: "Which run is on the bench?" }).waitFor();
  await page.getByLabel("Variant", { exact: true }).waitFor();
}

/** Begins a run of the variant that is proposed, as Ama. */
export async function beginRun(page: Page, isNamed = false): Promise<void> {
  await openBench(page);
  await page.getByRole("button", { name: "Begin the run" }).click();
  if (!isNamed) {
    await page.getByRole("dialog", { name: "Who is writing?" }).waitFor();
    await page.keyboard.type("Ama");
    await page.keyboard.press("Enter");
  }
  await page.getByRole("heading", { level: 1, name: "Before the fire" }).waitFor();
  await focusedKey(page);
}

export async function toStep(page: Page, name: string | RegExp): Promise<void> {
  await page.getByRole("navigation", { name: "Steps" }).getByRole("button", { name }).first().click();
}

export async function asked<K extends keyof ReplyValues>(
  door: Door,
  message: Extract<Request, { kind: K }>,
): Promise<ReplyValues[K]> {
  const reply = await door.ask(message);
  if (!reply.ok) throw new Error(reply.message);
  return reply.value as ReplyValues[K];
}

interface ResultsOfRun {
  readonly run: string;
  readonly leftOut: string | null;
  readonly phases: readonly { readonly phase: string; readonly values: Readonly<Record<string, { value: number }>> }[];
}

const noChoice = { quantity: null, variant: null, baseline: null };
const bytesOf = (text: string) => Buffer.from(text, "base64").toString("utf8");

/** The results of a run as the open study has them. */
export async function resultsInStudy(door: Door, study: string, run: string): Promise<ResultsOfRun> {
  const file = await asked(door, { kind: "export", study, what: "results.json", choice: noChoice, trials: 0 });
  return runIn(bytesOf(file.contentBase64), run);
}

/** The results of the same readings, written as a readings file and analysed with the study's settings. */
export async function resultsOfFile(
  door: Door,
  study: string,
  run: string,
  written: readonly Written[],
): Promise<ResultsOfRun> {
  const lasting = /^(air_C|boiling_C|fuel|moisture_wet_percent|pot1_empty_g|char_container_g)$/;
  const columns = [...new Set(written.map(([, column]) => column))];
  const rows = ["cold-start", "hot-start", "simmer"].map((phase) => {
    const cells = columns.map((column) => {
      const from = lasting.test(column) ? "cold-start" : phase;
      return `"${written.find(([of, name]) => of === from && name === column)?.[2] ?? ""}"`;
    });
    return [run, "any", phase, "2026-03-14", ...cells].join(",");
  });
  const readings = [["run", "variant", "phase", "date", ...columns].join(","), ...rows].join("\n");
  const settings = await asked(door, { kind: "export", study, what: "settings.json", choice: noChoice });
  const analysed = await asked(door, {
    kind: "files.analyse",
    readings: { name: "paper.csv", contentBase64: Buffer.from(readings).toString("base64") },
    settings: { name: "paper.settings.json", contentBase64: settings.contentBase64 },
    method: null,
    baseline: null,
    leaveOutBadRows: false,
    trials: 0,
    what: ["results.json"],
  });
  if (analysed.outcome !== "done") throw new Error(JSON.stringify(analysed));
  return runIn(bytesOf(analysed.files[0]?.contentBase64 ?? ""), run);
}

function runIn(json: string, run: string): ResultsOfRun {
  const found = (JSON.parse(json) as { runs: ResultsOfRun[] }).runs.find((one) => one.run === run);
  if (found === undefined) throw new Error(`no run ${run}`);
  return found;
}
