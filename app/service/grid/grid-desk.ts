import { type Locale, type Method, type PhaseName, type QuantityName, statesErrors } from "../../../core/index.ts";
import type { GridChoice, GridColumnView, GridView } from "../../contract/index.ts";
import { StoreFault } from "../../store/index.ts";
import type { StudySession } from "../study/study-session.ts";
import { AskedOfRuns } from "./asked.ts";
import { FoundTexts } from "./find-text.ts";
import { columnOfKey, gridColumns, type Occurring } from "./grid-columns.ts";
import { type GridOrder, gridOrder } from "./grid-order.ts";
import { gridPart, type PartPlace, ShownRuns } from "./grid-part.ts";
import { type GridRows, PhasesOfRuns } from "./grid-rows.ts";
import { Turn } from "./turn.ts";

/** So many orders are kept: a person goes back and forth between a few. */
const ordersKept = 6;
/** So many runs that are not known are worked out before anything is shown; more in the background, or when they are needed. */
const fewRuns = 300;
/** Of so many runs the names of their columns are read in one go. */
const runsAtOnce = 500;

/** An order as it was made, or is being made. */
interface KeptOrder {
  readonly rows: GridRows;
  readonly stamp: number;
  readonly order: Promise<GridOrder>;
}

/** The grid of readings and results of one open study. */
export class GridDesk {
  readonly #session: StudySession;
  readonly #locale: Locale;
  readonly #phases = new PhasesOfRuns();
  readonly #shown = new ShownRuns();
  readonly #found: FoundTexts;
  readonly #asked: AskedOfRuns;
  readonly #orders = new Map<string, KeptOrder>();
  #rows: GridRows | null = null;
  #columns: { readonly rows: GridRows; readonly worked: number; readonly columns: readonly GridColumnView[] } | null =
    null;
  /** Quantities that were seen: until all runs are worked out under new settings, those of before are shown. */
  #quantities: ReadonlySet<QuantityName> = new Set();
  #names: { readonly rows: GridRows; readonly names: Promise<readonly string[]> } | null = null;
  #working: Promise<void> | null = null;
  #ahead = 0;

  constructor(session: StudySession, locale: Locale) {
    this.#session = session;
    this.#locale = locale;
    this.#found = new FoundTexts(locale);
    this.#asked = new AskedOfRuns(session);
  }

