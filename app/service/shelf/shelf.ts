import { createHash } from "node:crypto";
import { existsSync, readdirSync, realpathSync, statSync } from "node:fs";
import { basename, join } from "node:path";
import type { ShelfEntry, ShelfView } from "../../contract/index.ts";
import { fileNameFor, freeName, studyEnding } from "./file-name.ts";
import { RecentList } from "./recent.ts";
import type { UserFolders } from "./user-folders.ts";

/** The name by which a page knows a file: it says nothing of where it is, and no page can make one up for another file. */
export function placeName(path: string): string {
  return createHash("sha256").update(realOf(path)).digest("hex").slice(0, 32);
}

/** The path without symbolic links, where the file is there. */
export function realOf(path: string): string {
  try {
    return realpathSync.native(path);
  } catch {
    return path;
  }
}

/** When a file was changed last; the beginning of time where that may not be known. */
function changedAt(path: string): string {
  try {
    return statSync(path).mtime.toISOString();
  } catch {
    return new Date(0).toISOString();
  }
}

/** The studies that can be opened without naming a path: those that were opened before, and those in the studies folder. */
export class Shelf {
  readonly #folders: UserFolders;
  readonly recent: RecentList;

  constructor(folders: UserFolders) {
    this.#folders = folders;
    this.recent = new RecentList(join(folders.data, "recent.json"));
  }

  /** The file of a place of the list; null where there is none. */
  pathOf(place: string): string | null {
    const known = [...this.recent.read().studies.map(({ path }) => path), ...this.#inFolder()];
    return known.find((path) => placeName(path) === place) ?? null;
  }

  view(): ShelfView {
    const { studies, names } = this.recent.read();
    const recent = studies.map(
      ({ path, name, at }): ShelfEntry => ({
        place: placeName(path),
        name,
        file: path,
        at,
        recent: true,
        isGone: !existsSync(path),
      }),
    );
    const known = new Set(recent.map(({ place }) => place));
    const others = this.#inFolder()
      .map((path): ShelfEntry => {
        const name = basename(path).slice(0, -studyEnding.length);
        return { place: placeName(path), name, file: path, at: changedAt(path), recent: false, isGone: false };
      })
      .filter(({ place }) => !known.has(place))
      .toSorted((left, right) => (left.at < right.at ? 1 : -1));
    return { studies: [...recent, ...others], folder: this.#folders.studies, names };
  }

  #inFolder(): string[] {
    try {
      return readdirSync(this.#folders.studies, { withFileTypes: true })
        .filter((entry) => entry.isFile() && entry.name.endsWith(studyEnding))
        .map(({ name }) => join(this.#folders.studies, name));
    } catch {
      return [];
    }
  }

  /** A path in the studies folder (or another of the program's) that is free, for a study of that name. */
  freePath(name: string, fallback: string, folder = this.#folders.studies): string {
    const free = freeName(fileNameFor(name, fallback), (one) => existsSync(join(folder, `${one}${studyEnding}`)));
    return join(folder, `${free}${studyEnding}`);
  }
}
