import { keyText, type PhaseName, type QuantityKey, type QuantityName, type RunResults } from "../../../core/index.ts";
import type { StoredRun } from "../../store/index.ts";

/** Which quantities a run has, shared by all runs that have the same. */
interface Shape {
  /** Place of each value, by the text of its key. */
  readonly places: ReadonlyMap<string, number>;
  readonly quantities: ReadonlySet<QuantityName>;
}

/** What stands in the rows of a run, in little: kept for very many. */
export interface RunDigest {
  /** Columns in which the run or any of its phases has something, but for factors; one set for all runs that have the same. */
  readonly columns: ReadonlySet<string>;
  /** Quantities that any of its phases, or the run itself, has a value of; one set for all runs that have the same. */
  readonly quantities: ReadonlySet<QuantityName>;
  readonly places: ReadonlyMap<string, number>;
  readonly values: Float64Array;
}

/** The value of a quantity of a phase, or (null) of the whole run; NaN where it is missing. */
export function digestValue({ places, values }: RunDigest, phase: PhaseName | null, quantity: QuantityName): number {
  const place = places.get(keyText({ phase, quantity } as QuantityKey));
  return place === undefined ? Number.NaN : (values[place] ?? Number.NaN);
}

/** Makes digests, with one copy of what runs have in common. */
export class RunDigests {
  readonly #columns = new Map<string, ReadonlySet<string>>();
  readonly #shapes = new Map<string, Shape>();

  of(stored: StoredRun, { phases, values: ofRun }: RunResults): RunDigest {
    const keys: string[] = [];
    const values: number[] = [];
    const names = new Set<QuantityName>();
    const add = (phase: PhaseName | null, quantity: QuantityName, value: number) => {
      keys.push(keyText({ phase, quantity } as QuantityKey));
      values.push(value);
      names.add(quantity);
    };
    for (const { phase, values: ofPhase } of phases) for (const [name, value] of ofPhase) add(phase, name, value);
    for (const [name, value] of ofRun) add(null, name, value);
    const shape = this.#shapeOf(keys, names);
    return { columns: this.#columnsOf(stored), ...shape, values: Float64Array.from(values) };
  }

  #shapeOf(keys: readonly string[], quantities: ReadonlySet<QuantityName>): Shape {
    const name = keys.join(" ");
    const known = this.#shapes.get(name);
    if (known !== undefined) return known;
    const shape = { places: new Map(keys.map((key, place) => [key, place])), quantities };
    this.#shapes.set(name, shape);
    return shape;
  }

  #columnsOf({ phases, date, order, block, operator, leftOut }: StoredRun): ReadonlySet<string> {
    const ofRun = { run: true, variant: true, date, order, block, operator, excluded: leftOut };
    const columns = new Set<string>(Object.entries(ofRun).flatMap(([name, value]) => (value === null ? [] : [name])));
    for (const { readings, texts } of phases) {
      for (const column of readings.keys()) columns.add(column);
      for (const [column, text] of texts) if (text !== "") columns.add(column);
    }
    const name = JSON.stringify([...columns]);
    const known = this.#columns.get(name);
    if (known !== undefined) return known;
    this.#columns.set(name, columns);
    return columns;
  }
}
