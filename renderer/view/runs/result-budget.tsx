import { useEffect, useId, useRef } from "react";
import { Budget } from "../../component/budget.tsx";
import { MonteCarlo } from "../../component/monte-carlo.tsx";
import { Refused } from "../../component/refused.tsx";
import { Waiting } from "../../component/waiting.tsx";
import { useAsked } from "../../state/asked.ts";
import { useWords } from "../../state/language.tsx";
import { addressOfSetUp, type Route } from "../../state/route.ts";
import { useSettled } from "../../state/settled.ts";
import { useStudy } from "../../state/study.tsx";

/** A result of a run, by the text of its quantity's key. */
export interface ResultPlace {
  readonly study: string;
  readonly run: string;
  readonly quantity: string;
}

/** What the uncertainty of one result is made of. Closes on Escape. */
export function ResultBudget({
  place,
  route,
  wantsFocus,
  onFocused,
  onClose,
}: {
  place: ResultPlace;
  route: Route;
  /** It was opened just now: it is read from its heading on. */
  wantsFocus: boolean;
  onFocused: () => void;
  onClose: () => void;
}) {
  const { uncertainty: words } = useWords();
  const { stamp } = useStudy();
  const isSettled = useSettled(JSON.stringify(place));
  const { value, refusal } = useAsked<"budget.ofResult">(
    isSettled || wantsFocus ? { kind: "budget.ofResult", ...place } : null,
    stamp,
  );
  const id = useId();
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (!wantsFocus) return;
    heading.current?.focus();
    onFocused();
  }, [wantsFocus, onFocused]);
  return (
    <section
      className="budget"
      aria-labelledby={id}
      onKeyDown={(event) => {
        if (event.key !== "Escape" || event.defaultPrevented) return;
        event.preventDefault();
        onClose();
      }}
    >
      <div className="budget-head">
        <h3 id={id} ref={heading} tabIndex={-1}>
          {words.title}
        </h3>
        <button type="button" className="act quiet" title={words.closeKey} onClick={onClose}>
          {words.close}
        </button>
      </div>
      {refusal !== null && <Refused refusal={refusal} />}
      {value === null && refusal === null && <Waiting />}
      {value !== null && (
        <>
          <Budget budget={value.budget} />
          {value.budget.rows.length === 0 && (
            <p className="budget-way">
              {words.notStated[value.hasErrors ? "here" : "anywhere"]}{" "}
              <a href={addressOfSetUp(route, "instrument")}>{words.toSetUp}</a>
            </p>
          )}
          {value.budget.rows.length > 0 && <MonteCarlo key={JSON.stringify(place)} of={place} />}
        </>
      )}
    </section>
  );
}
