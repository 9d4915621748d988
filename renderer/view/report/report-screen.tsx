import { Refused } from "../../component/refused.tsx";
import { SaveButtons } from "../../component/save-button.tsx";
import { useAsked } from "../../state/asked.ts";
import { useWords } from "../../state/language.tsx";
import { addressOfScreen, choiceOf, type Go, type Route } from "../../state/route.ts";
import { useStudy } from "../../state/study.tsx";
import { ComparisonSentence } from "../compare/comparison-sentence.tsx";

/** What do I hand over? */
export function ReportScreen({ route, go }: { route: Route; go: Go }) {
  const { report: words } = useWords();
  const { handle, view, stamp } = useStudy();
  const choice = choiceOf(route);
  const isReady = view !== null;
  const comparison = useAsked<"compare.show">(isReady ? { kind: "compare.show", study: handle, choice } : null, stamp);
  const prepared = useAsked<"report.prepare">(
    isReady ? { kind: "report.prepare", study: handle, choice } : null,
    stamp,
  );
  const compared = comparison.value;
  const isNothing = compared !== null && "nothing" in compared;
  return (
    <div className="report" aria-busy={prepared.waiting}>
      <h1 className="visually-hidden">{words.title}</h1>
      {compared !== null && "comparison" in compared && (
        <ComparisonSentence
          chosen={{
            ...compared.comparison.choice,
            variant: compared.comparison.variants.length > 2 ? choice.variant : compared.comparison.choice.variant,
          }}
          offersEvery
          quantities={compared.comparison.quantities}
          variants={compared.comparison.variants}
          onChoose={(to) => go(to)}
        />
      )}
      {compared !== null && "nothing" in compared && (
        <NothingToReport because={compared.nothing.because} route={route} />
      )}
      {prepared.refusal !== null && !isNothing && <Refused refusal={prepared.refusal} />}
      <p className="visually-hidden" role="status">
        {prepared.waiting ? words.preparing : (prepared.value?.finding ?? "")}
      </p>
      {prepared.value !== null && (
        <div className="beside report-beside">
          <iframe className="preview" sandbox="" src={prepared.value.previewPath} title={words.preview} />
          <section className="report-save">
            <h2>{words.save}</h2>
            <p className="soft">{words.saveLead}</p>
            <SaveButtons
              kinds={["report.pdf", "report.html", "results.json", "runs.csv"]}
              choice={choice}
              firstIsMain
            />
          </section>
        </div>
      )}
    </div>
  );
}

function NothingToReport({ because, route }: { because: string; route: Route }) {
  const { compare } = useWords();
  return (
    <div className="study-empty">
      <p className="voice">{compare.nothing}</p>
      <p className="prose">{because}</p>
      <a className="act" href={addressOfScreen(route, "import")}>
        {compare.toImport}
      </a>
    </div>
  );
}
