import { type IsoPhaseName, isoPhases } from "../readings/phase.ts";
import {
  endFields,
  field,
  lastingFields,
  lidField,
  runFields,
  startField,
  unusualFields,
  weighAfterFields,
  weighFields,
} from "./phase-fields.ts";
import type { ProcedureOptions, ProcedureStep } from "./procedure-step.ts";

/** Length of each power level, min (ISO 19867-1:2018, from memory). */
export const powerLevelMinutes = 30;

/**
 * A run after ISO 19867-1:2018, as a technician does it: high, medium and low power, each weighed before and after. Which
 * readings are taken is the standard's (from memory); order and words are our own.
 */
export function isoProcedure(options: ProcedureOptions): ProcedureStep[] {
  const [first] = isoPhases;
  const powerLevel = (phase: IsoPhaseName): ProcedureStep[] => {
    const isFirst = phase === first;
    return [
      {
        id: `${phase}.weigh`,
        phase,
        fields: [
          ...(isFirst ? [] : lastingFields(phase, first, options)),
          ...weighFields(phase, options),
          lidField(phase, isFirst ? null : first),
          // Nothing is assumed of the bed: it was cleared, or what lies in it was weighed.
          ...(isFirst ? [] : [field(phase, "char_at_start_g", "mass")]),
        ],
        clock: null,
      },
      {
        id: `${phase}.light`,
        phase,
        fields: [startField(phase)],
        clock: { act: "starts", column: "start", countDownMinutes: powerLevelMinutes },
      },
      {
        id: `${phase}.boils`,
        phase,
        fields: [field(phase, "boiled_at", "time")],
        clock: { act: "boils", column: "boiled_at" },
      },
      { id: `${phase}.over`, phase, fields: endFields(phase, options), clock: { act: "ends", column: "end" } },
      { id: `${phase}.weigh-after`, phase, fields: weighAfterFields(phase, options, true), clock: null },
    ];
  };
  return [
    {
      id: "before-the-fire",
      phase: null,
      fields: [...runFields(), ...lastingFields(first, null, options)],
      clock: null,
    },
    ...isoPhases.flatMap(powerLevel),
    { id: "anything-unusual", phase: null, fields: unusualFields(isoPhases), clock: null },
  ];
}
