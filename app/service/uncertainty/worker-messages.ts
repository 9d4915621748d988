import type {
  OutputPart,
  OutputTrials,
  PhysicalRange,
  Run,
  Settings,
  SignificantDigits,
  TalliedOutput,
  TrialsPart,
  TrialsStretch,
} from "../../../core/index.ts";

/** The trials of one run, as a worker is given them: it records the run's formulas itself. Plain data throughout. */
export interface RunTrialsRequest {
  readonly run: Run;
  readonly settings: Settings;
  /** By text of an output's key, where it can lie at all. */
  readonly ranges: ReadonlyMap<string, PhysicalRange>;
  readonly trials: number;
  readonly seed: number;
  readonly confidence: number;
  /** Digits that must be stable for the trials to stop; null: all trials are drawn. */
  readonly adaptiveDigits: SignificantDigits | null;
}

export interface RunTrials {
  readonly trials: number;
  readonly seed: number;
  /** By text of the output's key. */
  readonly outputs: ReadonlyMap<string, OutputTrials>;
  /** Keys of outputs that the adaptive procedure found stable; null where it was not asked for. */
  readonly stable: ReadonlySet<string> | null;
}

export type WorkerTask =
  | { readonly kind: "whole"; readonly request: RunTrialsRequest }
  | {
      readonly kind: "stretch";
      readonly request: RunTrialsRequest;
      readonly stretch: TrialsStretch;
      readonly positions: readonly number[];
    }
  | {
      readonly kind: "summarise";
      readonly confidence: number /** For each of some outputs what the parts of the trials gave. */;
      readonly outputs: readonly (readonly OutputPart[])[];
    };

export interface TaskResults {
  readonly whole: RunTrials;
  readonly stretch: TrialsPart;
  /** In their order; null where too few values were kept. */
  readonly summarise: readonly (OutputTrials | null)[];
}

export interface ToWorker {
  readonly id: number;
  readonly task: WorkerTask;
  /** One word, not 0 once the task is to be given up. */
  readonly givenUp: Int32Array;
}

export type FromWorker =
  | { readonly id: number; readonly kind: "progress"; readonly trials: number }
  | { readonly id: number; readonly kind: "done"; readonly result: TaskResults[WorkerTask["kind"]] }
  | { readonly id: number; readonly kind: "givenUp" }
  | { readonly id: number; readonly kind: "failed"; readonly message: string };

/** The memory that holds trials in a message: it is handed over rather than copied, for it is most of what there is. */
export function buffersIn(content: WorkerTask | TaskResults[WorkerTask["kind"]]): ArrayBuffer[] {
  if ("kind" in content && content.kind === "summarise") return content.outputs.flatMap(buffersOfOutput);
  return "from" in content ? content.outputs.flatMap(buffersOfTallied) : [];
}

export function buffersOfOutput(parts: readonly OutputPart[]): ArrayBuffer[] {
  return parts.flatMap(({ tallied }) => buffersOfTallied(tallied));
}

function buffersOfTallied({ moments, low, high }: TalliedOutput): ArrayBuffer[] {
  return [moments, low, high].map(({ buffer }) => buffer as ArrayBuffer);
}
