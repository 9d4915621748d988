import type { Outcome } from "../method/outcome.ts";
import type { InputValues } from "../method/phase-inputs.ts";
import { runQuantities } from "../method/run-quantities.ts";
import { phaseKeyText } from "../quantity/quantity-key.ts";
import type { QuantityName } from "../quantity/quantity-name.ts";
import { componentUncertainty } from "../readings/component-uncertainty.ts";
import type { PhaseName } from "../readings/phase.ts";
import type { InstrumentRole } from "../readings/reading.ts";
import type { Instrument, Settings, UncertaintyComponent } from "../readings/settings.ts";
import type { Run } from "../readings/study.ts";
import type { Distribution, ErrorOwner, ErrorSource, InputError, UncertainInput } from "./error-source.ts";
import type { Model } from "./model.ts";
import { type Node, recordTape, type TapeRecorder } from "./tape.ts";

/** A run's formulas with the errors of its readings. */
export interface RunModel extends Model {
  /** Text of each output's quantity key, in the order of `outputs`: those that the run has a value of. */
  readonly keys: readonly string[];
  /** Instruments that took a reading of this run and of whose errors the settings say nothing: their readings are taken as exact. */
  readonly exactRoles: readonly InstrumentRole[];
}

/** The settings give clocks' errors in seconds; readings of time are in minutes. */
const sizeOfUnit: Partial<Record<InstrumentRole, number>> = { clock: 1 / 60 };

/**
 * Records a run's formulas with every reading's errors. Depends on the run and the settings alone.
 *
 * Independent components are drawn anew for each reading (an act of reading: a weighing that three phases use is one), and for each run
 * where a value of the settings has them; shared components are one error for the whole study, common to all roles that one instrument
 * serves. A component's relative part moves a reading by its value times the error. A net mass is two weighings: each has its own
 * independent errors, and what both have in common drops out, save the gain, which is of their difference.
 *
 * @param recorder an empty one; the model is good until it is restarted
 */
export function runModel(run: Run, settings: Settings, recorder: TapeRecorder = recordTape()): RunModel {
  const sources: ErrorSource[] = [];
  const inputs: UncertainInput[] = [];
  const readings = new Map<string, Node>();
  const ofSettings = new Map<string, Node>();
  const instruments = new Map<InstrumentRole, Described>();
  const shared = new Map<string, number>();
  const exactRoles: InstrumentRole[] = [];

  function describedBy(role: InstrumentRole): Described {
    const known = instruments.get(role);
    if (known !== undefined) return known;
    const instrument = instrumentOf(role, settings);
    if (instrument === null || instrument.components.length === 0) exactRoles.push(role);
    const owner: ErrorOwner = { kind: "instrument", role: instrument?.role ?? role };
    const described = describe(instrument?.components ?? [], owner, sizeOfUnit[role] ?? 1);
    instruments.set(role, described);
    return described;
  }

  function sharedSource(part: Part, ownerKey: string, index: number, owner: ErrorOwner): number {
    if (part.source !== null) return part.source;
    // Values of one name (a fuel's own in two rows) have one error.
    const key = `${ownerKey}/${index}`;
    const source = shared.get(key) ?? sources.push(sharedSourceOf(settings, key, part.component, owner)) - 1;
    shared.set(key, source);
    part.source = source;
    return source;
  }

  /**
   * `acts`: what an independent error is drawn anew for. Of two, the second is taken off the first: a net value, whose
   * independent errors are those of both and whose shared offset cancels.
   */
  function input(value: number, { owner, ownerKey, parts }: Described, ...acts: readonly string[]): Node {
    if (parts.length === 0 || !Number.isFinite(value)) return recorder.arithmetic.constant(value);
    const errors: InputError[] = [];
    parts.forEach((part, index) => {
      const { component, absolute, relative } = part;
      const isShared = component.kind === "shared";
      const size = (isShared && acts.length === 2 ? 0 : absolute) + relative * value;
      if (size === 0) return;
      if (isShared) {
        errors.push({ source: sharedSource(part, ownerKey, index, owner), size });
        return;
      }
      acts.forEach((act, at) => {
        const source = sources.push(sourceFrom(`${act}/${index}`, component, owner)) - 1;
        errors.push({ source, size: at === 0 ? size : -size });
      });
    });
    if (errors.length === 0) return recorder.arithmetic.constant(value);
    return recorder.input(inputs.push({ value, errors }) - 1, value);
  }

  const values: InputValues<Node> = {
    reading({ id, value }, role) {
      const known = readings.get(id);
      if (known !== undefined) return known;
      const node = input(value, describedBy(role), `reading:${id}`);
      readings.set(id, node);
      return node;
    },
    net({ id, value }, role) {
      const known = readings.get(id);
      if (known !== undefined) return known;
      const node = input(value, describedBy(role), `reading:${id}`, `tare:${id}`);
      readings.set(id, node);
      return node;
    },
    setting(setting, { value, components }) {
      const key = `${setting}=${value}`;
      const known = ofSettings.get(key);
      if (known !== undefined) return known;
      const node = input(value, describe(components, { kind: "setting", setting }, 1), `run:${run.id}/${key}`);
      ofSettings.set(key, node);
      return node;
    },
  };

  const quantities = runQuantities(recorder.arithmetic, run, settings, values);
  const keys: string[] = [];
  const outputs: Node[] = [];
  const take = (outcomes: ReadonlyMap<QuantityName, Outcome<Node>>, phase: PhaseName | null) => {
    for (const [quantity, outcome] of outcomes) {
      if (!outcome.given || !Number.isFinite(recorder.arithmetic.nominal(outcome.value))) continue;
      keys.push(phase === null ? quantity : phaseKeyText(phase, quantity));
      outputs.push(outcome.value);
    }
  };
  for (const [phase, outcomes] of quantities.phases) take(outcomes, phase);
  take(quantities.run, null);
  return { tape: recorder.tape(), inputs, sources, outputs, keys, exactRoles };
}

