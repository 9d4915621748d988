import { useEffect, useId, useRef, useState } from "react";
import type { BenchLineView, BenchView, Refusal, StudyView } from "../../../app/contract/index.ts";
import { FullName, Name, shortened } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { prepareSound } from "../../state/bench-sound.ts";
import { useMakeEdit } from "../../state/change.ts";
import { isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";
import { addressOf, type Go, noChoices, type Route } from "../../state/route.ts";
import { BenchFormFields, type SheetForm } from "./bench-form.tsx";

/** Variants that can be chosen with one press; the field proposes all of them. */
const mostPicks = 8;

/** Nothing is on the Bench: a run is begun, or one that is not finished taken up again. */
export function BenchBegin({ view, study, go }: { view: BenchView; study: StudyView; go: Go }) {
  const words = useWords().bench;
  const isReadOnly = study.readOnly !== null;
  const studies: Route = { ...(noChoices as Route), study: study.study, screen: "studies" };
  return (
    <div className="bench-begin">
      <h1>{words.title}</h1>
      {study.isExample && (
        <p className="prose soft">
          {words.example} <a href={addressOf(studies)}>{words.ownStudy}</a> {words.ownStudyLead}
        </p>
      )}
      {isReadOnly ? <p className="mark prose">{words.readOnly}</p> : <BeginForm view={view} go={go} />}
      {view.unfinished.length > 0 && (
        <section>
          <h2>{words.unfinished}</h2>
          <ul className="bench-lines">
            {view.unfinished.map((line) => (
              <UnfinishedRun key={line.id} line={line} isReadOnly={isReadOnly} go={go} />
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}

function BeginForm({ view, go }: { view: BenchView; go: Go }) {
  const words = useWords().bench;
  const make = useMakeEdit();
  const id = useId();
  const { begin } = view;
  const [variant, setVariant] = useState(begin.variant ?? begin.variants[0] ?? "");
  const [form, setForm] = useState<SheetForm>({
    pots: begin.pots,
    charAtHotStart: begin.charAtHotStart,
    emissions: begin.emissions,
  });
  const [isLacking, setIsLacking] = useState(false);
  const [isBusy, setIsBusy] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (document.querySelector("dialog[open]") !== null) return;
    input.current?.focus();
    input.current?.select();
  }, []);

  const send = async () => {
    const given = variant.trim();
    setIsLacking(given === "");
    if (given === "") input.current?.focus();
    if (given === "" || isBusy) return;
    prepareSound();
    setIsBusy(true);
    setRefusal(null);
    const answer = await make({ kind: "beginRun", variant: given, ...form });
    setIsBusy(false);
    if (answer?.ok === true) go({ bench: answer.value.run, step: null });
    else if (answer !== null && isRefusal(answer)) setRefusal(answer);
  };

  return (
    <form
      className="bench-begin-form"
      aria-labelledby={`${id}-title`}
      onSubmit={(event) => {
        event.preventDefault();
        void send();
      }}
    >
      <h2 id={`${id}-title`}>{words.begin}</h2>
      <p className="soft">{words.beginLead(shortened(begin.run))}</p>
      <label className="bench-begin-variant">
        <span className="bench-label">{words.variant}</span>
        <input
          ref={input}
          className="field"
          value={variant}
          list={`${id}-variants`}
          maxLength={10_000}
          autoComplete="off"
          dir="auto"
          aria-invalid={isLacking && variant.trim() === ""}
          aria-describedby={`${id}-lead`}
          onChange={(event) => setVariant(event.target.value)}
        />
      </label>
      <datalist id={`${id}-variants`}>
        {begin.variants.map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
      <p className="soft small" id={`${id}-lead`}>
        {words.variantLead}
      </p>
      {isLacking && variant.trim() === "" && (
        <p className="mark" role="alert">
          {words.variantNeeded}
        </p>
      )}
      {begin.variants.length > 1 && (
        // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out as a line of words.
        <div className="picks" role="group" aria-label={words.variants}>
          {begin.variants.slice(0, mostPicks).map((name) => (
            <button
              key={name}
              type="button"
              className="pick-name"
              aria-pressed={name === variant.trim()}
              onClick={() => setVariant(name)}
            >
              <Name text={name} />
            </button>
          ))}
        </div>
      )}
      <details className="bench-form">
        <summary>
          {words.form}: {words.formIs(form.pots, form.charAtHotStart, form.emissions)}
        </summary>
        <BenchFormFields form={form} onChange={setForm} />
      </details>
      <div className="acts">
        <button type="submit" className="act" aria-busy={isBusy}>
          {words.beginNow}
        </button>
        <kbd>{words.enterKey}</kbd>
      </div>
      {refusal !== null && <Refused refusal={refusal} />}
    </form>
  );
}

function UnfinishedRun({ line, isReadOnly, go }: { line: BenchLineView; isReadOnly: boolean; go: Go }) {
  const all = useWords();
  const words = all.bench;
  const make = useMakeEdit();
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const isAbandoned = line.state === "abandoned";
  const takeUp = async () => {
    setRefusal(null);
    if (isAbandoned) {
      const answer = await make({ kind: "takeUpRun", run: line.id });
      if (answer === null || !answer.ok) {
        if (answer !== null && isRefusal(answer)) setRefusal(answer);
        return;
      }
    }
    go({ bench: line.id, step: null });
  };
  return (
    <li className="bench-line">
      <div>
        <p>
          <b>
            <Name text={words.run(line.run)} />
          </b>
          {all.separator}
          <Name text={line.variant} />
          {line.date !== null && all.separator + line.date}
        </p>
        <p className="soft small">
          {isAbandoned ? (
            <FullName text={words.abandoned(line.reason ?? all.dash)} />
          ) : line.next === null ? (
            words.allDone
          ) : (
            words.next(line.next)
          )}
        </p>
        {refusal !== null && <Refused refusal={refusal} />}
      </div>
      {!(isAbandoned && isReadOnly) && (
        <button
          type="button"
          className="act quiet"
          aria-label={isAbandoned ? words.takeUpAgainOf(line.run) : words.takeUpOf(line.run)}
          onClick={() => void takeUp()}
        >
          {isAbandoned ? words.takeUpAgain : words.takeUp}
        </button>
      )}
    </li>
  );
}
