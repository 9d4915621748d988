import { expect } from "vitest";
import type {
  BenchFieldView,
  BenchRunView,
  BenchView,
  Door,
  Edit,
  EditedView,
  FurtherEntry,
} from "../../app/contract/index.ts";
import type { PhaseName } from "../../core/index.ts";
import { ownDoor } from "../build/own-door.ts";
import { ask, taken } from "../service/requests.ts";

/** A study of its own, behind a real door, with what is done on its Bench. */
export class BenchStudy {
  readonly door: Door;
  readonly study: string;
  readonly who = "Ada";
  readonly #close: () => Promise<void>;

  private constructor(door: Door, study: string, close: () => Promise<void>) {
    this.door = door;
    this.study = study;
    this.#close = close;
  }

  static async begin(method: "wbt" | "iso" = "wbt"): Promise<BenchStudy> {
    const own = ownDoor();
    const { study } = await ask<"study.create">(own.door, { kind: "study.create", name: "Bench", method, who: "Ada" });
    return new BenchStudy(own.door, study, () => own.close());
  }

  /** On the example's readings, taken in as a study. */
  static async onExample(): Promise<BenchStudy> {
    const own = ownDoor();
    const { study } = await taken(own.door, "Bench");
    return new BenchStudy(own.door, study, () => own.close());
  }

  close(): Promise<void> {
    return this.#close();
  }

  async edit(edit: Edit): Promise<EditedView> {
    return ask<"edit.make">(this.door, { kind: "edit.make", study: this.study, who: this.who, edit });
  }

  /** The sentence with which an edit is refused. */
  async refusal(edit: Edit): Promise<string> {
    const reply = await this.door.ask({ kind: "edit.make", study: this.study, who: this.who, edit });
    if (reply.ok) expect.fail(`${edit.kind} was not refused`);
    return reply.message;
  }

  async beginRun(
    variant = "plain",
    form: Partial<{ pots: 1 | 2 | 3 | 4; charAtHotStart: boolean; emissions: boolean }> = {},
  ) {
    const { run } = await this.edit({
      kind: "beginRun",
      variant,
      pots: 1,
      charAtHotStart: false,
      emissions: false,
      ...form,
    });
    if (run === null) expect.fail("no run was begun");
    return run;
  }

  async show(run: string | null, entries: FurtherEntry[] = []): Promise<BenchView> {
    return ask<"bench.show">(this.door, { kind: "bench.show", study: this.study, run, entries });
  }

  async bench(run: string, entries: FurtherEntry[] = []): Promise<BenchRunView> {
    const { bench } = await this.show(run, entries);
    if (bench === null) expect.fail(`there is no run ${run}`);
    return bench;
  }

  async studyQuestions() {
    return ask<"questions.show">(this.door, { kind: "questions.show", study: this.study });
  }

  async field(run: string, phase: PhaseName | null, column: string): Promise<BenchFieldView> {
    return fieldOf(await this.bench(run), phase, column);
  }

  /** Types one field, as it is left; the reply says how it went. */
  async tryType(run: string, phase: PhaseName | null, column: string, text: string, was = "") {
    const cells = [{ phase, column, text, was }];
    return this.door.ask({
      kind: "edit.make",
      study: this.study,
      who: this.who,
      edit: { kind: "cells", run, cells, why: null },
    });
  }

  async type(run: string, phase: PhaseName | null, column: string, text: string, was = ""): Promise<void> {
    const reply = await this.tryType(run, phase, column, text, was);
    if (!reply.ok) expect.fail(`${phase} ${column} ${text}: ${reply.message}`);
  }

  async undo(): Promise<void> {
    const { undo } = await ask<"study.state">(this.door, { kind: "study.state", study: this.study });
    if (undo === null) expect.fail("there is nothing to undo");
    await ask<"edit.undo">(this.door, { kind: "edit.undo", study: this.study, who: this.who, edit: undo.edit });
  }
}

export function fieldOf(bench: BenchRunView, phase: PhaseName | null, column: string): BenchFieldView {
  const found = bench.steps.flatMap(({ fields }) => fields).find((one) => one.phase === phase && one.column === column);
  if (found === undefined) expect.fail(`no field ${phase} ${column}`);
  return found;
}

/** What stands in every field of a run that is not empty. */
export function textsOf(bench: BenchRunView): Record<string, string> {
  const fields = bench.steps.flatMap((step) => step.fields).filter(({ text }) => text !== "");
  return Object.fromEntries(fields.map(({ phase, column, text }) => [`${phase ?? ""} ${column}`.trim(), text]));
}
