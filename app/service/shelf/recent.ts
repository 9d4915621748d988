import { mkdirSync, readFileSync, statSync } from "node:fs";
import { dirname, isAbsolute } from "node:path";
import * as v from "valibot";
import { removeLeftovers, writeWhole } from "../../store/index.ts";

const mostStudies = 50;
const mostNames = 30;
/** A list of ours is far smaller; a larger one is not ours. */
const mostBytes = 4 * 1024 * 1024;

const plain = v.pipe(
  v.string(),
  v.maxLength(10_000),
  v.check((text) => !text.includes("\0") && text.isWellFormed()),
);
const recentStudy = v.object({
  path: v.pipe(plain, v.check(isAbsolute)),
  name: plain,
  at: v.pipe(v.string(), v.isoTimestamp()),
});
const pickedName = v.pipe(plain, v.trim(), v.minLength(1), v.maxLength(200));
const recentFile = v.object({ names: v.array(v.unknown()), studies: v.array(v.unknown()) });

/** What the program remembers from one start to the next: nothing of it is needed to open a study. */
export interface Recent {
  readonly names: readonly string[];
  readonly studies: readonly v.InferOutput<typeof recentStudy>[];
}

/** The entries that are what they should be. */
function soundOf<T>(schema: v.GenericSchema<unknown, T>, entries: readonly unknown[], most: number): T[] {
  return entries.slice(0, most).flatMap((entry) => {
    const read = v.safeParse(schema, entry);
    return read.success ? [read.output] : [];
  });
}

/** Studies that were opened and names that were picked, the latest first. */
export class RecentList {
  readonly #file: string;

  constructor(file: string) {
    this.#file = file;
  }

  /** Read each time: another program of the same user may have added to it. What is missing or damaged of it is passed over. */
  read(): Recent {
    try {
      if (statSync(this.#file).size > mostBytes) return { names: [], studies: [] };
      const { names, studies } = v.parse(recentFile, JSON.parse(readFileSync(this.#file, "utf8")));
      return { names: soundOf(pickedName, names, mostNames), studies: soundOf(recentStudy, studies, mostStudies) };
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

  /** A list that cannot be kept is no reason to stop. */
  #write(recent: Recent): void {
    try {
      mkdirSync(dirname(this.#file), { recursive: true, mode: 0o700 });
      removeLeftovers(dirname(this.#file), this.#file);
      writeWhole(this.#file, JSON.stringify(recent));
    } catch {}
  }
}
