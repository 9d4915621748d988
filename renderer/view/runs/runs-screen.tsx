import { Refused } from "../../component/refused.tsx";
import { Waiting } from "../../component/waiting.tsx";
import { useAsked } from "../../state/asked.ts";
import type { CellDesk } from "../../state/cell-desk.ts";
import { useWords } from "../../state/language.tsx";
import { addressOfScreen, type Go, type Route } from "../../state/route.ts";
import { useStudy } from "../../state/study.tsx";
import { RecordedRuns } from "./recorded-runs.tsx";

/** What has been recorded? */
export function RunsScreen({ route, go, cells }: { route: Route; go: Go; cells: CellDesk }) {
  const words = useWords().runs;
  const { handle, view, stamp } = useStudy();
  const { value, refusal, waiting } = useAsked<"runs.show">(
    view === null ? null : { kind: "runs.show", study: handle },
    stamp,
  );
  return (
    <div className="runs">
      <h1 className="visually-hidden">{words.title}</h1>
      {refusal !== null && <Refused refusal={refusal} />}
      {value === null && refusal === null && <Waiting />}
      {value !== null && value.runs.length === 0 && <NoRuns route={route} />}
      {value !== null && value.runs.length > 0 && (
        <RecordedRuns view={value} isNewest={!waiting} route={route} go={go} cells={cells} />
      )}
    </div>
  );
}

function NoRuns({ route }: { route: Route }) {
  const { runs, study } = useWords();
  return (
    <div className="study-empty">
      <p className="voice">{runs.empty}</p>
      <p>{study.emptyRemedy}</p>
      <a className="act" href={addressOfScreen(route, "import")}>
        {study.toImport}
      </a>
    </div>
  );
}
