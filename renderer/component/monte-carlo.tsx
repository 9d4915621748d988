import { useLayoutEffect, useRef } from "react";
import type { MonteCarloResult, MonteCarloView } from "../../app/contract/index.ts";
import { formatFixed } from "../../core/index.ts";
import { useLocale, useWords } from "../state/language.tsx";
import { type DrawnResult, useMonteCarlo } from "../state/monte-carlo.ts";
import { useStudy } from "../state/study.tsx";
import { Refused } from "./refused.tsx";

/** Checks a result by Monte Carlo on demand: how far it is, a way to stop it, and what it says beside first order. */
export function MonteCarlo({ of }: { of: DrawnResult }) {
  const words = useWords().uncertainty;
  const locale = useLocale();
  const { stamp } = useStudy();
  const { view, refusal, isStopped, start, cancel } = useMonteCarlo(of, stamp);
  const keepsFocus = useKeptFocus(view?.state);
  const said =
    view?.state === "running"
      ? words.begun
      : view?.state === "none" && isStopped
        ? words.stopped
        : view?.state === "done"
          ? view.result.verdict.join(" ")
          : "";
  return (
    <section className="monte-carlo" aria-label={words.monteCarloTitle} {...keepsFocus}>
      {refusal !== null && <Refused refusal={refusal} />}
      {view?.state === "none" && (
        <>
          <p className="soft small prose">{view.because ?? words.monteCarloLead(view.trials)}</p>
          {view.because === null && (
            <button type="button" className="act quiet" onClick={start}>
              {words.monteCarlo}
            </button>
          )}
        </>
      )}
      {view?.state === "running" && (
        <div className="drawing">
          <progress max={1} value={view.share} aria-label={words.monteCarloTitle} />
          <span className="soft small">{words.running(formatFixed(Math.floor(view.share * 100), 0, locale))}</span>
          <button type="button" className="act quiet" onClick={cancel}>
            {words.cancel}
          </button>
        </div>
      )}
      {view?.state === "failed" && (
        <>
          <p className="mark">{view.message}</p>
          <button type="button" className="act quiet" onClick={start}>
            {words.again}
          </button>
        </>
      )}
      <p className={view?.state === "none" && isStopped ? "soft small" : "visually-hidden"} role="status">
        {said}
      </p>
      {view?.state === "done" && <Drawn result={view.result} />}
    </section>
  );
}

/** What was pressed is gone when something else stands in its place: the focus goes on to that, and keys still reach the panel. */
function useKeptFocus(state: MonteCarloView["state"] | undefined) {
  const section = useRef<HTMLElement>(null);
  const isOurs = useRef(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another state draws other things.
  useLayoutEffect(() => {
    if (!isOurs.current || document.activeElement !== document.body) return;
    section.current?.querySelector<HTMLElement>("button, h3")?.focus();
  }, [state]);
  return {
    ref: section,
    onFocus: () => {
      isOurs.current = true;
    },
    onBlur: ({ relatedTarget }: { relatedTarget: EventTarget | null }) => {
      if (relatedTarget instanceof Node) isOurs.current = section.current?.contains(relatedTarget) === true;
    },
  };
}

function Drawn({ result }: { result: MonteCarloResult }) {
  const words = useWords().uncertainty;
  return (
    <>
      <h3 tabIndex={-1}>{words.monteCarloTitle}</h3>
      <div className={result.tone === "differs" ? "mark" : "drawn-verdict"}>
        {result.verdict.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard. */}
      <section className="wide" tabIndex={0} aria-label={words.results}>
        <table className="budget-table" aria-label={words.results}>
          <thead>
            <tr>
              <th scope="col">{words.figureIn(result.unit)}</th>
              <th scope="col" className="n">
                {words.byMonteCarlo}
              </th>
              <th scope="col" className="n">
                {words.byFirstOrder}
              </th>
            </tr>
          </thead>
          <tbody>
            {result.rows.map((row) => (
              <tr key={row.name}>
                <th scope="row">{row.name}</th>
                <td className="n">{row.monteCarlo}</td>
                <td className="n">{row.firstOrder}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <p className="soft small">{result.trials}</p>
    </>
  );
}
