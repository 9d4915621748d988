import { type KeyboardEvent, useEffect, useId, useRef, useState } from "react";
import type { BenchFieldView, Refusal } from "../../../app/contract/index.ts";
import { Refused } from "../../component/refused.tsx";
import type { BenchDesk } from "../../state/bench-desk.ts";
import {
  isNoSpecimen,
  type MoistureBasis,
  noSpecimen,
  recallSpecimens,
  rememberHabit,
  rememberSpecimens,
  specimensOf,
  type TypedSpecimen,
} from "../../state/bench-specimens.ts";
import { benchKey } from "../../state/bench-walk.ts";
import { useMakeEdit } from "../../state/change.ts";
import { isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";

/** Moisture of several pieces of wood, by meter or oven; the service takes their mean. */
export function BenchSpecimens({
  desk,
  field,
  onClose,
}: {
  desk: BenchDesk;
  field: BenchFieldView;
  onClose: (isTaken: boolean) => void;
}) {
  const words = useWords().bench;
  const make = useMakeEdit();
  const id = useId();
  const place = `${desk.study}.${desk.run.id}.${benchKey(field)}`;
  const [typed, setTyped] = useState(() => recallSpecimens(desk.study, place));
  const [lack, setLack] = useState<"basis" | "specimens" | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  const panel = useRef<HTMLElement>(null);
  const wish = useRef<number | "basis" | null>("basis");
  const isMeter = typed.tool === "meter";

  const change = (part: Partial<typeof typed>) => {
    const next = { ...typed, ...part };
    setTyped(next);
    setLack(null);
    rememberSpecimens(place, next);
  };
  const write = (at: number, part: Partial<TypedSpecimen>) =>
    change({ specimens: typed.specimens.map((one, index) => (index === at ? { ...one, ...part } : one)) });

  // After each drawing: a line that is wished for may just have come.
  useEffect(() => {
    if (wish.current === null) return;
    const first =
      wish.current === "basis" && typed.basis === null
        ? panel.current?.querySelector<HTMLElement>("[data-basis] input")
        : panel.current?.querySelectorAll<HTMLElement>("[data-specimen]")[wish.current === "basis" ? 0 : wish.current];
    wish.current = null;
    first?.querySelector<HTMLElement>("input")?.focus();
    if (first instanceof HTMLInputElement) first.focus();
  });

  const take = async () => {
    const specimens = specimensOf(typed);
    const lacking = typed.basis === null ? "basis" : specimens.length === 0 ? "specimens" : null;
    setLack(lacking);
    if (lacking === "basis") wish.current = "basis";
    if (lacking !== null || typed.basis === null || isBusy || field.phase === null) return;
    setIsBusy(true);
    setRefusal(null);
    const { basis, tool } = typed;
    const entry = field.entry ?? 1;
    const answer = await make({ kind: "specimens", run: desk.run.id, phase: field.phase, entry, basis, specimens });
    setIsBusy(false);
    if (answer?.ok === true) {
      rememberSpecimens(place, null);
      rememberHabit(desk.study, { tool, basis });
      onClose(true);
    } else if (answer !== null && isRefusal(answer)) setRefusal(answer);
  };

  const press = (event: KeyboardEvent) => {
    if (event.key === "Escape") {
      event.preventDefault();
      onClose(false);
      return;
    }
    if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement) || event.nativeEvent.isComposing) return;
    event.preventDefault();
    if (event.repeat) return;
    const inputs = [...(panel.current?.querySelectorAll<HTMLInputElement>("input") ?? [])];
    const isChoice = event.target.type === "radio";
    if (isChoice && !event.shiftKey) {
      event.target.click();
      wish.current = event.target.name.endsWith("tool") && typed.basis === null ? "basis" : 0;
      setTyped((now) => ({ ...now }));
      return;
    }
    const fields = inputs.filter(({ type }) => type !== "radio");
    const at = fields.indexOf(event.target);
    if (event.shiftKey) {
      fields[at - 1]?.focus();
      return;
    }
    const line = Number(event.target.closest<HTMLElement>("[data-specimen]")?.dataset.specimen);
    const specimen = typed.specimens[line];
    if (specimen !== undefined && isNoSpecimen(specimen) && typed.specimens.some((one) => !isNoSpecimen(one))) {
      void take();
    } else if (fields[at + 1] !== undefined) fields[at + 1]?.focus();
    else more();
  };
  const more = () => {
    if (typed.specimens.length >= 50) return;
    wish.current = typed.specimens.length;
    change({ specimens: [...typed.specimens, noSpecimen] });
  };

  return (
    <section ref={panel} className="bench-specimens" aria-labelledby={`${id}-title`} onKeyDown={press}>
      <h2 id={`${id}-title`}>{words.specimenTitle}</h2>
      <p className="soft small">{words.specimenLead}</p>
      <div className="bench-choices">
        <fieldset className="where-to">
          <legend>{words.tool}</legend>
          {(["meter", "oven"] as const).map((tool) => (
            <label className="choice" key={tool}>
              <input type="radio" name={`${id}-tool`} checked={typed.tool === tool} onChange={() => change({ tool })} />
              <span>{words[tool]}</span>
            </label>
          ))}
        </fieldset>
        <fieldset className="where-to" data-basis aria-invalid={lack === "basis"} aria-describedby={`${id}-lack`}>
          <legend>{isMeter ? words.onBasis : words.writtenOn}</legend>
          {(["wet", "dry"] as const satisfies readonly MoistureBasis[]).map((basis) => (
            <label className="choice" key={basis}>
              <input
                type="radio"
                name={`${id}-basis`}
                checked={typed.basis === basis}
                onChange={() => change({ basis })}
              />
              <span>
                {words[basis]}{" "}
                <span className="soft small">{basis === "wet" ? words.wetMeaning : words.dryMeaning}</span>
              </span>
            </label>
          ))}
        </fieldset>
      </div>
      <ol className="bench-specimen-list">
        {typed.specimens.map((one, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a specimen is its place in the list.
          <li key={at} data-specimen={at}>
            {isMeter ? (
              <SpecimenInput
                label={words.reading(at + 1)}
                value={one.reading}
                onChange={(reading) => write(at, { reading })}
              />
            ) : (
              <>
                <SpecimenInput
                  label={words.ovenBefore(at + 1)}
                  value={one.before}
                  onChange={(before) => write(at, { before })}
                />
                <SpecimenInput
                  label={words.ovenAfter(at + 1)}
                  value={one.after}
                  onChange={(after) => write(at, { after })}
                />
                <SpecimenInput
                  label={words.ovenDish(at + 1)}
                  value={one.dish}
                  onChange={(dish) => write(at, { dish })}
                />
              </>
            )}
          </li>
        ))}
      </ol>
      <p className={lack === null ? "" : "mark"} role="status" id={`${id}-lack`}>
        {lack === "basis" && words.basisNeeded}
        {lack === "specimens" && words.specimensNeeded}
      </p>
      <div className="acts">
        <button type="button" className="act" aria-busy={isBusy} onClick={() => void take()}>
          {words.takeMean}
        </button>
        <button type="button" className="act quiet" onClick={more}>
          {words.oneMore}
        </button>
        <button type="button" className="plain" onClick={() => onClose(false)}>
          {words.close} <kbd>Escape</kbd>
        </button>
      </div>
      {refusal !== null && <Refused refusal={refusal} />}
    </section>
  );
}

function SpecimenInput({
  label,
  value,
  onChange,
}: {
  label: string;
  value: string;
  onChange: (value: string) => void;
}) {
  return (
    <label className="bench-specimen">
      <span className="soft small">{label}</span>
      <input
        className="field"
        inputMode="decimal"
        autoComplete="off"
        maxLength={200}
        value={value}
        onChange={(event) => onChange(event.target.value)}
      />
    </label>
  );
}
