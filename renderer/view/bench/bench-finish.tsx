import { useState } from "react";
import type { Refusal } from "../../../app/contract/index.ts";
import { FullName } from "../../component/name.tsx";
import { ReasonForm } from "../../component/reason-form.tsx";
import { Refused } from "../../component/refused.tsx";
import type { BenchDesk } from "../../state/bench-desk.ts";
import { benchKey, finishStep, lackingFields, spotId } from "../../state/bench-walk.ts";
import { useMakeEdit } from "../../state/change.ts";
import { isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";
import { BenchFormFields, type SheetForm } from "./bench-form.tsx";

/** Behind the last step: the run is finished, or what lacks is told; or it is left for later, or abandoned. */
export function BenchFinish({ desk, others }: { desk: BenchDesk; others: string }) {
  const words = useWords().bench;
  const make = useMakeEdit();
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  const lacking = lackingFields(desk.run);
  const finish = async () => {
    if (isBusy) return;
    setIsBusy(true);
    setRefusal(null);
    const answer = await make({ kind: "finishRun", run: desk.run.id });
    setIsBusy(false);
    if (answer !== null && isRefusal(answer)) setRefusal(answer);
  };
  return (
    <section className="bench-step bench-finish" aria-labelledby="bench-step-title">
      <h1 id="bench-step-title">{words.finishTitle}</h1>
      <p className="soft bench-sentence">{words.finishLead}</p>
      {desk.run.lacks.length > 0 && (
        <div className="bench-lacks" id="bench-lacks">
          <p>{words.lacks}</p>
          {lacking.length > 0 ? (
            <ul>
              {lacking.map(({ step, field }) => (
                <li key={benchKey(field)}>
                  <button
                    type="button"
                    className="plain"
                    onClick={() => {
                      if (field.isPassed) desk.fold(step.id, true);
                      desk.sendTo({ step: step.id, field: benchKey(field) }, true);
                    }}
                  >
                    {words.lacking(step.title, field.name)}
                  </button>
                </li>
              ))}
            </ul>
          ) : (
            <ul>
              {desk.run.lacks.map((lack) => (
                <li key={lack}>
                  <FullName text={lack} />
                </li>
              ))}
            </ul>
          )}
        </div>
      )}
      <div className="acts">
        <button
          type="button"
          id={spotId({ step: finishStep, field: null })}
          className="act"
          aria-busy={isBusy}
          aria-describedby={desk.run.lacks.length > 0 ? "bench-lacks" : undefined}
          disabled={desk.isReadOnly}
          onClick={() => void finish()}
        >
          {words.finishNow}
        </button>
        <kbd>{words.enterKey}</kbd>
      </div>
      {refusal !== null && <Refused refusal={refusal} />}
      <section>
        <h2>{words.leave}</h2>
        <p className="soft prose">{words.leaveLead}</p>
        <a href={others}>{words.leaveNow}</a>
      </section>
      {!desk.isReadOnly && <ChangeForm desk={desk} />}
      {!desk.isReadOnly && <Abandon desk={desk} />}
    </section>
  );
}

/** The sheet of a run that was begun with another number of pots, or without a reading that is taken after all. */
export function ChangeForm({ desk }: { desk: BenchDesk }) {
  const words = useWords().bench;
  const make = useMakeEdit();
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const { pots, charAtHotStart, emissions, id } = desk.run;
  const change = async (form: SheetForm) => {
    setRefusal(null);
    const answer = await make({ kind: "benchForm", run: id, ...form });
    if (answer !== null && isRefusal(answer)) setRefusal(answer);
  };
  return (
    <details className="bench-form">
      <summary>
        {words.form}: {words.formIs(pots, charAtHotStart, emissions)}
      </summary>
      <BenchFormFields form={{ pots, charAtHotStart, emissions }} onChange={(form) => void change(form)} />
      {refusal !== null && <Refused refusal={refusal} />}
    </details>
  );
}

function Abandon({ desk }: { desk: BenchDesk }) {
  const words = useWords().bench;
  const { abandon, abandonReason: reason, reasonNeeded, cancel } = words;
  return (
    <section className="leave-out bench-abandon">
      <h2>{abandon}</h2>
      <p className="soft prose">{words.abandonLead}</p>
      <ReasonForm
        words={{ open: abandon, reason, reasonNeeded, send: abandon, cancel }}
        edit={(given) => ({ kind: "abandonRun", run: desk.run.id, reason: given })}
      />
    </section>
  );
}
