import { parseSync } from "vite";

/** One file's mention of another, or of a package. */
export interface Import {
  /** As written: "../core/index.ts", "valibot", "node:fs". */
  readonly from: string;
  /** Names taken as values; "*" where all, or which ones cannot be told. Empty where only types are taken. */
  readonly values: readonly string[];
}

interface Node {
  readonly type: string;
  readonly [key: string]: unknown;
}

const isNode = (value: unknown): value is Node =>
  typeof value === "object" && value !== null && typeof (value as Node).type === "string";

const text = (node: unknown): string | null =>
  isNode(node) && node.type === "Literal" && typeof node.value === "string" ? node.value : null;

const nameOf = (node: unknown): string => {
  if (!isNode(node)) return "*";
  return typeof node.name === "string" ? node.name : (text(node) ?? "*");
};

function isImportMetaUrl(node: unknown): boolean {
  return isNode(node) && node.type === "MemberExpression" && isNode(node.object) && node.object.type === "MetaProperty";
}

/** The names in a list of specifiers that are taken as values. */
function valueNames(specifiers: unknown, which: "imported" | "local"): string[] {
  return (Array.isArray(specifiers) ? (specifiers as Node[]) : [])
    .filter((one) => one.importKind !== "type" && one.exportKind !== "type")
    .map((one) => (one.type === "ImportDefaultSpecifier" ? "default" : nameOf(one[which])));
}

function importOf(node: Node): Import | null {
  const from = text(node.source);
  switch (node.type) {
    case "ImportDeclaration": {
      if (from === null) return null;
      if (node.importKind === "type") return { from, values: [] };
      const specifiers = node.specifiers as unknown[];
      // `import "x"` runs it; `import {} from "x"` reads the same here, and does too.
      return { from, values: specifiers.length === 0 ? ["*"] : valueNames(specifiers, "imported") };
    }
    case "ExportAllDeclaration":
      return from === null ? null : { from, values: node.exportKind === "type" ? [] : ["*"] };
    case "ExportNamedDeclaration":
      if (from === null) return null;
      return { from, values: node.exportKind === "type" ? [] : valueNames(node.specifiers, "local") };
    case "ImportExpression":
      return { from: from ?? "(computed)", values: ["*"] };
    case "TSImportType":
      return from === null ? null : { from, values: [] };
    case "TSImportEqualsDeclaration": {
      const module = node.moduleReference;
      const named = isNode(module) ? text(module.expression) : null;
      return named === null ? null : { from: named, values: ["*"] };
    }
    case "CallExpression": {
      const callee = node.callee;
      if (!isNode(callee) || callee.type !== "Identifier" || callee.name !== "require") return null;
      return { from: text((node.arguments as unknown[])[0]) ?? "(computed)", values: ["*"] };
    }
    case "NewExpression": {
      // A worker's file: `new URL("./worker.ts", import.meta.url)`.
      const [first, second] = node.arguments as unknown[];
      const named = text(first);
      if (named === null || !isImportMetaUrl(second) || !/\.tsx?$/.test(named)) return null;
      return { from: named, values: ["*"] };
    }
    default:
      return null;
  }
}

/** Every import of a TypeScript source, by a parser of the language: static, dynamic, types, re-exports, workers. Throws where it does not parse. */
export function importsOf(fileName: string, source: string): readonly Import[] {
  const { program, errors } = parseSync(fileName, source);
  if (errors.length > 0) throw new Error(`${fileName}: ${errors[0]?.message}`);
  const found: Import[] = [];
  const visit = (value: unknown): void => {
    if (Array.isArray(value)) for (const one of value) visit(one);
    else if (isNode(value)) {
      const mention = importOf(value);
      if (mention !== null) found.push(mention);
      for (const child of Object.values(value)) if (typeof child === "object") visit(child);
    }
  };
  visit(program);
  return found;
}
