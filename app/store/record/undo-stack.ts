import { StoreFault } from "../fault.ts";
import type { Connection } from "../schema/connection.ts";

/** Creation: on record, not undone. */
const creation = 1;

/**
 * Which edits can be undone and redone. Nothing of it is stored: the record says which edits, undos and redos there were, in order,
 * and they give it again after a restart.
 */
export class UndoStack {
  readonly #done: number[] = [];
  readonly #undone: number[] = [];

  /** @throws StoreFault "damaged" where the record undoes or redoes what was not due */
  static ofRecord(connection: Connection): UndoStack {
    const stack = new UndoStack();
    for (const row of connection.all("SELECT edit, way, of_edit FROM change WHERE step = 0 ORDER BY edit")) {
      const isDue = row.way === "edit" || row.of_edit === (row.way === "undo" ? stack.undoable : stack.redoable);
      if (!isDue) throw new StoreFault("damaged", `edit ${row.edit} of the record is out of turn`);
      stack.follow(row.edit as number, row.way as "edit" | "undo" | "redo");
    }
    return stack;
  }

  get undoable(): number | null {
    return this.#done.at(-1) ?? null;
  }

  get redoable(): number | null {
    return this.#undone.at(-1) ?? null;
  }

  /** Takes in what was recorded. */
  follow(edit: number, way: "edit" | "undo" | "redo"): void {
    if (way === "edit") {
      this.#undone.length = 0;
      if (edit !== creation) this.#done.push(edit);
      return;
    }
    const [from, to] = way === "undo" ? [this.#done, this.#undone] : [this.#undone, this.#done];
    const moved = from.pop();
    if (moved !== undefined) to.push(moved);
  }
}