  async view(choice: GridChoice, from: number, count: number): Promise<GridView> {
    for (;;) {
      const { content } = this.#session;
      const order = await this.#order(choice);
      const { rows } = order;
      const columns = await this.#columnsOf(rows);
      const { revision, looking } = this.#session.state();
      this.#asked.update(looking !== null);
      if (!rows.isOf(content)) continue;
      const place = {
        ...{ content, columns, shown: this.#shown, asked: this.#asked, locale: this.#locale },
        variantIndex: variantIndexOf(rows),
      };
      const part = await gridPart(place, order, from, count, new Turn(this.#session));
      if (part === null) continue;
      this.#fetchAhead(place, order, from + count, count);
      return {
        revision,
        columns,
        hasErrors: statesErrors(content.settings),
        rows: order.order.length,
        runs: order.runs,
        allRows: rows.count,
        allRuns: rows.lines.length,
        from,
        part,
      };
    }
  }

  /** Makes what comes next ready while nobody waits, so that scrolling on finds it. */
  #fetchAhead(place: PartPlace, order: GridOrder, from: number, count: number): void {
    this.#ahead += 1;
    const mine = this.#ahead;
    const turn = new Turn(this.#session);
    const fetch = async () => {
      for (let at = from; at < Math.min(from + count, order.order.length); at += 1) {
        if (at === from || turn.isOver) await turn.pause();
        const row = order.at(at);
        if (this.#ahead !== mine || row === null || !order.rows.isOf(place.content)) return;
        place.shown.of(order.rows, row.run, place.content);
      }
    };
    // Whoever asks for these rows is told what is wrong with them.
    fetch().catch(() => {});
  }

  /** Place of the row of a run's phase in an order. */
  async row(choice: GridChoice, run: number, phase: PhaseName | null): Promise<number | null> {
    return (await this.#order(choice)).placeOf(run, phase);
  }

  /** The order of a choice as the study is now; one that is being made is waited for, not made twice. */
  async #order(choice: GridChoice): Promise<GridOrder> {
    for (;;) {
      const { looking } = this.#session.state();
      if (this.#session.content.unknown() <= fewRuns || needsResults(choice)) await this.#workOut();
      await this.#asked.first(looking !== null);
      this.#asked.update(looking !== null);
      const rows = this.#rowsNow();
      const order = await this.#kept(choice, rows);
      if (rows.isOf(this.#session.content)) return order;
    }
  }

  #kept(choice: GridChoice, rows: GridRows): Promise<GridOrder> {
    const name = JSON.stringify([choice.sort, choice.find, choice.variant, choice.phase, choice.only]);
    const stamp = choice.only === "questions" ? this.#asked.stamp : 0;
    const known = this.#orders.get(name);
    this.#orders.delete(name);
    if (known !== undefined && known.rows === rows && known.stamp === stamp) {
      this.#orders.set(name, known);
      return known.order;
    }
    const { content, file } = this.#session;
    const place = {
      ...{ content, database: file.database, rows, locale: this.#locale },
      ...{ found: this.#found, asked: this.#asked },
    };
    const order = gridOrder(place, choice, new Turn(this.#session));
    const kept = { rows, stamp, order };
    this.#orders.set(name, kept);
    order.catch(() => {
      if (this.#orders.get(name) === kept) this.#orders.delete(name);
    });
    for (const oldest of this.#orders.keys()) {
      if (this.#orders.size <= ordersKept) break;
      this.#orders.delete(oldest);
    }
    return order;
  }

  #rowsNow(): GridRows {
    const { content, file } = this.#session;
    if (this.#rows?.isOf(content) !== true) {
      this.#rows = this.#phases.rows(content, file.database);
      for (const [name, { rows }] of this.#orders) if (rows !== this.#rows) this.#orders.delete(name);
    }
    return this.#rows;
  }

  /** Works out the runs that are not known, others having their turn; whoever needs it meanwhile waits for the same. */
  #workOut(): Promise<void> {
    this.#working ??= this.#work().finally(() => {
      this.#working = null;
    });
    return this.#working;
  }

  async #work(): Promise<void> {
    const turn = new Turn(this.#session);
    for (const _ of this.#session.content.look()) if (turn.isOver) await turn.pause();
  }

  async #columnsOf(rows: GridRows): Promise<readonly GridColumnView[]> {
    const { worked } = this.#session.content;
    if (this.#columns?.rows === rows && this.#columns.worked === worked) return this.#columns.columns;
    const columns = gridColumns(await this.#occurring(rows));
    this.#columns = { rows, worked, columns };
    return columns;
  }

  async #occurring(rows: GridRows): Promise<Occurring> {
    const { content, file } = this.#session;
    const { head } = content;
    const sets = { columns: new Set<ReadonlySet<string>>(), quantities: new Set<ReadonlySet<QuantityName>>() };
    const methods = new Set<Method>([head.method]);
    const variants = new Set<number>();
    let isWhole = true;
    for (const line of rows.lines) {
      methods.add(line.method);
      variants.add(line.variant);
      const digest = content.digest(line);
      if (digest === null) {
        isWhole = false;
        continue;
      }
      sets.columns.add(digest.columns);
      sets.quantities.add(digest.quantities);
    }
    const columns = new Set([...sets.columns].flatMap((some) => [...some]));
    const quantities = new Set([...sets.quantities].flatMap((some) => [...some]));
    if (isWhole) this.#quantities = quantities;
    else {
      for (const column of await this.#columnNames(rows)) columns.add(column);
      for (const quantity of this.#quantities) quantities.add(quantity);
    }
    const [factors, factorsUnused] = [new Set<string>(), new Set<string>()];
    for (const [item, { levels }] of head.variants) {
      for (const factor of levels.keys()) (variants.has(item) ? factors : factorsUnused).add(factor);
    }
    for (const levels of file.database.ownLevels().values()) {
      for (const [factor, level] of levels) if (level !== null) factors.add(factor);
    }
    return { columns, quantities, factors, factorsUnused, methods };
  }

  /** Columns that occur, read from the file: while not all runs are worked out. */
  #columnNames(rows: GridRows): Promise<readonly string[]> {
    if (this.#names?.rows !== rows) this.#names = { rows, names: this.#readColumnNames(rows) };
    return this.#names.names;
  }

  async #readColumnNames({ lines }: GridRows): Promise<readonly string[]> {
    const { database } = this.#session.file;
    const turn = new Turn(this.#session);
    const has = (field: "block" | "operator" | "leftOut") => lines.some((line) => line[field] !== null);
    try {
      const names = new Set(["run", "variant"]);
      if (database.runColumn("date").size > 0) names.add("date");
      if (database.runColumn("order").size > 0) names.add("order");
      if (has("block")) names.add("block");
      if (has("operator")) names.add("operator");
      if (has("leftOut")) names.add("excluded");
      const items = lines.map(({ run }) => run).sort((one, other) => one - other);
      for (let from = 0; from < items.length; from += runsAtOnce) {
        const [first = 0, last = first] = [items[from], items[Math.min(from + runsAtOnce, items.length) - 1]];
        for (const name of database.columnNames(first, last)) names.add(name);
        if (turn.isOver) await turn.pause();
      }
      return [...names];
    } catch (error) {
      // Of a damaged file what was read of its runs is known, one after the other.
      if (!(error instanceof StoreFault) || error.code !== "damaged") throw error;
      return [];
    }
  }
}

/** Whether a choice can only be answered once all runs are worked out. */
function needsResults({ sort, find }: GridChoice): boolean {
  if (find.trim() !== "") return true;
  const column = sort === null ? null : columnOfKey(sort.column);
  return column !== null && "quantity" in column;
}

/** Position of each variant in the study, by its first run. */
function variantIndexOf({ lines }: GridRows): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  for (const { variant } of lines) if (!found.has(variant)) found.set(variant, found.size);
  return found;
}
