import {
  type Method,
  phaseQuantityNames,
  procedureSteps,
  type QuantityName,
  runQuantityNames,
} from "../../../core/index.ts";
import type { GridColumnView } from "../../contract/index.ts";
import { factorOf, inLayoutOrder, layoutColumns, runColumns } from "../../import/index.ts";

const layout = new Map(layoutColumns.map((column) => [column.name, column]));
const ofRun: ReadonlySet<string> = new Set(runColumns);

/** Readings that stand in for others: where they alone occur, those others are not asked for. */
const standIns: readonly { readonly other: string; readonly of: readonly string[] }[] = [
  { other: "duration_min", of: ["start", "end"] },
  { other: "moisture_dry_percent", of: ["moisture_wet_percent"] },
  { other: "pot1_water_start_g", of: ["pot1_empty_g", "pot1_start_g"] },
  { other: "pot1_water_end_g", of: ["pot1_empty_g", "pot1_end_g"] },
  { other: "char_g", of: ["char_container_g", "char_with_container_g"] },
  { other: "pressure_kPa", of: ["boiling_C", "altitude_m"] },
  { other: "altitude_m", of: ["boiling_C"] },
];

/** Columns that a method's procedure fills, in any of its phases. */
function columnsOfMethod(method: Method): readonly string[] {
  const fields = procedureSteps(method, { pots: 1, charAtHotStart: true, emissions: false }).flatMap(
    (step) => step.fields,
  );
  return [...new Set(fields.map(({ column }) => column))].filter((column) => !ofRun.has(column));
}

const needed: Readonly<Record<Method, readonly string[]>> = {
  wbt: columnsOfMethod("wbt"),
  iso: columnsOfMethod("iso"),
};

/** What a study has in its rows. */
export interface Occurring {
  readonly columns: ReadonlySet<string>;
  readonly quantities: ReadonlySet<QuantityName>;
  /** Factors of runs, and those that only variants without a run have. */
  readonly factors: ReadonlySet<string>;
  readonly factorsUnused: ReadonlySet<string>;
  readonly methods: ReadonlySet<Method>;
}

/** Headings of readings: those that occur, and those that the methods need, so that an empty one can be filled. */
function readingColumns({ columns, methods }: Occurring): string[] {
  const isReplaced = (column: string) =>
    !columns.has(column) && standIns.some(({ other, of }) => of.includes(column) && columns.has(other));
  const wanted = [...methods].flatMap((method) => needed[method]).filter((column) => !isReplaced(column));
  const known = [...new Set([...columns, ...wanted])].filter((column) => !ofRun.has(column));
  const further = known.filter((column) => !layout.has(column)).sort();
  return inLayoutOrder([...known.filter((column) => layout.has(column)), ...further]);
}

/** The columns of the grid, in their order: the run's own, readings, results of phases, results of runs. */
export function gridColumns(occurring: Occurring): readonly GridColumnView[] {
  const own = runColumns.filter((column) => column !== "phase");
  const named = (factors: ReadonlySet<string>) => [...factors].map((factor) => `factor:${factor}`);
  const factors = [...new Set([...named(occurring.factors), ...named(occurring.factorsUnused)])].sort();
  const filled = new Set([...occurring.columns, ...named(occurring.factors)]);
  const reading = (kind: "run" | "reading", column: string): GridColumnView => ({
    key: `${kind}.${column}`,
    kind,
    column,
    quantity: null,
    isNumber: layout.get(column)?.content === "number",
    isEmpty: !filled.has(column),
  });
  const result = (kind: "result" | "runResult", quantity: QuantityName): GridColumnView => ({
    key: `${kind}.${quantity}`,
    kind,
    column: null,
    quantity,
    isNumber: true,
    isEmpty: false,
  });
  return [
    ...[...own, ...factors].map((column) => reading("run", column)),
    ...readingColumns(occurring).map((column) => reading("reading", column)),
    ...phaseQuantityNames.filter((name) => occurring.quantities.has(name)).map((name) => result("result", name)),
    ...runQuantityNames.filter((name) => occurring.quantities.has(name)).map((name) => result("runResult", name)),
  ];
}

/** The column that a key names, whether or not it is shown. */
export type ColumnOfKey =
  | { readonly kind: "run" | "reading"; readonly column: string; readonly factor: string | null }
  | { readonly kind: "result" | "runResult"; readonly quantity: QuantityName };

const phaseQuantities: ReadonlyMap<string, QuantityName> = new Map(phaseQuantityNames.map((name) => [name, name]));
const runQuantities: ReadonlyMap<string, QuantityName> = new Map(runQuantityNames.map((name) => [name, name]));

/** What the key of a column names; null where it names none. */
export function columnOfKey(key: string): ColumnOfKey | null {
  const dot = key.indexOf(".");
  const [kind, name] = [key.slice(0, Math.max(dot, 0)), key.slice(dot + 1)];
  if (kind === "run" || kind === "reading") return { kind, column: name, factor: factorOf(name) };
  const quantity = kind === "result" ? phaseQuantities.get(name) : runQuantities.get(name);
  if (quantity === undefined || (kind !== "result" && kind !== "runResult")) return null;
  return { kind, quantity };
}

/** Whether a name is that of a result: nothing can be typed there. */
export function isResultName(name: string): boolean {
  return phaseQuantities.has(name) || runQuantities.has(name) || /^(?:result|runResult)\./.test(name);
}
