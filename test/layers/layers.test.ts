import { readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { describe, expect, it } from "vitest";
import { breaches, cycles, type DeclaredPackages, undeclaredPackages } from "./arrows.ts";
import { importsOf } from "./imports.ts";

const project = join(import.meta.dirname, "..", "..");

function sourcesOf(folders: readonly string[]): Map<string, string> {
  const sources = new Map<string, string>();
  for (const folder of folders) {
    for (const entry of readdirSync(join(project, folder), { recursive: true, withFileTypes: true })) {
      if (!entry.isFile() || !/\.tsx?$/.test(entry.name)) continue;
      const file = join(entry.parentPath, entry.name);
      sources.set(relative(project, file).split(sep).join("/"), readFileSync(file, "utf8"));
    }
  }
  return sources;
}

describe("the project", () => {
  const sources = sourcesOf(["core", "app", "renderer"]);

  it("is read whole", () => {
    for (const known of ["core/index.ts", "app/contract/index.ts", "app/server/guard.ts", "app/main/main.ts"]) {
      expect(sources.has(known), known).toBe(true);
    }
  });

  it("keeps to the arrows", () => {
    expect(breaches(sources)).toEqual([]);
  });

  it("uses only packages that it declares", () => {
    const declared = JSON.parse(readFileSync(join(project, "package.json"), "utf8")) as DeclaredPackages;
    expect(undeclaredPackages(sourcesOf(["core", "app", "renderer", "test"]), declared)).toEqual([]);
  });

  it("declares only packages that it uses", () => {
    const { dependencies, devDependencies } = JSON.parse(
      readFileSync(join(project, "package.json"), "utf8"),
    ) as DeclaredPackages;
    const configuration = ["vite.config.ts", "vitest.config.ts"].map((name) =>
      readFileSync(join(project, name), "utf8"),
    );
    const texts = [...sourcesOf(["core", "app", "renderer", "test"]).values(), ...configuration];
    // Programs that scripts start, and types that the compiler finds by itself.
    const tools = ["@biomejs/biome", "electron-builder", "node", "typescript", "vitest"];
    const unused = Object.keys({ ...dependencies, ...devDependencies }).filter((name) => {
      const typed = name.startsWith("@types/") ? name.slice("@types/".length) : null;
      if (tools.includes(name) || name === "@types/node") return false;
      return !texts.some((text) => text.includes(`"${typed ?? name}`) || text.includes(`@vitest-environment ${name}`));
    });
    expect(unused).toEqual([]);
  });

  it("has no ring of files in the core", () => {
    expect(cycles(sources, "core")).toEqual([]);
  });

  it("has a fixed top level", () => {
    const known = new Set([
      ...["package.json", "tsconfig.json", "electron-builder.yml", "README.md", "DEVELOPERS.md"],
      ...["app", "renderer", "core", "test", "sample-data"],
      // What tools insist on, and the licence.
      ...["LICENSE", "package-lock.json", "biome.json", "vite.config.ts", "vitest.config.ts"],
      // Made by npm and the build; git ignores them.
      ...["node_modules", "dist", "coverage", "out"],
    ]);
    const unknown = readdirSync(project).filter((name) => !known.has(name) && !name.startsWith("."));
    expect(unknown).toEqual([]);
  });
});

describe("the reading of imports", () => {
  it("sees every form that names a file or package", () => {
    const source = `
      import a from "default"; import * as b from "all"; import { c, type D, e as f } from "some"; import "run";
      import type { G } from "types"; export { h as i } from "again"; export * from "star"; export type { J } from "typed";
      type K = import("imported-type").K; const l = await import("dynamic"); const m = require("required");
      import n = require("equals"); const w = new Worker(new URL("./worker.ts", import.meta.url));
      const o = await import(\`./\${l}.ts\`);
      // import "comment";
      const text = 'import "string"'; const p = /import "pattern"/;
    `;
    expect(importsOf("x.ts", source)).toEqual([
      { from: "default", values: ["default"] },
      { from: "all", values: ["*"] },
      { from: "some", values: ["c", "e"] },
      { from: "run", values: ["*"] },
      { from: "types", values: [] },
      { from: "again", values: ["h"] },
      { from: "star", values: ["*"] },
      { from: "typed", values: [] },
      { from: "imported-type", values: [] },
      { from: "dynamic", values: ["*"] },
      { from: "required", values: ["*"] },
      { from: "equals", values: ["*"] },
      { from: "./worker.ts", values: ["*"] },
      { from: "(computed)", values: ["*"] },
    ]);
  });

  it("does not pass over a file that it cannot read", () => {
    expect(() => importsOf("x.ts", "import { from")).toThrow(/x\.ts/);
  });
});

describe("the arrows, broken on purpose", () => {
  const core = new Map([
    [
      "core/index.ts",
      `export { formatFixed } from "./format/number.ts"; export { wordsFor } from "./words/index.ts"; export * from "./statistics/mean.ts"; export type { Run } from "./readings/study.ts";`,
    ],
    ["core/format/number.ts", "export function formatFixed() {}"],
    ["core/words/index.ts", "export function wordsFor() {}"],
    ["core/statistics/mean.ts", "export const mean = 1;"],
    ["core/readings/study.ts", "export interface Run {}"],
  ]);
  const broken = (path: string, source: string) => breaches(new Map([...core, [path, source]]));

  it.each([
    ["core/a.ts", `import { readFileSync } from "node:fs";`],
    ["core/a.ts", `import { readFileSync } from "fs";`],
    ["core/a.ts", `import type { Stats } from "node:fs";`],
    ["core/a.ts", `const fs = await import("node:fs");`],
    ["core/a.ts", `import * as v from "valibot";`],
    ["core/a.ts", `import React from "react";`],
    ["core/a.ts", `import type { Door } from "../app/contract/index.ts";`],
    ["core/a.ts", "const x = await import(name);"],
    ["core/a.ts", `import x from "simple-statistics-extra";`],
    ["app/contract/a.ts", `import { wordsFor } from "../../core/index.ts";`],
    ["app/contract/a.ts", `import { join } from "node:path";`],
    ["app/service/a.ts", `import { mean } from "../../core/statistics/mean.ts";`],
    ["app/service/a.ts", `export * from "../server/index.ts";`],
    ["app/service/a.ts", `import type { App } from "electron";`],
    ["app/service/a.ts", `new Worker(new URL("../main/worker.ts", import.meta.url));`],
    ["app/report/a.ts", `import { readTable } from "../import/index.ts";`],
    ["app/import/a.ts", `type D = import("../service/index.ts").Door;`],
    ["app/server/a.ts", `import { app } from "electron";`],
    ["app/server/a.ts", `import { menu } from "../main/menu.ts";`],
    ["app/server/a.ts", `import { mean } from "../../core/index.ts";`],
    ["app/main/a.ts", `import { guard } from "../server/guard.ts";`],
    ["app/cli/a.ts", `import { x } from "../report/index.ts";`],
    ["app/preload/a.ts", `import { x } from "../service/index.ts";`],
    ["app/preload/a.ts", `import { join } from "node:path";`],
    ["app/start.ts", `import { app } from "electron/main";`],
    ["app/start.ts", `import "./main/main.ts";`],
    ["app/start.ts", `import "../renderer/main.tsx";`],
    ["app/somewhere/a.ts", "export {};"],
    ["renderer/a.tsx", `import { mean } from "../core/index.ts";`],
    ["renderer/a.tsx", `import * as core from "../core/index.ts";`],
    ["renderer/a.tsx", `export { mean as wordsFor } from "../core/index.ts";`],
    ["renderer/a.tsx", `import { unknown } from "../core/index.ts";`],
    ["renderer/a.tsx", `import type { Run } from "../core/readings/study.ts";`],
    ["renderer/a.tsx", `import { createDoor } from "../app/service/index.ts";`],
    ["renderer/view/a.tsx", `import { join } from "node:path";`],
    ["renderer/view/a.tsx", `import { hostile } from "../../test/hostile.ts";`],
  ])("%s: %s", (path, source) => {
    const lines = broken(path, source);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toContain(`${path}: `);
  });

  it.each([
    ["core/a.ts", `import mean from "@stdlib/stats-base-mean"; import { wordsFor } from "./words/index.ts";`],
    [
      "app/service/a.ts",
      `import { mean } from "../../core/index.ts"; import type { Door } from "../contract/index.ts"; import "node:fs";`,
    ],
    [
      "app/server/a.ts",
      `import { wordsFor, type Run } from "../../core/index.ts"; import { createDoor } from "../service/index.ts";`,
    ],
    ["app/main/a.ts", `import { app } from "electron"; import { x } from "./policy.ts";`],
    [
      "renderer/view/a.tsx",
      `import { formatFixed, type Run } from "../../core/index.ts"; import "../style/a.css"; import React from "react";`,
    ],
  ])("and kept: %s: %s", (path, source) => {
    expect(broken(path, source)).toEqual([]);
  });
});

describe("packages, used without being declared", () => {
  const declared = { dependencies: { pdfkit: "1", "@a/b": "1" }, devDependencies: { vite: "1", electron: "1" } };
  const undeclared = (path: string, source: string) => undeclaredPackages(new Map([[path, source]]), declared);

  it("are found, whole names and deeper paths alike", () => {
    expect(
      undeclared("app/report/a.ts", `import x from "fontkit"; import y from "pdfkit/js/a"; import z from "@a/b/c";`),
    ).toHaveLength(1);
    expect(undeclared("app/report/a.ts", `import x from "@a/other";`)).toHaveLength(1);
    expect(undeclared("renderer/a.tsx", `import "vite";`)).toHaveLength(1);
  });

  it("and those for building are for building and testing", () => {
    for (const path of ["app/build.ts", "test/a.test.ts", "vite.config.ts"]) {
      expect(undeclared(path, `import "vite"; import "node:fs";`)).toEqual([]);
    }
    expect(undeclared("app/main/a.ts", `import { app } from "electron";`)).toEqual([]);
  });
});

describe("rings in the core, made on purpose", () => {
  it("are found, whatever closes them", () => {
    const ring = new Map([
      ["core/a.ts", `import { b } from "./b.ts";`],
      ["core/b.ts", `export * from "./inner/c.ts";`],
      ["core/inner/c.ts", `import type { A } from "../a.ts";`],
      ["core/d.ts", `import { a } from "./a.ts";`],
    ]);
    expect(cycles(ring, "core")).toEqual(["core/a.ts → core/b.ts → core/inner/c.ts → core/a.ts"]);
    expect(cycles(new Map([["core/a.ts", `import { a } from "./a.ts";`]]), "core")).toHaveLength(1);
  });

  it("and two ways to one file are no ring", () => {
    const fork = new Map([
      ["core/a.ts", `import "./b.ts"; import "./c.ts";`],
      ["core/b.ts", `import "./d.ts";`],
      ["core/c.ts", `import "./d.ts";`],
      ["core/d.ts", ""],
    ]);
    expect(cycles(fork, "core")).toEqual([]);
  });
});
