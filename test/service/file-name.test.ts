import { posix, win32 } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fileNameFor, freeName } from "../../app/service/shelf/file-name.ts";

describe("a file's name from the name that a person gave", () => {
  const table: [string, string][] = [
    ["Tall kettle stove, skirt and gap", "Tall kettle stove skirt and gap"],
    ["../../etc/passwd", "etc passwd"],
    ["..\\..\\Windows\\System32", "Windows System32"],
    ["/absolute", "absolute"],
    ["C:\\autoexec.bat", "C autoexec bat"],
    ["\\\\server\\share", "server share"],
    ["..", "study"],
    [".", "study"],
    ["", "study"],
    ["   ", "study"],
    ["con", "study"],
    ["LPT1", "study"],
    ["nul", "study"],
    ["-rf", "rf"],
    ["a\0b", "a b"],
    ["a\nb\r\tc", "a b c"],
    ["<script>alert(1)</script>", "script alert 1 script"],
    ["\u202Egnp.exe", "gnp exe"],
    ["Ofen – Versuch Nº 3", "Ofen Versuch Nº 3"],
    ["चूल्हा 2", "चूल्हा 2"],
    ["مدفأة", "مدفأة"],
    ["x.boilstudy", "x boilstudy"],
    ["name:stream", "name stream"],
    ["a*b?c|d", "a b c d"],
    ["~", "study"],
    ["$HOME `rm` %PATH%", "HOME rm PATH"],
  ];
  for (const [given, expected] of table) {
    it(`${JSON.stringify(given)} → ${JSON.stringify(expected)}`, () => {
      expect(fileNameFor(given, "study")).toBe(expected);
    });
  }

  it("is always one plain name, whatever was given: no system reads a folder, a device or an option in it", () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: "binary", maxLength: 300 }), fc.string({ maxLength: 300 })), (given) => {
        const name = fileNameFor(given, "study");
        expect(name).not.toBe("");
        expect(posix.basename(name)).toBe(name);
        expect(win32.basename(name)).toBe(name);
        expect(name).not.toMatch(/^[.\s-]|[.\s]$|[<>:"/\\|?*\p{Cc}\p{Cf}\p{Cs}]/u);
        expect(Buffer.byteLength(`${name} 999.boilstudy`)).toBeLessThanOrEqual(255);
      }),
    );
  });

  it("takes the first number that is free", () => {
    const taken = new Set(["a", "a 2", "b"]);
    expect(freeName("a", (name) => taken.has(name))).toBe("a 3");
    expect(freeName("c", (name) => taken.has(name))).toBe("c");
  });
});
