import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import * as v from "valibot";

const recentFile = v.object({
  names: v.array(v.string()),
  studies: v.array(v.object({ path: v.string(), name: v.string(), at: v.string() })),
});

/** What the program remembers from one start to the next: nothing of it is needed to open a study. */
export type Recent = v.InferOutput<typeof recentFile>;

const mostStudies = 50;
const mostNames = 30;

/** Studies that were opened and names that were picked, the latest first. */
export class RecentList {
  readonly #file: string;

  constructor(file: string) {
    this.#file = file;
  }

  /** Read each time: another program of the same user may have added to it. Empty where it is missing or damaged. */
  read(): Recent {
    try {
      return v.parse(recentFile, JSON.parse(readFileSync(this.#file, "utf8")));
    } catch {
      return { names: [], studies: [] };
    }
  }

  opened(path: string, name: string, at: Date): void {
    const { names, studies } = this.read();
    const others = studies.filter((study) => study.path !== path);
    this.#write({ names, studies: [{ path, name, at: at.toISOString() }, ...others].slice(0, mostStudies) });
  }

  picked(name: string): void {
    const { names, studies } = this.read();
    if (names[0] === name) return;
    this.#write({ names: [name, ...names.filter((one) => one !== name)].slice(0, mostNames), studies });
  }

  /** Beside and renamed, so that nobody reads half of it. A list that cannot be kept is no reason to stop. */
  #write(recent: Recent): void {
    const beside = `${this.#file}.${process.pid}.part`;
    try {
      mkdirSync(dirname(this.#file), { recursive: true, mode: 0o700 });
      writeFileSync(beside, JSON.stringify(recent), { mode: 0o600 });
      renameSync(beside, this.#file);
    } catch {
      rmSync(beside, { force: true });
    }
  }
}
