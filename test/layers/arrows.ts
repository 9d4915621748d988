import { isBuiltin } from "node:module";
import { posix } from "node:path";
import { parseSync } from "vite";
import { type Import, importsOf } from "./imports.ts";

/**
 * Who may import whom. Paths are of the project, with "/". `core` says what may be taken from the core, through core/index.ts:
 * everything, types alone, or types and the values that these folders of the core give.
 */
interface Layer {
  readonly folder: string;
  readonly may: readonly string[];
  readonly core: "all" | "types" | readonly string[];
  /** May use Node's own modules. */
  readonly node: boolean;
}

const shown = ["core/quantity/", "core/words/", "core/format/", "core/procedure/"];
const spoken = ["core/words/"];

/** The longest folder that fits a path is its layer. `app` is what starts and builds: the one place where hosts are put together. */
export const layers: readonly Layer[] = [
  { folder: "core", may: [], core: "all", node: false },
  { folder: "app/contract", may: [], core: "types", node: false },
  { folder: "app/host", may: ["app/contract"], core: "types", node: true },
  { folder: "app/chart", may: [], core: shown, node: false },
  { folder: "app/import", may: [], core: "all", node: true },
  { folder: "app/report", may: ["app/chart"], core: "all", node: true },
  { folder: "app/store", may: [], core: "types", node: true },
  {
    folder: "app/service",
    may: ["app/contract", "app/import", "app/report", "app/store"],
    core: "all",
    node: true,
  },
  { folder: "app/server", may: ["app/service", "app/contract", "app/host"], core: spoken, node: true },
  { folder: "app/main", may: ["app/service", "app/contract", "app/host"], core: spoken, node: true },
  { folder: "app/preload", may: ["app/contract", "app/host"], core: "types", node: false },
  { folder: "app/cli", may: ["app/service", "app/contract"], core: spoken, node: true },
  { folder: "app", may: ["app/server", "app/service", "app/host", "app/contract"], core: spoken, node: true },
  { folder: "renderer", may: ["app/contract", "app/chart"], core: shown, node: false },
];

/** Packages that the core may use: pure functions of numbers. */
const purePackages = [/^@stdlib\/[a-z0-9-]+$/, /^simple-statistics$/, /^ml-matrix$/];
const mayUseElectron = ["app/main", "app/preload"];

/** Source texts of the project by path. */
export type Sources = ReadonlyMap<string, string>;

function layerOf(path: string): Layer | null {
  const fitting = layers.filter((layer) => path.startsWith(`${layer.folder}/`));
  const longest = fitting.sort((a, b) => b.folder.length - a.folder.length)[0] ?? null;
  // A folder under app that no arrow is drawn for is not one of app's own files.
  return longest?.folder === "app" && path.split("/").length > 2 ? null : longest;
}

/** The file of the core that a name of core/index.ts comes from; null where there is none. */
function originInCore(sources: Sources, name: string, path = "core/index.ts"): string | null {
  const source = sources.get(path);
  if (source === undefined) return null;
  for (const { entries } of parseSync(path, source).module.staticExports) {
    for (const entry of entries) {
      const from = entry.moduleRequest === null ? null : posix.join(posix.dirname(path), entry.moduleRequest.value);
      if (entry.exportName.name === name)
        return from === null ? path : (originInCore(sources, entry.importName.name ?? name, from) ?? from);
      if (from !== null && entry.importName.kind === "AllButDefault") {
        const origin = originInCore(sources, name, from);
        if (origin !== null) return origin;
      }
    }
  }
  return null;
}

function breachOfPackage(layer: Layer, name: string): string | null {
  if (name === "(computed)") return "imports what only running it tells";
  if (isBuiltin(name)) return layer.node ? null : `uses Node's own ${name}`;
  if (/^electron(\/|$)/.test(name)) {
    return mayUseElectron.includes(layer.folder) ? null : "imports electron, which app/main and app/preload alone may";
  }
  if (layer.folder === "core" && !purePackages.some((pure) => pure.test(name)))
    return `uses the package ${name} in the core`;
  return null;
}

