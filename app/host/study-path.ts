import { posix, win32 } from "node:path";

/** Decides which file a start was asked to open. It says nothing of the file itself: that is for the service to see. */

/** Ending of a study file's name. */
export const studyExtension = "boilstudy";

const isStudyName = (text: string) => text.toLowerCase().endsWith(`.${studyExtension}`);

/** Longest path that Windows takes; Linux and macOS take less. */
const longestPath = 32_767;

/**
 * Whether text from another process can be handed on as a study's path: whole, absolute, with a study's ending, and not the name of a
 * device (`\\.\…`, `\\?\GLOBALROOT\…`). `..` is gone from what `absolutePath` made; here it is refused.
 */
export function isStudyPath(path: unknown, platform: string): path is string {
  if (typeof path !== "string" || path.length > longestPath || path.includes("\0") || !isStudyName(path)) return false;
  const rules = platform === "win32" ? win32 : posix;
  if (!rules.isAbsolute(path) || rules.normalize(path) !== path) return false;
  // On Windows a path without a drive means another file from each folder's drive.
  return platform !== "win32" || /^[A-Za-z]:\\/.test(path) || /^\\\\[^\\?.][^\\]*\\[^\\]+\\/.test(path);
}

/** A path as somebody wrote it, made whole from the folder in which it was written; null where it is no study's. */
export function absolutePath(written: string, folder: string, platform: string): string | null {
  const whole = (platform === "win32" ? win32 : posix).resolve(folder, written);
  return isStudyPath(whole, platform) ? whole : null;
}

/** The study that the system or a person named when starting the program; switches, which a runtime adds of its own, are passed over. */
export function studyAmong(parameters: readonly string[], folder: string, platform: string): string | null {
  const named = parameters.filter((text) => !text.startsWith("-") && isStudyName(text)).at(-1);
  return named === undefined ? null : absolutePath(named, folder, platform);
}
