import { wbtPhases } from "../readings/phase.ts";
import {
  endFields,
  field,
  lastingFields,
  lidField,
  likely,
  runFields,
  startField,
  unusualFields,
  weighAfterFields,
  weighFields,
} from "./phase-fields.ts";
import type { ProcedureOptions, ProcedureStep } from "./procedure-step.ts";

/** Length of the simmer, min (Water Boiling Test 4.2.3, from memory). */
export const simmerMinutes = 45;

/**
 * A run of the Water Boiling Test, version 4.2.3 (2014), as a technician does it: what lasts, then cold start, hot start and
 * simmer. Which readings are taken is the protocol's (from memory); order and words are our own.
 */
export function wbtProcedure(options: ProcedureOptions): ProcedureStep[] {
  const boilingPhase = (phase: "cold-start" | "hot-start", first: "cold-start" | null): ProcedureStep[] => [
    {
      id: `${phase}.weigh`,
      phase,
      fields: [
        ...(first === null ? [] : lastingFields(phase, first, options)),
        ...weighFields(phase, options),
        lidField(phase, first),
      ],
      clock: null,
    },
    {
      id: `${phase}.light`,
      phase,
      fields: [startField(phase)],
      clock: { act: "starts", column: "start", countDownMinutes: null },
    },
    { id: `${phase}.boils`, phase, fields: endFields(phase, options), clock: { act: "boils", column: "end" } },
    {
      id: `${phase}.weigh-after`,
      phase,
      fields: weighAfterFields(phase, options, first === null || options.charAtHotStart),
      clock: null,
    },
  ];
  const charInBed = options.charAtHotStart
    ? [
        field("simmer", "char_at_start_g", "mass", {
          begins: likely("hot-start", "char_with_container_g", "char_container_g"),
        }),
      ]
    : [];
  return [
    {
      id: "before-the-fire",
      phase: null,
      fields: [...runFields(), ...lastingFields("cold-start", null, options)],
      clock: null,
    },
    ...boilingPhase("cold-start", null),
    ...boilingPhase("hot-start", "cold-start"),
    {
      id: "simmer.begin",
      phase: "simmer",
      fields: [
        ...lastingFields("simmer", "cold-start", options),
        ...weighFields("simmer", options, { fuel: likely("hot-start", "fuel_end_g"), potsOf: "hot-start" }),
        lidField("simmer", "cold-start"),
        ...charInBed,
        startField("simmer"),
      ],
      clock: { act: "starts", column: "start", countDownMinutes: simmerMinutes },
    },
    { id: "simmer.over", phase: "simmer", fields: endFields("simmer", options), clock: { act: "ends", column: "end" } },
    { id: "simmer.weigh-after", phase: "simmer", fields: weighAfterFields("simmer", options, true), clock: null },
    { id: "anything-unusual", phase: null, fields: unusualFields(wbtPhases), clock: null },
  ];
}
