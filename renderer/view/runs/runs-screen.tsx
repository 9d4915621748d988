import { useEffect, useMemo, useState } from "react";
import type { RunsView } from "../../../app/contract/index.ts";
import type { GridPlace } from "../../component/grid-place.ts";
import { Pick } from "../../component/pick.tsx";
import { Refused } from "../../component/refused.tsx";
import { Waiting } from "../../component/waiting.tsx";
import { useAsked } from "../../state/asked.ts";
import { useLocale, useWords } from "../../state/language.tsx";
import { quantitiesOf } from "../../state/quantities.ts";
import { addressOfScreen, type Go, type Route } from "../../state/route.ts";
import { useStudy } from "../../state/study.tsx";
import { AboutCell } from "./about-cell.tsx";
import { RunsGrid } from "./runs-grid.tsx";
import { phasesOf, type RunsChoice, runsTable, sortedRuns } from "./runs-table.ts";

/** What has been recorded? */
export function RunsScreen({ route, go }: { route: Route; go: Go }) {
  const words = useWords().runs;
  const { revision } = useStudy();
  const { value, refusal } = useAsked<"runs.show">({ kind: "runs.show" }, revision);
  return (
    <div className="runs">
      <h1 className="visually-hidden">{words.title}</h1>
      {refusal !== null && <Refused refusal={refusal} />}
      {value === null && refusal === null && <Waiting />}
      {value !== null && value.runs.length === 0 && <NoRuns route={route} />}
      {value !== null && value.runs.length > 0 && <RecordedRuns view={value} route={route} go={go} />}
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

/** What the address asks for, as far as these runs have it. */
function choiceOfRuns(route: Route, phases: readonly string[]): RunsChoice {
  const phase = phases.find((name) => name === route.phase) ?? null;
  return route.show === "readings"
    ? { show: "readings", phase: phase ?? phases[0] ?? null }
    : { show: "results", phase };
}

function RecordedRuns({ view, route, go }: { view: RunsView; route: Route; go: Go }) {
  const words = useWords();
  const locale = useLocale();
  const method = useStudy().view?.method ?? "wbt";
  const phases = useMemo(() => phasesOf(view), [view]);
  const choice = choiceOfRuns(route, phases);
  const { show, phase } = choice;
  const table = useMemo(
    () => runsTable(view, { show, phase }, { words, locale, quantities: quantitiesOf(locale), method }),
    [view, show, phase, words, locale, method],
  );
  const falling = route.falling === "yes";
  const runs = useMemo(() => sortedRuns(table, route.sort, falling, locale), [table, route.sort, falling, locale]);
  const [place, setPlace] = useState<GridPlace>({ row: 0, column: 0 });
  const [pointed, setPointed] = useState<GridPlace | null>(null);
  const [focusWish, setFocusWish] = useState(0);

  useEffect(() => {
    if (route.run === null) return;
    const row = runs.findIndex((run) => run.run === route.run);
    const column = table.columns.findIndex((one) => one.reading !== null && one.reading === route.column);
    if (row < 0) return;
    setPlace({ row, column: Math.max(0, column) });
    setFocusWish((before) => before + 1);
  }, [route.run, route.column, runs, table]);

  const within: GridPlace = {
    row: Math.min(place.row, runs.length - 1),
    column: Math.min(place.column, table.columns.length - 1),
  };
  const sort = (index: number) => {
    const key = table.columns[index]?.key;
    if (key === undefined) return;
    const turned = route.sort === key && !falling;
    go({ sort: key, falling: turned ? "yes" : null, run: null, column: null }, "replace");
  };
  const phaseName = phase === null ? words.runs.wholeRun : words.phase(phase);
  const sortedBy = table.columns.find((one) => one.key === route.sort);

  return (
    <>
      <RunsSentence choice={choice} phases={phases} go={go} />
      <RunsGrid
        label={words.runs.table(words.runs[show], phaseName)}
        columns={table.columns}
        runs={runs}
        place={within}
        onMove={setPlace}
        onPoint={setPointed}
        onSort={sort}
        sort={route.sort}
        falling={falling}
        focusWish={focusWish}
      />
      <p className="soft small grid-keys">{words.runs.keys}</p>
      <p className="visually-hidden" role="status">
        {sortedBy === undefined ? "" : words.runs.sorted(sortedBy.heading, falling)}
      </p>
      <AboutCell place={pointed ?? within} columns={table.columns} runs={runs} />
    </>
  );
}

function RunsSentence({ choice, phases, go }: { choice: RunsChoice; phases: readonly string[]; go: Go }) {
  const words = useWords();
  const { runs } = words;
  const wholeRun = choice.show === "results" ? [{ value: "", label: runs.wholeRun }] : [];
  return (
    <p className="sentence runs-sentence">
      {runs.show}{" "}
      <Pick
        label={runs.showLabel}
        value={choice.show}
        options={[
          { value: "results", label: runs.results },
          { value: "readings", label: runs.readings },
        ]}
        onPick={(show) => go({ show: show === "readings" ? "readings" : null, run: null, column: null })}
      />{" "}
      {runs.of}{" "}
      <Pick
        label={runs.phaseLabel}
        value={choice.phase ?? ""}
        options={[...wholeRun, ...phases.map((phase) => ({ value: phase, label: words.phase(phase) }))]}
        onPick={(phase) => go({ phase: phase === "" ? null : phase, run: null, column: null })}
      />
    </p>
  );
}