function breachOfCore(sources: Sources, layer: Layer, target: string, { values }: Import): string | null {
  if (target !== "core/index.ts") return `reaches into ${target} past core/index.ts`;
  const allowed = layer.core;
  if (allowed === "all" || values.length === 0) return null;
  if (allowed === "types") return `takes ${values.join(", ")} from the core, where types alone may be taken`;
  const wrong = values.filter((name) => {
    const origin = originInCore(sources, name);
    return origin === null || !allowed.some((folder) => origin.startsWith(folder));
  });
  return wrong.length === 0
    ? null
    : `takes ${wrong.join(", ")} from the core, where types and ${allowed.join(", ")} alone may be taken`;
}

function breachOf(sources: Sources, path: string, layer: Layer, mention: Import): string | null {
  if (!/^[./]/.test(mention.from)) return breachOfPackage(layer, mention.from);
  const target = posix.join(posix.dirname(path), mention.from);
  if (target.startsWith(`${layer.folder}/`) && layerOf(target) === layer) return null;
  if (target.startsWith("core/")) return breachOfCore(sources, layer, target, mention);
  const other = layerOf(target);
  if (other !== null && layer.may.includes(other.folder)) return null;
  return `imports ${target}, which ${layer.folder} may not`;
}

/** What package.json promises: packages that are shipped, and those for building and testing alone. */
export interface DeclaredPackages {
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
}

/**
 * Packages that are used and not declared: they are there only because another package brought them. What is shipped may use
 * no package for building alone, except Electron, which is the runtime itself; app's own files build and start.
 */
export function undeclaredPackages(sources: Sources, declared: DeclaredPackages): readonly string[] {
  const found: string[] = [];
  for (const [path, source] of sources) {
    if (!/\.tsx?$/.test(path) || path.endsWith(".d.ts")) continue;
    const builds = !path.includes("/") || path.startsWith("test/") || layerOf(path)?.folder === "app";
    for (const { from } of importsOf(path, source)) {
      if (/^[./(]/.test(from) || isBuiltin(from)) continue;
      const name = from.split("/", from.startsWith("@") ? 2 : 1).join("/");
      const isThere =
        name in declared.dependencies || ((builds || name === "electron") && name in declared.devDependencies);
      if (!isThere) found.push(`${path}: uses ${name}, which package.json does not declare for it`);
    }
  }
  return found;
}

/** Everything that breaks the arrows, one line each. */
export function breaches(sources: Sources): readonly string[] {
  const found: string[] = [];
  for (const [path, source] of sources) {
    if (!/\.tsx?$/.test(path) || path.startsWith("test/") || !path.includes("/")) continue;
    const layer = layerOf(path);
    if (layer === null) {
      found.push(`${path}: lies in a folder for which no arrow is drawn`);
      continue;
    }
    for (const mention of importsOf(path, source)) {
      const breach = breachOf(sources, path, layer, mention);
      if (breach !== null) found.push(`${path}: ${breach}`);
    }
  }
  return found;
}

/** Rings of files within a folder that import one another, types included; each as "a → b → a". */
export function cycles(sources: Sources, folder: string): readonly string[] {
  const next = new Map<string, readonly string[]>();
  for (const [path, source] of sources) {
    if (!path.startsWith(`${folder}/`) || !/\.tsx?$/.test(path)) continue;
    const targets = importsOf(path, source)
      .filter(({ from }) => from.startsWith("."))
      .map(({ from }) => posix.join(posix.dirname(path), from));
    next.set(path, targets);
  }
  const rings: string[] = [];
  const done = new Set<string>();
  const visit = (path: string, way: readonly string[]): void => {
    const at = way.indexOf(path);
    if (at >= 0) rings.push([...way.slice(at), path].join(" → "));
    if (at >= 0 || done.has(path)) return;
    for (const target of next.get(path) ?? []) visit(target, [...way, path]);
    done.add(path);
  };
  for (const path of next.keys()) visit(path, []);
  return rings;
}
