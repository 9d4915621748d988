import { requireFinite, requireProbability } from "./argument.ts";
import { contrastOf } from "./contrast.ts";
import { fTail } from "./distribution/f.ts";
import { type Factor, type FactorRow, factorTerms, interactionTerms, type Term } from "./factor-terms.ts";
import { independentColumns, type LeastSquares, leastSquares } from "./least-squares.ts";

/** The effect of a design factor, or of two together, in the unit of the values. */
export interface FactorEffect {
  /** The factor's name, or two joined by ` × `. */
  readonly term: string;
  /** The level that is compared, and the factor's first, with which it is; null for an interaction. */
  readonly level: string | null;
  readonly baseline: string | null;
  readonly effect: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly t: number | null;
  /** Two-sided. */
  readonly p: number | null;
  /** Terms that this design cannot tell from this one. Where it has an effect, they are taken to have none. */
  readonly confoundedWith: readonly string[];
  /** The effect as weights of the fit's coefficients; null where there is none. */
  readonly contrast: readonly number[] | null;
  /** Why effect or interval are missing. */
  readonly because: "no-values" | "one-level" | "not-separable" | "no-degrees-of-freedom" | "no-scatter" | null;
}

/** Whether a term has any effect at all. */
export interface FactorTest {
  readonly term: string;
  readonly f: number | null;
  readonly df1: number | null;
  readonly df2: number | null;
  readonly p: number | null;
  readonly confoundedWith: readonly string[];
  readonly because: FactorEffect["because"];
}

export interface FactorModel {
  readonly factors: readonly FactorEffect[];
  readonly factorTests: readonly FactorTest[];
  /** Standard deviation of single runs of one combination of levels, in the unit of the values. */
  readonly residualDeviation: number | null;
  readonly degreesOfFreedom: number | null;
  /** The model by least squares, its rows as they were given; null without rows. */
  readonly fit: LeastSquares | null;
}

/** What became of a term: in the model, or why not. */
interface Standing {
  readonly term: Term;
  readonly because: "no-values" | "one-level" | "not-separable" | "no-degrees-of-freedom" | null;
  readonly isInModel: boolean;
  readonly confoundedWith: readonly string[];
}

/**
 * Linear model of the values on design factors of two or more levels with their interactions by twos, by least squares; the runs of the
 * combinations need not be equally many.
 *
 * Coding: each factor's columns add to zero over its levels (-1 and +1 for two levels, the first being -1), so every other factor counts at
 * equal weight however many runs its levels have. A two-level factor's effect is the mean at its second level minus that at its first; a factor
 * of more levels has a row for each of its levels against the first; an interaction of two two-level factors is the mean where the product
 * of their codes is +1 minus the mean where it is -1. Interactions with a factor of more levels are in the model and tested, without a row of
 * their own.
 *
 * F of a term is what it accounts for beyond all the others under this coding (type III, as R's drop1(., ~ ., test = "F") with contr.sum).
 *
 * Which terms: all factors; then each interaction that the runs can tell from the terms before it and that leaves a degree of freedom for the
 * scatter. Factors that cannot be told from each other have no effect given; a factor that cannot be told from an interaction has one,
 * the interaction taken as nil, and says so in `confoundedWith`. Interactions by three and more are left to the residual.
 *
 * A RangeError for a value that is not finite, rows with another number of levels than there are factors or a confidence not between 0 and 1.
 *
 * Source: H. Scheffe, The analysis of variance (1959), chapter 4 (from memory); checked against R.
 */
