import { hullOf } from "../analysis/comparison.ts";
import type { MissingQuantity, RunResults } from "../analysis/run-results.ts";
import { combinedMeanOf } from "../analysis/study-errors.ts";
import type { StudyResults } from "../analysis/study-results.ts";
import { countedValues, type Summary, summarise } from "../analysis/summary.ts";
import { keyLabel, parseKey, type QuantityKey } from "../quantity/quantity-key.ts";
import type { Study } from "../readings/study.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import { type Rating, rate } from "./rate.ts";
import { type TierRow, type TierScheme, tierSchemes } from "./tiers.ts";

/** The rating of one variant in one row of a scheme. */
export interface VariantRating extends Rating {
  readonly variant: string;
  readonly scheme: TierScheme;
  readonly row: TierRow;
  readonly key: string;
}

export interface StudyRatings {
  readonly ratings: readonly VariantRating[];
  /** Why ratings that a reader might look for are not there; what the schemes rate that is not covered. */
  readonly notes: readonly string[];
}

/** Rates each variant by the scheme of its runs' method; runs of the other method never count. */
export function rateStudy(results: StudyResults): StudyRatings {
  const { study, locale, variants } = results;
  const words = wordsFor(locale).ratings;
  const ratings: VariantRating[] = [];
  const notes = new Set<string>();
  for (const scheme of tierSchemes) {
    const ofMethod = results.runs.filter(({ run }) => run.method === scheme.method && run.leftOut === null);
    if (ofMethod.length === 0) {
      notes.add(words.otherMethod(scheme.name, wordsFor(locale).quantities.methods[scheme.method]));
      continue;
    }
    notes.add(words.scope(scheme.source));
    if (scheme.method === "iso") notes.add(words.isoChoice);
    for (const row of scheme.rows) {
      const key = row.key === null ? null : parseKey(row.key);
      if (key === null || row.key === null) {
        const measured = row.about === "indoorCarbonMonoxide" ? "coRate" : "pm25Rate";
        if (ofMethod.some(({ phases }) => phases.some(({ values }) => values.has(measured)))) notes.add(words.indoor);
        continue;
      }
      for (const { variant } of variants) {
        const ofVariant = ofMethod.filter(({ run }) => run.variant === variant);
        const values = countedValues(ofVariant, key);
        if (values.length === 0) {
          const because = row.about === "rated" ? whyMissing(ofVariant, key, locale) : null;
          if (because !== null) notes.add(words.noValue(variant, keyLabel(key, locale), because));
          continue;
        }
        const rating = rate(row, withErrors(summarise(values, study.settings.confidence), study, ofVariant, key));
        if (rating === null) notes.add(words.noInterval(variant, keyLabel(key, locale), values.length));
        else ratings.push({ ...rating, variant, scheme, row, key: row.key });
      }
    }
  }
  return { ratings, notes: [...notes] };
}

/** The mean with the shared errors of its runs, where the settings state any: never surer than by scatter alone. */
function withErrors(summary: Summary, { settings }: Study, runs: readonly RunResults[], key: QuantityKey): Summary {
  const combined = combinedMeanOf(settings, runs, key, summary);
  const { interval } = summary;
  if (combined === null || interval === null) return summary;
  const { standardUncertainty: standardError, degreesOfFreedom } = combined;
  return { ...summary, standardError, degreesOfFreedom, interval: hullOf(interval, combined.interval) };
}

/** Why no run of a variant has a quantity: the first run's reason. Null where it is an emission that nobody measured. */
function whyMissing(runs: readonly RunResults[], key: QuantityKey, locale: Locale): string | null {
  const { missing } = wordsFor(locale);
  for (const results of runs) {
    const phase = results.phases.find((one) => one.phase === key.phase);
    const list: readonly MissingQuantity[] = key.phase === null ? results.missing : (phase?.missing ?? []);
    const found = list.find(({ quantity }) => quantity === key.quantity);
    if (found !== undefined) return missing.because(found.reason, found.reasonPhase);
    if (key.phase !== null && phase === undefined && isGivenForEveryPhase(key)) {
      return missing.because({ code: "noPhase", phase: key.phase }, null);
    }
  }
  return null;
}

/** Emissions appear only where they were measured; without them a missing phase is no reason for a missing rating. */
function isGivenForEveryPhase({ quantity }: QuantityKey): boolean {
  return !/^(co|pm25)[PR]/.test(quantity);
}
