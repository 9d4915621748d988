import type { CompareEmptyView, CompareView } from "../../../app/contract/index.ts";
import { ChartPicture } from "../../chart/chart-picture.tsx";
import { FullName } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { Waiting } from "../../component/waiting.tsx";
import { useAsked } from "../../state/asked.ts";
import { useHelp } from "../../state/help.ts";
import { useWords } from "../../state/language.tsx";
import { addressOfScreen, choiceOf, type Go, type Route } from "../../state/route.ts";
import { useStudy } from "../../state/study.tsx";
import { ChartTable } from "./chart-table.tsx";
import { ComparisonBudget } from "./comparison-budget.tsx";
import { ComparisonSentence } from "./comparison-sentence.tsx";
import { Everything } from "./everything.tsx";
import { quantityOfKey } from "./quantity-key.ts";

/** Is it better, by how much, how sure? */
export function CompareScreen({ route, go }: { route: Route; go: Go }) {
  const words = useWords().compare;
  const { handle, view, stamp } = useStudy();
  const asked = useAsked<"compare.show">(
    view === null ? null : { kind: "compare.show", study: handle, choice: choiceOf(route) },
    stamp,
  );
  const { value, refusal, waiting } = asked;
  return (
    <div className="compare" aria-busy={waiting}>
      {refusal !== null && (
        <>
          <h1 className="visually-hidden">{words.title}</h1>
          <Refused refusal={refusal} />
          <OwnChoice go={go} />
        </>
      )}
      {value === null && refusal === null && (
        <>
          <h1 className="visually-hidden">{words.title}</h1>
          <Waiting />
        </>
      )}
      {value !== null && "nothing" in value && <NothingToCompare view={value.nothing} route={route} go={go} />}
      {value !== null && "comparison" in value && <Comparison view={value.comparison} route={route} go={go} />}
    </div>
  );
}

function OwnChoice({ go }: { go: Go }) {
  const words = useWords().compare;
  return (
    <button type="button" className="act quiet" onClick={() => go({ quantity: null, variant: null, baseline: null })}>
      {words.ownChoice}
    </button>
  );
}

function NothingToCompare({ view, route, go }: { view: CompareEmptyView; route: Route; go: Go }) {
  const { compare } = useWords();
  const study = useStudy().view;
  const isAllLeftOut = study !== null && study.leftOut > 0 && study.leftOut === study.runs;
  const hasChoice = route.quantity !== null || route.variant !== null || route.baseline !== null;
  return (
    <div className="study-empty">
      <h1>{compare.nothing}</h1>
      <p className="prose">{isAllLeftOut ? compare.allLeftOut : view.because}</p>
      {isAllLeftOut ? (
        <a className="act" href={addressOfScreen(route, "study")}>
          {compare.toStudy}
        </a>
      ) : hasChoice ? (
        <OwnChoice go={go} />
      ) : (
        <a className="act" href={addressOfScreen(route, "import")}>
          {compare.toImport}
        </a>
      )}
    </div>
  );
}

function Comparison({ view, route, go }: { view: CompareView; route: Route; go: Go }) {
  const words = useWords().compare;
  const openHelp = useHelp();
  const { choice } = view;
  return (
    <>
      <div className="question-line">
        <ComparisonSentence
          chosen={choice}
          quantities={view.quantities}
          variants={view.variants}
          onChoose={(to) => go(to)}
        />
        <button type="button" className="plain small soft" onClick={() => openHelp(quantityOfKey(choice.quantity))}>
          {words.what}
        </button>
      </div>
      <section className={view.warnings.length > 0 ? "finding beside" : "finding"}>
        <div role="status">
          <h1 className={view.finding.length > longFinding ? "finding-long" : ""}>
            <FullName text={view.finding} />
          </h1>
          <p className="soft finding-detail">{view.detail}</p>
        </div>
        {view.warnings.length > 0 && (
          <div className="mark rely">
            <b>{words.rely}</b>
            {view.warnings.map((warning) => (
              <p key={warning}>
                <FullName text={warning} />
              </p>
            ))}
          </div>
        )}
      </section>
      <ChartPicture chart={view.chart} />
      <ChartTable view={view} />
      <ComparisonBudget route={route} />
      <section className="beside compare-below">
        <Everything view={view} onShow={(quantity) => go({ ...choice, quantity })} />
        {view.surer.length > 0 && (
          <div className="surer">
            <h2>{words.surer}</h2>
            {view.surer.map((sentence) => (
              <p key={sentence}>{sentence}</p>
            ))}
          </div>
        )}
      </section>
    </>
  );
}

/** Characters from which on a finding is set smaller: names that people give may be long. */
const longFinding = 160;
