/** One run: its value and its level of each factor, in the order of the factors. */
export interface FactorRow {
  readonly value: number;
  readonly levels: readonly string[];
}

/** A design factor and its levels; the first is the one the others are compared with. */
export interface Factor {
  readonly name: string;
  readonly levels: readonly string[];
}

/** A factor or an interaction, as columns of a linear model that add to zero over the levels. */
export interface Term {
  readonly name: string;
  readonly columns: readonly (readonly number[])[];
  /** What a person wants to know of the term: weights of the columns' coefficients. */
  readonly contrasts: readonly {
    readonly level: string | null;
    readonly baseline: string | null;
    readonly weights: readonly number[];
  }[];
}

/**
 * The factors as terms. A factor with k levels among the rows has k - 1 columns: +1 for one of the levels after the first, -1 for the first, 0
 * for the rest. One that never changes has none.
 */
export function factorTerms(rows: readonly FactorRow[], factors: readonly Factor[]): Term[] {
  if (rows.some((row) => row.levels.length !== factors.length)) {
    throw new RangeError("Every row must have a level of each factor.");
  }
  return factors.map(({ name, levels }, place) => {
    const seen = levels.filter((level) => rows.some((row) => row.levels[place] === level));
    const unknown = rows.find((row) => !levels.includes(row.levels[place] ?? ""));
    if (unknown !== undefined) throw new RangeError(`${unknown.levels[place]} is not among the levels of ${name}.`);
    const [baseline = null, ...others] = seen;
    const columns = others.map((level) =>
      rows.map((row) => (row.levels[place] === level ? 1 : row.levels[place] === baseline ? -1 : 0)),
    );
    // The first level's own coefficient is minus the sum of the others.
    const contrasts = others.map((level, own) => ({
      level,
      baseline,
      weights: others.map((_, other) => (other === own ? 2 : 1)),
    }));
    const unmoved = { level: null, baseline, weights: [] };
    return { name, columns, contrasts: contrasts.length > 0 ? contrasts : [unmoved] };
  });
}

/** What the interaction of two factors is called. */
export function interactionName(one: string, other: string): string {
  return `${one} × ${other}`;
}

/** The interactions of all pairs of factors that change: products of their columns. */
export function interactionTerms(mains: readonly Term[]): Term[] {
  const changing = mains.filter((term) => term.columns.length > 0);
  return changing.flatMap((one, place) =>
    changing.slice(place + 1).map((other) => {
      const columns = one.columns.flatMap((first) =>
        other.columns.map((second) => first.map((code, row) => code * (second[row] ?? 0))),
      );
      const contrasts = columns.length === 1 ? [{ level: null, baseline: null, weights: [2] }] : [];
      return { name: interactionName(one.name, other.name), columns, contrasts };
    }),
  );
}
