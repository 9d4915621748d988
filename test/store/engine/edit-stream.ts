import { writeSync } from "node:fs";
import { setImmediate } from "node:timers/promises";
import { StudyDatabase } from "../../../app/store/index.ts";

/**
 * A process of its own that edits a study until it is killed: `edit-stream.ts FILE SEED [EDITS]`. After each edit, undo or redo that has
 * returned, it writes one line: the edit's number and the value that the reading then has. Asked to "pause", it says "paused"
 * and stops between two edits until it is told to "go". With a number of edits it ends by itself after so many.
 */
const [path = "", seed = "1", edits = "Infinity"] = process.argv.slice(2);
const study = StudyDatabase.open(path, { readOnly: false, program: "boilbench 0.1.0" });
const place = { item: 1, phase: "simmer" } as const;

/** Written before the next edit begins: the parent has a line only for what has returned. */
const say = (line: string): number => writeSync(1, `${line}\n`);

let isPaused = false;
process.stdin.on("data", (data) => {
  isPaused = data.toString().includes("pause");
  if (isPaused) say("paused");
});

let state = Number(seed);
/** Whole numbers from 0 to 9, the same for the same seed (a linear congruence, good enough for this). */
const chance = (): number => {
  state = (state * 1_103_515_245 + 12_345) % 2 ** 31;
  return Math.floor((state / 2 ** 31) * 10);
};

function step(): number {
  const kind = chance();
  if (kind < 2 && study.undoable()?.what === "cell") return study.undo("stream").done.edit;
  if (kind < 4 && study.redoable() !== null) return study.redo("stream").done.edit;
  const act = study.nextItem("act");
  const { edit } = study.edit({ who: "stream", what: "cell", about: {}, why: null }, [
    { subject: "reading", ...place, field: "char_g", after: { act, value: act + 0.5 } },
    { subject: "text", ...place, field: "note", after: `${act} `.repeat(1 + chance() * 400) },
  ]);
  return edit;
}

for (let left = Number(edits); left > 0; ) {
  if (!isPaused) {
    left -= 1;
    const edit = step();
    const phase = study.run(1).phases.find((one) => one.phase === place.phase);
    say(`${edit} ${phase?.readings.get("char_g")?.value}`);
  }
  await setImmediate();
}
study.close();
process.stdin.destroy();
