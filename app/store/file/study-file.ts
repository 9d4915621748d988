import type { NewStudy, OpenedFile } from "./opened-file.ts";
import type { Places } from "./places.ts";

/** Makes a new study at a path where nothing lies, and opens it. @throws {StoreFault} "exists", "full", "readOnlyPlace", … */
export async function createStudyFile(path: string, _study: NewStudy, _places: Places): Promise<OpenedFile> {
  throw new Error(`not made: ${path}`);
}

/** Opens a study. @throws {StoreFault} where nothing of it can be shown. */
export async function openStudyFile(path: string, _places: Places): Promise<OpenedFile> {
  throw new Error(`not opened: ${path}`);
}
