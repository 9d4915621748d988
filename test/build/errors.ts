import type { InstrumentRole } from "../../core/readings/reading.ts";
import type { ComponentSize, Settings, UncertaintyComponent } from "../../core/readings/settings.ts";

/** A component of uncertainty, normal unless said otherwise. */
export function component(
  name: string,
  kind: UncertaintyComponent["kind"],
  size: ComponentSize,
  more: Partial<Pick<UncertaintyComponent, "distribution" | "degreesOfFreedom">> = {},
): UncertaintyComponent {
  return { name, kind, size, distribution: "normal", degreesOfFreedom: null, ...more };
}

/** Instruments of a study by role: components, or the role whose instrument it is. */
export function instruments(
  described: Partial<Record<InstrumentRole, readonly UncertaintyComponent[] | InstrumentRole>>,
): Settings["instruments"] {
  return new Map(
    Object.entries(described).map(([role, one]) => [
      role as InstrumentRole,
      typeof one === "string" ? { sameAs: one } : { components: one },
    ]),
  );
}
