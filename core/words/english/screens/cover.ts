import { count } from "./count.ts";

/** What lies on top of every page. */
export const cover = {
  screens: "Pages of the study",
  skip: "Skip to the page",
  example: "Invented example: not real tests",
  noStudy: "No study",
  otherStudy: "choose another study",
  runs: (included: number, all: number) => `${included} of ${count(all, "run", "runs")}`,
  onBench: "on the Bench:",
  onBenchMore: (n: number) => `and ${n} more`,
  questions: (n: number) => (n === 0 ? "no questions" : count(n, "question", "questions")),
  looking: (percent: string) => `questions are being looked for (${percent} %)`,
  colours: "Colours",
  colour: { system: "as the system", light: "light", dark: "dark" },
  help: "Help",
  helpKey: "F1",

  writing: (name: string) => `writing: ${name}`,
  nobody: "writing: nobody named yet",
  changeWho: "change the name",

  undo: "Undo",
  redo: "Redo",
  undoOf: (step: string) => `Undo: ${step}`,
  redoOf: (step: string) => `Redo: ${step}`,
  nothingToUndo: "Undo: there is nothing to undo",
  nothingToRedo: "Redo: there is nothing to redo",
  undoKey: "Ctrl Z",
  undoKeyApple: "⌘ Z",
  close: "Close this message",
};
