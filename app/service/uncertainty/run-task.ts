import {
  adaptiveMonteCarlo,
  blockSize,
  type InSteps,
  type MonteCarloResults,
  monteCarlo,
  ofOutputs,
  outputGroups,
  type RunModel,
  runModel,
  runTrials,
  summariseOutput,
  type TrialsRequest,
} from "../../../core/index.ts";
import {
  buffersOfOutput,
  type RunTrials,
  type RunTrialsRequest,
  type TaskResults,
  type WorkerTask,
} from "./worker-messages.ts";

/** A task in steps, of about a block of trials or an output each; `onBlock` is told how many trials a step drew. */
export function* taskInSteps(
  task: WorkerTask,
  onBlock: (trials: number) => void,
): InSteps<TaskResults[WorkerTask["kind"]]> {
  switch (task.kind) {
    case "whole":
      return yield* wholeRun(task.request, onBlock);
    case "stretch": {
      const whole = runModel(task.request.run, task.request.settings);
      const { model, request } = ofOutputs(whole, requestFor(whole, task.request), task.positions);
      return yield* counted(runTrials(model, request, task.stretch), onBlock, 1);
    }
    case "summarise": {
      const found: ReturnType<typeof summariseOutput>[] = [];
      for (const parts of task.outputs) {
        found.push(summariseOutput(parts, task.confidence));
        // Given back at once: there are as many again in the next trials before memory is gone through.
        for (const buffer of buffersOfOutput(parts)) buffer.transfer(0);
        yield;
      }
      return found;
    }
  }
}

/** `turns`: how often the trials are gone through. */
function* counted<Result>(steps: InSteps<Result>, onBlock: (trials: number) => void, turns: number): InSteps<Result> {
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
    onBlock(blockSize / turns);
    yield;
  }
}

function* wholeRun(request: RunTrialsRequest, onBlock: (trials: number) => void): InSteps<RunTrials> {
  const model = runModel(request.run, request.settings);
  const trials = requestFor(model, request);
  const { adaptiveDigits } = request;
  if (adaptiveDigits === null) {
    const turns = outputGroups(model, trials).length;
    return runTrialsOf(model, yield* counted(monteCarlo(model, trials), onBlock, turns), null);
  }
  const results = yield* counted(adaptiveMonteCarlo(model, { ...trials, digits: adaptiveDigits }), onBlock, 1);
  return runTrialsOf(model, results, results.isStable);
}

/** The request as the core takes it, bounds in the order of the outputs. */
export function requestFor(model: RunModel, { trials, seed, confidence, ranges }: RunTrialsRequest): TrialsRequest {
  const unbounded = { lower: null, upper: null };
  return { trials, seed, confidence, ranges: model.keys.map((key) => ranges.get(key) ?? unbounded) };
}

/** Results by the outputs' keys. */
export function runTrialsOf(
  model: RunModel,
  { trials, seed, outputs }: MonteCarloResults,
  isStable: readonly boolean[] | null,
): RunTrials {
  return {
    trials,
    seed,
    outputs: new Map(outputs.map((output, position) => [model.keys[position] as string, output])),
    stable: isStable === null ? null : new Set(model.keys.filter((_, position) => isStable[position] === true)),
  };
}
