/** Heading under which the specimens of a fuel entry's moisture are kept as text. */
export function specimensColumn(entry: number): string {
  return entry === 1 ? "moisture_specimens" : `fuel${entry}_moisture_specimens`;
}

/** Columns of a fuel entry's moisture on either basis. */
export function moistureColumn(entry: number, basis: "wet" | "dry"): string {
  return `${entry === 1 ? "" : `fuel${entry}_`}moisture_${basis}_percent`;
}

/** Entry of which a column is the moisture, and on which basis; null where it is another column. */
export function moistureOf(column: string): { readonly entry: number; readonly basis: "wet" | "dry" } | null {
  const [, entry = "1", basis] = /^(?:fuel([2-4])_)?moisture_(wet|dry)_percent$/.exec(column) ?? [];
  return basis === undefined ? null : { entry: Number(entry), basis: basis === "wet" ? "wet" : "dry" };
}
