import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { serviceFlags } from "../../app/host/service-flags.ts";

it("npm start starts the service with the flags that the desktop starts it with", () => {
  const { scripts } = JSON.parse(readFileSync(join(import.meta.dirname, "..", "..", "package.json"), "utf8")) as {
    scripts: { start: string };
  };
  expect(scripts.start).toBe(`node ${serviceFlags.join(" ")} app/require-node.cjs app/start.ts`);
});
