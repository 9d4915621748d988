import type { Simulation, StudyResults } from "../../../core/index.ts";
import { type SimulationRequest, simulateRuns } from "./simulate-runs.ts";

/** Monte Carlo of studies, kept as long as their results: several files of one study are made from one. */
export class KnownSimulations {
  readonly #known = new WeakMap<StudyResults, Map<string, Promise<Simulation | null>>>();

  of(results: StudyResults, request: SimulationRequest): Promise<Simulation | null> {
    const { trials = null, seed = null, mostInAll } = request;
    const ofStudy = this.#known.get(results) ?? new Map<string, Promise<Simulation | null>>();
    this.#known.set(results, ofStudy);
    const key = [trials, seed, mostInAll].join(" ");
    const known = ofStudy.get(key) ?? simulateRuns(results, request);
    ofStudy.set(key, known);
    // What was given up is begun anew when it is asked for again.
    known.catch(() => ofStudy.delete(key));
    return known;
  }
}
