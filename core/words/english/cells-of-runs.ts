import { shorten } from "../shorten.ts";

const named = (text: string) => `“${shorten(text, 60)}”`;

/** What is said where many cells were to be changed at once and some do not fit. */
export const cellsOfRuns = {
  refused: (way: "paste" | "fillDown" | "empty", refused: number, all: number) =>
    `${{ paste: "Nothing was pasted", fillDown: "Nothing was filled down", empty: "Nothing was emptied" }[way]}: ${
      refused === 1
        ? `one ${all === 1 ? "cell does" : `of ${all} cells does`}`
        : `${refused} ${all === refused ? "cells do" : `of ${all} cells do`}`
    } not fit. Mend ${refused === 1 ? "it, or leave it" : "them, or leave them"} out, and try again.`,
  result: "This is worked out from the readings. Change those.",
  noPhase: (run: string, phase: string) =>
    `Run ${named(run)} has no ${phase}. Choose cells of phases that it has, or take its readings in from a file.`,
  noColumn: (column: string) => `There is no reading called ${named(column)}. Choose another column.`,
  sameName: (name: string) => `Two runs would be called ${named(name)}. Give each a name of its own.`,
  twoTexts: (column: string, run: string) =>
    `Two different texts were given for ${column} of run ${named(run)}, which has one for all of its phases. Give the same in each.`,
};
