/// <reference path="./fontkit.d.ts" />
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { create, type Font, type GlyphRun } from "fontkit";

/** Faces of the report: text for figures and reading, voice for findings and headings; the fallbacks for what these lack. */
export type FaceName = "text" | "text-bold" | "voice" | "fallback" | "fallback-bold";

const files: Record<FaceName, string> = {
  text: "@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf",
  "text-bold": "@expo-google-fonts/source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf",
  voice: "@expo-google-fonts/source-serif-4/600SemiBold/SourceSerif4_600SemiBold.ttf",
  fallback: "dejavu-fonts-ttf/ttf/DejaVuSans.ttf",
  "fallback-bold": "dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf",
};

/** Figures of one width, on the line: columns of numbers stand under one another. */
const features = ["tnum", "lnum"];

const faces = new Map<FaceName, Font>();
const require = createRequire(import.meta.url);

const longestKept = 60;
const mostKept = 20_000;

/** A face, read from disk when it is first asked for and kept: reading is what costs time. */
export function face(name: FaceName): Font {
  let font = faces.get(name);
  if (font === undefined) {
    const plain = create(readFileSync(require.resolve(files[name])));
    // The PDF writer lays text out without asking for features; so the face itself asks for them.
    font = Object.create(plain, { layout: { value: keptLayout(plain) } }) as Font;
    faces.set(name, font);
  }
  return font;
}

/** Lays out each short text once, for measuring it and for every document it is written to. */
function keptLayout(font: Font): Font["layout"] {
  const kept = new Map<string, GlyphRun>();
  return (text) => {
    let run = kept.get(text);
    if (run === undefined) {
      run = font.layout(text, features);
      if (kept.size >= mostKept) kept.clear();
      if (text.length <= longestKept) kept.set(text, run);
    }
    // The PDF writer scales the positions it is given in place; so each caller has its own.
    const positions = run.positions.map((position) => ({ ...position }));
    return { glyphs: run.glyphs, positions, advanceWidth: run.advanceWidth };
  };
}

/** The face that stands in where `name` has no sign for a character. */
export function fallbackOf(name: FaceName): FaceName {
  return name === "text" || name === "fallback" ? "fallback" : "fallback-bold";
}
