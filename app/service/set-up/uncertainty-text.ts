import {
  combinedUncertainty,
  componentUncertainty,
  formatSignificant,
  type Locale,
  type UncertaintyComponent,
  wordsFor,
} from "../../../core/index.ts";

/** What errors come to in one reading: an amount in the unit, a share of the reading, or both. `share`: how a share is written. */
function amountsOf(
  components: readonly UncertaintyComponent[],
  unit: string,
  share: (percent: string) => string,
  locale: Locale,
): readonly string[] {
  const { absolute, relative } = combinedUncertainty(components);
  const write = (value: number) => formatSignificant(value, 2, locale);
  return [
    ...(absolute === 0 ? [] : [wordsFor(locale).setUpWork.amount(write(absolute), unit)]),
    ...(relative === 0 ? [] : [share(write(relative * 100))]),
  ];
}

/** Those that are new at each reading apart from those that all readings share: the first average out, the others do not. */
function kindsText(
  components: readonly UncertaintyComponent[],
  amounts: (components: readonly UncertaintyComponent[]) => readonly string[],
  locale: Locale,
): readonly string[] {
  const words = wordsFor(locale).setUpWork;
  const independent = components.filter(({ kind }) => kind === "independent");
  const shared = components.filter(({ kind }) => kind === "shared");
  if (shared.length === 0) return [words.allIndependent];
  if (independent.length === 0) return [words.allShared];
  return [words.independentPart(words.amounts(amounts(independent))), words.sharedPart(words.amounts(amounts(shared)))];
}

/** What one reading's errors come to, in words, its independent and shared parts apart. */
export function readingUncertainty(components: readonly UncertaintyComponent[], unit: string, locale: Locale): string {
  const words = wordsFor(locale).setUpWork;
  const amounts = (some: readonly UncertaintyComponent[]) => amountsOf(some, unit, words.ofReading, locale);
  const all = amounts(components);
  if (all.length === 0) return words.noUncertainty;
  return [words.standardOf(all), ...kindsText(components, amounts, locale)].join("; ");
}

/** What a single error comes to, in words. */
export function componentText(component: UncertaintyComponent, unit: string, isValue: boolean, locale: Locale): string {
  const words = wordsFor(locale).setUpWork;
  const amounts = amountsOf([component], unit, isValue ? words.ofValue : words.ofReading, locale);
  return [words.standardOf(amounts), ...scaledText(component, locale)].join("; ");
}

/**
 * A normal error with few degrees of freedom is drawn as a scaled t, whose standard deviation is larger than the standard uncertainty by the
 * root of ν/(ν − 2) (JCGM 101:2008, 6.4.9.4).
 */
function scaledText({ distribution, degreesOfFreedom }: UncertaintyComponent, locale: Locale): readonly string[] {
  if (distribution !== "normal" || degreesOfFreedom === null) return [];
  const words = wordsFor(locale).setUpWork;
  const degrees = formatSignificant(degreesOfFreedom, 3, locale).replace(/\.0+$/, "");
  if (degreesOfFreedom <= 2) return [words.scaledWithout(degrees)];
  const factor = Math.sqrt(degreesOfFreedom / (degreesOfFreedom - 2));
  return [words.scaled(degrees, formatSignificant(factor, 3, locale))];
}

/** True where an error grows with the reading. */
export function isRelative(component: UncertaintyComponent): boolean {
  return componentUncertainty(component).relative > 0;
}
