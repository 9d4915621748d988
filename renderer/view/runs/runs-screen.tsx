import { useMemo } from "react";
import { Refused } from "../../component/refused.tsx";
import { Waiting } from "../../component/waiting.tsx";
import type { CellDesk } from "../../state/cell-desk.ts";
import { useGridRows } from "../../state/grid.ts";
import { useWords } from "../../state/language.tsx";
import { addressOfScreen, type Go, type Route } from "../../state/route.ts";
import { useStudy } from "../../state/study.tsx";
import { choiceOfRoute } from "./grid-choice.ts";
import { RecordedRuns } from "./recorded-runs.tsx";

/** What has been recorded? */
export function RunsScreen({ route, go, cells }: { route: Route; go: Go; cells: CellDesk }) {
  const words = useWords().runs;
  const { handle, view, stamp } = useStudy();
  const { sort, falling, find, ofVariant, ofPhase, only } = route;
  // biome-ignore lint/correctness/useExhaustiveDependencies: these are all that the choice is made of.
  const choice = useMemo(() => choiceOfRoute(route), [sort, falling, find, ofVariant, ofPhase, only]);
  const grid = useGridRows(view === null ? null : handle, choice, stamp);
  const { head, refusal } = grid;
  return (
    <div className="runs">
      <h1 className="visually-hidden">{words.title}</h1>
      {refusal !== null && <Refused refusal={refusal} />}
      {head === null && refusal === null && <Waiting />}
      {head !== null && head.allRows === 0 && <NoRuns route={route} />}
      {head !== null && head.allRows > 0 && (
        <RecordedRuns grid={grid} head={head} route={route} go={go} cells={cells} />
      )}
    </div>
  );
}

function NoRuns({ route }: { route: Route }) {
  const { grid } = useWords();
  return (
    <div className="study-empty">
      <p className="voice">{grid.emptyStudy}</p>
      <p>{grid.emptyRemedy}</p>
      <div className="acts">
        <a className="act" href={addressOfScreen(route, "bench")}>
          {grid.toBench}
        </a>
        <a className="act quiet" href={addressOfScreen(route, "import")}>
          {grid.toImport}
        </a>
      </div>
    </div>
  );
}
