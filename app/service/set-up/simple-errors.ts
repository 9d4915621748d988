import { componentUncertainty, type UncertaintyComponent } from "../../../core/index.ts";
import { numberEntry } from "../../import/index.ts";

/**
 * The errors that a person fills in as single numbers: a resolution (rectangular, new at each reading, one digit being its whole width), a
 * standard uncertainty and one as a fraction of the reading (shared by all readings; normal where nothing else is said). Whatever else
 * is said stays beside them.
 */
export type SimpleError = "resolution" | "standard" | "relative";

/** As the short form of a settings file names them. */
const names = {
  resolution: "resolution",
  standard: "standard uncertainty",
  relative: "proportional",
} as const satisfies Record<SimpleError, string>;

function isOf(which: SimpleError, component: UncertaintyComponent): boolean {
  const { distribution, kind, size } = component;
  if (which === "resolution") return distribution === "rectangular" && kind === "independent" && "halfWidth" in size;
  const { absolute, relative } = componentUncertainty(component);
  return kind === "shared" && (which === "standard" ? absolute : relative) > 0;
}

/** What a half-width comes to has no end of digits: three are shown, and kept as long as nobody types others. */
function shownOf({ size }: UncertaintyComponent, value: number): number {
  return "halfWidth" in size || "relativeHalfWidth" in size ? Number(value.toPrecision(3)) : value;
}

/** The component that a field shows: the one of its name, else the only one of its kind; -1 where there is none. */
export function placeOfError(which: SimpleError, components: readonly UncertaintyComponent[]): number {
  const places = components.flatMap((component, index) => (isOf(which, component) ? [index] : []));
  const named = places.find((index) => components[index]?.name === names[which]);
  return named ?? (places.length === 1 ? (places[0] ?? -1) : -1);
}

/** As it is typed in; "" where there is none. Relative ones in per cent. */
export function errorEntry(which: SimpleError, components: readonly UncertaintyComponent[]): string {
  const component = components[placeOfError(which, components)];
  if (component === undefined) return "";
  const { size } = component;
  if (which === "resolution") return "halfWidth" in size ? numberEntry(size.halfWidth * 2) : "";
  const { absolute, relative } = componentUncertainty(component);
  const value = shownOf(component, which === "standard" ? absolute : relative);
  return numberEntry(value, which === "relative");
}

const sizes = {
  resolution: (value: number) => ({ halfWidth: value / 2 }),
  standard: (value: number) => ({ standardUncertainty: value }),
  relative: (value: number) => ({ relativeStandardUncertainty: value }),
} as const;

/** The components with this one set to a value, or without it where that is null. */
export function withError(
  which: SimpleError,
  value: number | null,
  components: readonly UncertaintyComponent[],
): readonly UncertaintyComponent[] {
  const place = placeOfError(which, components);
  const there = components[place];
  if (value === null) return components.filter((_, index) => index !== place);
  const size = sizes[which](value);
  if (there !== undefined) return components.with(place, { ...there, size });
  const shape =
    which === "resolution"
      ? ({ distribution: "rectangular", kind: "independent" } as const)
      : ({ distribution: "normal", kind: "shared" } as const);
  const added: UncertaintyComponent = { name: names[which], ...shape, size, degreesOfFreedom: null };
  return which === "resolution" ? [added, ...components] : [...components, added];
}

/** Those that no field shows. */
export function furtherErrors(
  shown: readonly SimpleError[],
  components: readonly UncertaintyComponent[],
): readonly UncertaintyComponent[] {
  const places = new Set(shown.map((which) => placeOfError(which, components)));
  return components.filter((_, index) => !places.has(index));
}
