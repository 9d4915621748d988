import type { Run, Settings, SimulatedRun, Simulation, StudyResults } from "../../../core/index.ts";
import { statesErrors } from "../../../core/index.ts";
import { MonteCarloDesk } from "../uncertainty/monte-carlo-desk.ts";
import { trialsRequest } from "../uncertainty/trials-request.ts";

/** What a simulation of a study is asked for, and by whom. */
export interface SimulationRequest {
  /** In place of what the settings say. */
  readonly trials?: number | null;
  readonly seed?: number | null;
  /** Most trials of all runs together. */
  readonly mostInAll: number;
  /** Beyond this number of runs none is simulated. */
  readonly mostRuns?: number;
  /** Worker threads; as many as suit the machine unless said. */
  readonly workers?: number;
  /** Once it is aborted the simulation is given up: the promise is rejected with its reason. */
  readonly signal?: AbortSignal;
  /** How much is done, from 0 to 1. */
  readonly onProgress?: (share: number) => void;
}

/** A file of ten thousand runs is not to take an hour: about as many trials as a few minutes to a quarter of an hour hold. */
export const mostTrialsOfCommand = 200_000_000;
/** Nobody can stop what a window exports: a second or two, and some seconds at most. */
export const limitsOfExport = { mostInAll: 500_000, mostRuns: 500 } as const;
/** Fewer than this tell nothing of an interval's ends to one digit (10^4 of JCGM 101:2008, 7.9.4). */
const leastTrialsOfRun = 10_000;
/** Runs that are asked for at a time: the workers never wait, and a study's runs do not all lie in memory twice. */
const askedAtOnce = 8;

/** Trials of each run, where all together may not be more than so many. */
export function trialsOfEach(wanted: number, runs: number, mostInAll: number): number {
  const share = Math.floor(mostInAll / Math.max(1, runs));
  return Math.min(wanted, Math.max(leastTrialsOfRun, share));
}

/**
 * Monte Carlo of all runs of a study that have any result, those that were left out among them. The same on any number of workers.
 *
 * @returns null where the settings state no errors or ask for no trials, or there are too many runs
 */
export async function simulateRuns(
  { study, runs }: Pick<StudyResults, "study" | "runs">,
  request: SimulationRequest,
): Promise<Simulation | null> {
  const settings = withMonteCarlo(study.settings, request);
  const { trials: wanted, seed, adaptive } = settings.monteCarlo;
  if (wanted === 0 || !statesErrors(settings)) return null;
  const having = runs.filter(({ values, phases }) => values.size > 0 || phases.some((phase) => phase.values.size > 0));
  if (having.length > (request.mostRuns ?? Number.POSITIVE_INFINITY)) return null;
  const trials = trialsOfEach(wanted, having.length, request.mostInAll);
  const drawn = await drawAll(
    having.map(({ run }) => run),
    { ...settings, monteCarlo: { ...settings.monteCarlo, trials } },
    request,
  );
  return { wanted, trials, seed, isAdaptive: adaptive === true, runs: drawn };
}

function withMonteCarlo(settings: Settings, { trials, seed }: SimulationRequest): Settings {
  const { monteCarlo } = settings;
  return {
    ...settings,
    monteCarlo: { ...monteCarlo, trials: trials ?? monteCarlo.trials, seed: seed ?? monteCarlo.seed },
  };
}

async function drawAll(
  runs: readonly Run[],
  settings: Settings,
  { workers, signal, onProgress }: SimulationRequest,
): Promise<ReadonlyMap<string, SimulatedRun>> {
  const { trials } = settings.monteCarlo;
  const found = new Map<string, SimulatedRun>();
  const under = new Map<string, number>();
  const tell = () => {
    const drawn = [...under.values()].reduce((sum, one) => sum + one, 0);
    onProgress?.(runs.length === 0 ? 1 : (found.size + drawn / trials) / runs.length);
  };
  const desk = new MonteCarloDesk(workers);
  const waiting = runs.values();
  const inTurn = async () => {
    for (const run of waiting) {
      const progress = (so: number) => {
        under.set(run.id, Math.min(so, trials));
        tell();
      };
      const options = { onProgress: progress, ...(signal !== undefined && { signal }) };
      const result = await desk.run(trialsRequest(run, settings), options);
      under.delete(run.id);
      found.set(run.id, result);
      tell();
    }
  };
  try {
    await Promise.all(Array.from({ length: askedAtOnce }, inTurn));
  } finally {
    await desk.close();
  }
  return found;
}