export function factorModel(rows: readonly FactorRow[], factors: readonly Factor[], confidence: number): FactorModel {
  requireProbability("Confidence", confidence);
  const values = rows.map((row) => row.value);
  requireFinite(values);
  const standings = standingsOf(rows, factors);
  const inModel = standings.filter(({ isInModel }) => isInModel).map(({ term }) => term);
  const constant = rows.map(() => 1);
  // Factors that cannot be told apart still take their share of the scatter out: what is independent of them stays in.
  const fitOf = (terms: readonly Term[]) => {
    const columns = [constant, ...terms.flatMap((term) => term.columns)];
    const { independent } = independentColumns(columns);
    const fit = leastSquares(
      independent.map((index) => columns[index] ?? []),
      values,
    );
    return { fit, independent };
  };
  const whole = rows.length === 0 ? null : fitOf(inModel);
  const places = new Map<Term, number>();
  inModel.reduce((place, term) => {
    places.set(term, place);
    return place + term.columns.length;
  }, 1);

  const effects = standings.flatMap((standing) =>
    standing.term.contrasts.map(({ level, baseline, weights }): FactorEffect => {
      const { term, because, confoundedWith } = standing;
      const head = { term: term.name, level, baseline, confoundedWith };
      const start = places.get(term);
      if (because !== null || whole === null || start === undefined) {
        return { ...head, ...noEffect, because: because ?? "no-values" };
      }
      const contrast = whole.independent.map((column) => weights[column - start] ?? 0);
      const { value, ...rest } = contrastOf(whole.fit, contrast, confidence);
      return { ...head, effect: value, ...rest, contrast };
    }),
  );
  const tests = standings.map(({ term, because, confoundedWith }): FactorTest => {
    const head = { term: term.name, confoundedWith };
    if (because !== null || whole === null) {
      return { ...head, f: null, df1: null, df2: null, p: null, because: because ?? "no-values" };
    }
    const df1 = term.columns.length;
    const df2 = whole.fit.degreesOfFreedom;
    const { residualDeviation } = whole.fit;
    const missing = { ...head, f: null, df1, df2, p: null };
    if (residualDeviation === null) return { ...missing, because: "no-degrees-of-freedom" };
    if (!whole.fit.hasScatter) return { ...missing, because: "no-scatter" };
    const { fit } = fitOf([...inModel.filter((other) => other !== term), term]);
    const f = (fit.lengthOfLast(df1) / residualDeviation) ** 2 / df1;
    return { ...head, f, df1, df2, p: fTail(f, df1, df2), because: null };
  });
  return {
    factors: effects,
    factorTests: tests,
    residualDeviation: whole?.fit.residualDeviation ?? null,
    degreesOfFreedom: whole?.fit.degreesOfFreedom ?? null,
    fit: whole?.fit ?? null,
  };
}

const noEffect = { effect: null, standardError: null, lower: null, upper: null, t: null, p: null, contrast: null };

/** Decides on each term by the design alone, factors first. */
function standingsOf(rows: readonly FactorRow[], factors: readonly Factor[]): Standing[] {
  const mains = factorTerms(rows, factors);
  const constant: Term = { name: "", columns: [rows.map(() => 1)], contrasts: [] };
  const changing = mains.filter((term) => term.columns.length > 0);
  const together = dependentTerms([constant, ...changing]);
  const unseparable = new Set(together.flat());
  const taken = [constant, ...changing];
  let rank = independentColumns(taken.flatMap((term) => term.columns)).independent.length;

  const partners = new Map<Term, Set<string>>();
  const interactions = interactionTerms(mains);
  const isInteraction = (term: Term) => interactions.includes(term);
  const join = (terms: readonly Term[]) => {
    const own = terms.filter((term) => term !== constant);
    const areFactors = !own.some(isInteraction);
    for (const one of own) {
      // Two factors that the same interaction depends on can still be told from each other; a factor that cannot be told from
      // another has no effect that an interaction could be taken for.
      const others = own.filter(
        (other) =>
          other !== one && (areFactors || isInteraction(one) || (isInteraction(other) && !unseparable.has(one))),
      );
      partners.set(one, new Set([...(partners.get(one) ?? []), ...others.map((other) => other.name)]));
    }
  };
  for (const terms of together) join(terms);

  const reasons = new Map<Term, Standing["because"]>();
  for (const term of interactions) {
    const clashes = dependentTerms([...taken, term]).filter((terms) => terms.includes(term));
    if (clashes.length > 0) {
      for (const terms of clashes) {
        join(terms);
        // Of two interactions neither is known; a factor keeps its effect.
        for (const other of terms) if (isInteraction(other)) reasons.set(other, "not-separable");
      }
    } else if (rank + term.columns.length >= rows.length) {
      reasons.set(term, "no-degrees-of-freedom");
    } else {
      taken.push(term);
      rank += term.columns.length;
    }
  }
  return [...mains, ...interactions].map((term) => {
    const isOneLevel = term.columns.length === 0;
    const because =
      rows.length === 0
        ? "no-values"
        : isOneLevel
          ? "one-level"
          : unseparable.has(term)
            ? "not-separable"
            : (reasons.get(term) ?? null);
    return { term, because, isInModel: taken.includes(term), confoundedWith: [...(partners.get(term) ?? [])] };
  });
}

/** The sets of terms of which a column of one is a combination of columns of the others. */
function dependentTerms(terms: readonly Term[]): Term[][] {
  const owners = terms.flatMap((term) => term.columns.map(() => term));
  const { dependencies } = independentColumns(terms.flatMap((term) => term.columns));
  return dependencies.map(({ column, on }) => [...new Set([column, ...on].flatMap((index) => owners[index] ?? []))]);
}
