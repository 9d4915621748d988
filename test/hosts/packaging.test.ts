import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { studyExtension } from "../../app/host/study-path.ts";

// Against the packager's own schema (app-builder-lib/scheme.json): a name that it does not know would switch off nothing.

const project = join(import.meta.dirname, "..", "..");
const settings = readFileSync(join(project, "electron-builder.yml"), "utf8");
const schema = JSON.parse(readFileSync(join(project, "node_modules", "app-builder-lib", "scheme.json"), "utf8")) as {
  definitions: Record<string, { properties: Record<string, unknown> }>;
};

/** The lines of one part of the settings, which are plain enough to be read by their indentation. */
function part(name: string): string[] {
  const [, body = ""] = new RegExp(`^${name}:\\n((?:[ ].*\\n|#.*\\n)+)`, "m").exec(settings) ?? [];
  return body.split("\n").filter((line) => line.trim() !== "" && !line.trim().startsWith("#"));
}

const known = (definition: string) => Object.keys(schema.definitions[definition]?.properties ?? {});

describe("the packaged program", () => {
  const fuses = new Map(part("electronFuses").map((line) => line.trim().split(": ") as [string, string]));

  it("has what it never needs switched off, by names that the packager knows", () => {
    // Names and meanings: electronjs.org, "Electron Fuses".
    expect(Object.fromEntries(fuses)).toEqual({
      runAsNode: "false",
      enableCookieEncryption: "true",
      enableNodeOptionsEnvironmentVariable: "false",
      enableNodeCliInspectArguments: "false",
      enableEmbeddedAsarIntegrityValidation: "true",
      loadBrowserProcessSpecificV8Snapshot: "false",
      onlyLoadAppFromAsar: "true",
      grantFileProtocolExtraPrivileges: "false",
    });
    expect(known("FuseOptionsV1").length).toBeGreaterThan(0);
    for (const name of fuses.keys()) expect(known("FuseOptionsV1")).toContain(name);
    // And leaves none to the packager's choice, but for a signature that it makes itself afterwards.
    expect(known("FuseOptionsV1").filter((name) => !fuses.has(name))).toEqual(["resetAdHocDarwinSignature"]);
    expect(settings).toMatch(/^asar: true$/m);
  });

  it("opens a study by a double click", () => {
    const lines = part("fileAssociations").map((line) => line.replace(/^\s*-?\s*/, ""));
    expect(lines).toContain(`ext: ${studyExtension}`);
    for (const line of lines) expect(known("FileAssociation")).toContain(line.split(":")[0]);
  });

  it("brings what the service reads beside its own files", () => {
    const files = part("files").map((line) => line.trim().replace(/^- /, ""));
    for (const wanted of ["dist/main/**", "dist/preload/**", "dist/page/**", "sample-data/good/**", "package.json"]) {
      expect(files).toContain(wanted);
    }
    expect(existsSync(join(project, "sample-data", "good", "tall-kettle-stove.csv"))).toBe(true);
    // Packages with files of their own (fonts) are shipped as installed, being what the program depends on.
    const { dependencies } = JSON.parse(readFileSync(join(project, "package.json"), "utf8")) as {
      dependencies: Record<string, string>;
    };
    const build = readFileSync(join(project, "app", "build.ts"), "utf8");
    const [, list = ""] = /packagesWithFiles = \[([^\]]+)\]/.exec(build) ?? [];
    const external = [...list.matchAll(/"([^"]+)"/g)].map(([, name]) => name ?? "");
    expect(external.length).toBeGreaterThan(0);
    for (const name of external) {
      const start = name.replace(/\*$/, "");
      expect(Object.keys(dependencies).some((dependency) => dependency.startsWith(start))).toBe(true);
    }
  });
});
