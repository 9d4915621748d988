import { afterEach, expect, test } from "vitest";
import { ask, firstChoice } from "../service/requests.ts";
import { BenchStudy } from "./bench-door.ts";
import { exampleRun, exampleVariant } from "./example-run.ts";

let bench: BenchStudy;
afterEach(() => bench.close());

test("a run that is being made changes no finding, and is told in the report as not finished", async () => {
  bench = await BenchStudy.onExample();
  const compared = async () => {
    const asked = { kind: "compare.show", study: bench.study, choice: firstChoice } as const;
    const reply = await ask<"compare.show">(bench.door, asked);
    return "comparison" in reply ? reply.comparison : expect.fail("nothing is compared");
  };
  const before = await compared();
  const run = await bench.beginRun(exampleVariant, { charAtHotStart: true });
  for (const [phase, column, text] of exampleRun.slice(0, 20)) await bench.type(run, phase, column, text);
  const after = await compared();
  expect([after.finding, after.detail, after.warnings]).toEqual([before.finding, before.detail, before.warnings]);
  expect(after.chartTable.map(({ mean }) => mean)).toEqual(before.chartTable.map(({ mean }) => mean));
  const { fileName, contentBase64 } = await ask<"export">(bench.door, {
    ...{ kind: "export", study: bench.study, what: "report.html", choice: firstChoice },
  });
  const html = Buffer.from(contentBase64, "base64").toString();
  expect(fileName).toMatch(/html$/);
  expect(html.replaceAll(/<[^>]*>/g, " ")).toMatch(/Not finished, still on the Bench: R26\./);
  expect(html.replaceAll(/<[^>]*>/g, " ")).not.toMatch(/\bNaN\b|Infinity/);
  // The readings as a file have what was read by then.
  const csv = await ask<"export">(bench.door, {
    ...{ kind: "export", study: bench.study, what: "readings.csv", choice: firstChoice },
  });
  const rows = Buffer.from(csv.contentBase64, "base64").toString().split("\n");
  expect(rows.some((row) => row.startsWith("R26,") && row.includes("09:14"))).toBe(true);
  expect(rows.join("\n")).not.toMatch(/NaN/);
});
