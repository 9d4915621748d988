import { useEffect, useState } from "react";
import { Moment } from "../../component/moment.tsx";
import { FullName, Name } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { Waiting } from "../../component/waiting.tsx";
import { useAsked } from "../../state/asked.ts";
import type { CellPlace } from "../../state/cell-desk.ts";
import { useWords } from "../../state/language.tsx";
import { useStudy } from "../../state/study.tsx";

/** How long a cell is stayed at before its history is asked for, in milliseconds. */
const settledAfter = 200;

/** So many steps are seen without scrolling. */
const unscrolled = 4;

/** All that ever stood in a cell, newest first: when, who, what it was and became, why. */
export function CellHistory({ place }: { place: CellPlace }) {
  const { changes: words } = useWords();
  const { stamp } = useStudy();
  const isSettled = useSettled(JSON.stringify(place));
  const { value, refusal } = useAsked<"cell.history">(isSettled ? { kind: "cell.history", ...place } : null, stamp);
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
              <FullName text={words.fromTo(step.before || words.empty, step.after || words.empty)} />
              <div className="soft small">
                <Moment at={step.at} /> <Name text={step.who} />
                {step.way !== "edit" && <i> {words.way[step.way]}</i>}
              </div>
              {step.why !== null && (
                <div className="small">
                  <FullName text={words.because(step.why)} />
                </div>
              )}
            </li>
          ))}
        </ol>
      )}
    </section>
  );
}

function useSettled(key: string): boolean {
  const [settled, setSettled] = useState<string | null>(null);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(key), settledAfter);
    return () => clearTimeout(timer);
  }, [key]);
  return settled === key;
}