/** What the settings say of the errors of an instrument or a value, made ready for its readings. */
interface Described {
  readonly owner: ErrorOwner;
  readonly ownerKey: string;
  readonly parts: readonly Part[];
}

interface Part {
  readonly component: UncertaintyComponent;
  /** Standard uncertainty in the unit of the formulas' readings, and as a fraction of the reading. */
  readonly absolute: number;
  readonly relative: number;
  /** A shared one's position among the model's sources, once it has one. */
  source: number | null;
}

function describe(components: readonly UncertaintyComponent[], owner: ErrorOwner, unit: number): Described {
  return {
    owner,
    ownerKey: owner.kind === "instrument" ? `instrument:${owner.role}` : `setting:${owner.setting}`,
    parts: components.map((component) => {
      const { absolute, relative } = componentUncertainty(component);
      return { component, absolute: absolute * unit, relative, source: null };
    }),
  };
}

const sharedSources = new WeakMap<Settings, Map<string, ErrorSource>>();

/** A shared error is one thing for all runs of a study. */
function sharedSourceOf(
  settings: Settings,
  key: string,
  component: UncertaintyComponent,
  owner: ErrorOwner,
): ErrorSource {
  const ofSettings = sharedSources.get(settings) ?? new Map<string, ErrorSource>();
  sharedSources.set(settings, ofSettings);
  const source = ofSettings.get(key) ?? sourceFrom(key, component, owner);
  ofSettings.set(key, source);
  return source;
}

function sourceFrom(key: string, component: UncertaintyComponent, owner: ErrorOwner): ErrorSource {
  const { degreesOfFreedom, kind, name } = component;
  return {
    key,
    distribution: distributionOf(component),
    degreesOfFreedom: degreesOfFreedom ?? Number.POSITIVE_INFINITY,
    isShared: kind === "shared",
    owner,
    component: name,
  };
}

const simple = {
  normal: { kind: "normal" },
  rectangular: { kind: "rectangular" },
  triangular: { kind: "triangular" },
} as const satisfies Record<UncertaintyComponent["distribution"], Distribution>;

/** A normal error whose size is known with some degrees of freedom is drawn as a scaled t (JCGM 101:2008, 6.4.9). */
function distributionOf({ distribution, degreesOfFreedom }: UncertaintyComponent): Distribution {
  return distribution === "normal" && degreesOfFreedom !== null && Number.isFinite(degreesOfFreedom)
    ? { kind: "t", degreesOfFreedom }
    : simple[distribution];
}

/** The instrument that serves a role, under the role that it is described at; null where the settings say nothing of it. */
function instrumentOf(
  role: InstrumentRole,
  { instruments }: Settings,
): (Instrument & { readonly role: InstrumentRole }) | null {
  const passed = new Set<InstrumentRole>();
  let at = role;
  for (;;) {
    const instrument = instruments.get(at);
    if (instrument === undefined || passed.has(at)) return null;
    if (!("sameAs" in instrument)) return { ...instrument, role: at };
    passed.add(at);
    at = instrument.sameAs;
  }
}
