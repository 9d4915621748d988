import { Moment } from "../../component/moment.tsx";
import { FullName, Name, shortened } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { Waiting } from "../../component/waiting.tsx";
import { useAsked } from "../../state/asked.ts";
import type { CellPlace } from "../../state/cell-desk.ts";
import { useWords } from "../../state/language.tsx";
import { useSettled } from "../../state/settled.ts";
import { useStudy } from "../../state/study.tsx";

/** So many steps are seen without scrolling. */
const unscrolled = 4;

/** All that ever stood in a cell, newest first: when, who, what it was and became, why. */
export function CellHistory({
  place,
  stands,
  onPutBack,
}: {
  place: CellPlace;
  /** What stands in the cell now. */
  stands: string;
  /** Writes an earlier text into the field again; null where nothing can be changed. */
  onPutBack: ((text: string) => void) | null;
}) {
  const { changes: words } = useWords();
  const { stamp } = useStudy();
  const isSettled = useSettled(JSON.stringify(place));
  const { value, refusal } = useAsked<"cell.history">(isSettled ? { kind: "cell.history", ...place } : null, stamp);
  const [first] = value?.steps ?? [];
  // Where the reading came from says more than that nothing stood there.
  const isFirst = (step: typeof first) => step === first && step?.before === "";
  return (
    <section className="cell-history" aria-label={words.history}>
      <h3>{words.history}</h3>
      {refusal !== null && <Refused refusal={refusal} />}
      {value === null && refusal === null && <Waiting />}
      {value !== null && value.steps.length === 0 && <p className="soft">{words.noHistory}</p>}
      {value !== null && value.steps.length > 0 && (
        <ol className="steps-list" tabIndex={value.steps.length > unscrolled ? 0 : undefined}>
          {value.steps.toReversed().map((step) => (
            <li key={step.edit}>
              {isFirst(step) ? (
                <>
                  <FullName text={step.after} /> <span className="small">{step.what}</span>
                </>
              ) : (
                <FullName text={words.fromTo(step.before || words.empty, step.after || words.empty)} />
              )}
              <div className="soft small">
                <Moment at={step.at} /> <Name text={step.who} />
                {step.way !== "edit" && <i> {words.way[step.way]}</i>}
              </div>
              {step.why !== null && (
                <div className="small">
                  <FullName text={words.because(step.why)} />
                </div>
              )}
              {onPutBack !== null && step.before !== "" && step.before !== stands && (
                <button type="button" className="plain small" onClick={() => onPutBack(step.before)}>
                  {words.putBack(shortened(step.before, 40))}
                </button>
              )}
            </li>
          ))}
        </ol>
      )}
    </section>
  );
}
