import type { StudyResults } from "../analysis/study-results.ts";
import { countedValues, summarise } from "../analysis/summary.ts";
import { keyLabel, parseKey } from "../quantity/quantity-key.ts";
import { wordsFor } from "../words/index.ts";
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
    const ofMethod = results.runs.filter(({ run }) => run.method === scheme.method);
    if (ofMethod.length === 0) {
      notes.add(words.otherMethod(scheme.name, wordsFor(locale).quantities.methods[scheme.method]));
      continue;
    }
    notes.add(words.scope(scheme.source));
    if (scheme.method === "iso") notes.add(words.isoChoice);
    for (const row of scheme.rows) {
      const key = row.key === null ? null : parseKey(row.key);
      if (key === null || row.key === null) {
        if (ofMethod.some(({ values }) => values.has("highPowerCoPerEnergyDelivered"))) notes.add(words.indoor);
        continue;
      }
      for (const { variant } of variants) {
        const values = countedValues(
          ofMethod.filter(({ run }) => run.variant === variant),
          key,
        );
        if (values.length === 0) continue;
        const rating = rate(row, summarise(values, study.settings.confidence));
        if (rating === null) notes.add(words.noInterval(variant, keyLabel(key, locale), values.length));
        else ratings.push({ ...rating, variant, scheme, row, key: row.key });
      }
    }
  }
  return { ratings, notes: [...notes] };
}
