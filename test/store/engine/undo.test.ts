import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, expect, test } from "vitest";
import type { Change, StudyDatabase } from "../../../app/store/index.ts";
import { changesOf, type Draw, kinds } from "./random-edits.ts";
import { createStudy, everything, faultOf, note, openStudy, verifyAll } from "./sample.ts";

/** In memory where the system has a folder for that: this is about content, not about disks. */
const folder = mkdtempSync(join(existsSync("/dev/shm") ? "/dev/shm" : tmpdir(), "boilbench-undo-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const number = fc.nat({ max: 9999 });
const draw: fc.Arbitrary<Draw> = fc.record({ kind: fc.nat({ max: kinds - 1 }), place: number, value: number });
/** Now and then an undo among the edits. */
const step = fc.record({ draws: fc.array(draw, { minLength: 1, maxLength: 2 }), isUndo: fc.nat({ max: 9 }) });

let files = 0;
let made = 0;
const subjects = new Set<Change["subject"]>();

/** Opens the file anew: what can be undone must come from the record alone. */
function reopened(study: StudyDatabase, path: string): StudyDatabase {
  study.close();
  return openStudy(path);
}

/** One edit of the drawn changes, each drawn as the study is then; those that the file refuses are left. */
function editOnce(study: StudyDatabase, draws: readonly Draw[]): number {
  const changes = draws.flatMap((one) => changesOf(study, one));
  const before = study.contentDigest();
  const fault = faultOf(() => study.edit(note("random"), changes));
  if (fault === null) {
    made += 1;
    for (const { subject } of changes) subjects.add(subject);
    return 1;
  }
  expect(fault.code).toBe("refused");
  expect(study.contentDigest()).toBe(before);
  return 0;
}

const contentOf = (study: StudyDatabase): unknown => {
  const { record: _, ...content } = everything(study) as Record<string, unknown>;
  return content;
};

test("after any 1 to 200 edits, as many undos give the first content, and redo the last, whenever the file was reopened", () => {
  const property = fc.property(
    fc.array(step, { minLength: 1, maxLength: 200, size: "max" }),
    fc.nat({ max: 199 }),
    (steps, reopenAt) => {
      files += 1;
      const path = join(folder, `${files}.boilstudy`);
      let study = createStudy(path);
      const [first, firstContent] = [study.contentDigest(), contentOf(study)];
      let depth = 0;
      for (const [index, { draws, isUndo }] of steps.entries()) {
        if (index === reopenAt) study = reopened(study, path);
        if (isUndo === 0 && depth > 0) {
          study.undo("Ben");
          depth -= 1;
        } else depth += editOnce(study, draws);
      }
      verifyAll(study);
      const [last, lastContent] = [study.contentDigest(), contentOf(study)];
      for (let count = 0; count < depth; count += 1) {
        if (count === reopenAt % 100) study = reopened(study, path);
        study.undo("Ana");
      }
      expect(study.undoable()).toBeNull();
      expect(study.contentDigest()).toBe(first);
      expect(contentOf(study)).toEqual(firstContent);
      verifyAll(study);
      for (let count = 0; count < depth; count += 1) {
        if (count === reopenAt % 70) study = reopened(study, path);
        study.redo("Ana");
      }
      expect(study.contentDigest()).toBe(last);
      expect(contentOf(study)).toEqual(lastContent);
      verifyAll(study);
      study.close();
      rmSync(path);
    },
  );
  fc.assert(property, { numRuns: 12 });
  // The draws do reach every subject, and most are edits that the file takes.
  expect(made).toBeGreaterThan(500);
  expect([...subjects].sort()).toEqual([
    "attachment",
    "fuel",
    "instrument",
    "phase",
    "pot",
    "reading",
    "remark",
    "run",
    "runField",
    "series",
    "setting",
    "study",
    "text",
    "timing",
    "variant",
  ]);
}, 60_000);
