import { accessSync, constants, mkdirSync } from "node:fs";
import { join } from "node:path";
import { StoreFault } from "../fault.ts";
import type { Migration } from "../schema/migration.ts";
import { migrations } from "../schema/migrations.ts";
import type { OpenOptions } from "../study-database.ts";
import { diskFault } from "./disk.ts";
import type { placeOf } from "./place-of.ts";

/** Where the program keeps what is its own, and what it is known by. */
export interface Places {
  /** The user's own data folder of the program. backups/, working/, locks/ and private/ lie in it, for its owner's eyes only. */
  readonly dataFolder: string;
  /** Name and version of the program, as the record of a study keeps it. */
  readonly program: string;
  /** Told to others who find the study held. */
  readonly who: string;
  readonly now?: () => Date;
  /** How it is judged what kind of place a file lies on; given by tests. */
  readonly placeOf?: typeof placeOf;
  /** The layouts of a study that are known; given by tests. */
  readonly migrations?: readonly Migration[];
}

type OwnFolder = "backups" | "working" | "locks" | "private";

/**
 * A folder of the program's own, made where it is missing: nobody but its owner may look into it.
 * @throws {StoreFault} "full", "ownFolder": the fault is not the study's
 */
export function ownFolder(places: Places, folder: OwnFolder, ...below: readonly string[]): string {
  const path = join(places.dataFolder, folder, ...below);
  try {
    mkdirSync(path, { recursive: true, mode: 0o700 });
    accessSync(path, constants.W_OK | constants.X_OK);
  } catch (error) {
    const { code, detail } = diskFault(error);
    throw new StoreFault(code === "full" ? code : "ownFolder", detail, { cause: error });
  }
  return path;
}

export function timeOf(places: Places): Date {
  return places.now?.() ?? new Date();
}

/** The newest layout of a study that this program knows. */
export function newestVersion(places: Places): number {
  return (places.migrations ?? migrations).length;
}

/** How a study's database is opened here. */
export function openingOf(places: Places, readOnly: boolean): OpenOptions {
  const { program, now, migrations: known } = places;
  return {
    readOnly,
    program,
    ...(now === undefined ? {} : { now }),
    ...(known === undefined ? {} : { migrations: known }),
  };
}
