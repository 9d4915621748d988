import { parseKey, physicalRange, type Run, runModel, type Settings } from "../../../core/index.ts";
import type { RunTrialsRequest } from "./worker-messages.ts";

/** The trials of one run as the settings ask for them. */
export function trialsRequest(run: Run, settings: Settings): RunTrialsRequest {
  const { trials, seed, adaptive } = settings.monteCarlo;
  const ranges = runModel(run, settings).keys.flatMap((text) => {
    const key = parseKey(text);
    return key === null ? [] : [[text, physicalRange(key.quantity)] as const];
  });
  return {
    ...{ run, settings, trials, seed, confidence: settings.confidence },
    ranges: new Map(ranges),
    adaptiveDigits: adaptive === true ? 2 : null,
  };
}
