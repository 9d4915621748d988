import { defaultSettings, type Method, type Run, type Settings } from "../../core/index.ts";

/** Settings as a file gives them: method and confidence may be left to the runs. */
export interface SettingsFile extends Omit<Settings, "method" | "confidence"> {
  readonly method: Method | null;
  readonly confidence: number | null;
}

/** What holds where there is no settings file. */
export function emptySettingsFile(): SettingsFile {
  return { ...defaultSettings(), method: null, confidence: null };
}

/**
 * The settings of a study. A flag of the command line beats the file, which beats the default: the method of the runs (the
 * ISO one where all runs are of it), and the method's usual confidence.
 */
export function settingsFor(
  given: SettingsFile,
  runs: readonly Pick<Run, "method">[],
  flag: Method | null = null,
): Settings {
  const ofRuns: Method = runs.length > 0 && runs.every(({ method }) => method === "iso") ? "iso" : "wbt";
  const method = flag ?? given.method ?? ofRuns;
  return { ...given, method, confidence: given.confidence ?? defaultSettings(method).confidence };
}
