import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { RunsView, RunView } from "../../../app/contract/index.ts";
import type { GridPlace } from "../../component/grid-place.ts";
import { Pick } from "../../component/pick.tsx";
import type { CellDesk, CellDraft, CellPlace } from "../../state/cell-desk.ts";
import { useLocale, useWords } from "../../state/language.tsx";
import { quantitiesOf } from "../../state/quantities.ts";
import type { Go, Route } from "../../state/route.ts";
import { useStudy } from "../../state/study.tsx";
import { AboutCell, cellPlace } from "./about-cell.tsx";
import type { FieldWish } from "./cell-field.tsx";
import { RunsGrid } from "./runs-grid.tsx";
import { phasesOf, type RunsChoice, type RunsColumn, runsTable, sortedRuns } from "./runs-table.ts";
import { UnsavedCells } from "./unsaved-cells.tsx";

/** What the address asks for, as far as these runs have it. */
function choiceOfRuns(route: Route, phases: readonly string[]): RunsChoice {
  const phase = phases.find((name) => name === route.phase) ?? null;
  return route.show === "readings"
    ? { show: "readings", phase: phase ?? phases[0] ?? null }
    : { show: "results", phase };
}

/** The table of runs, and what is known of the cell that is pointed at. */
export function RecordedRuns({
  view,
  isNewest,
  route,
  go,
  cells,
}: {
  view: RunsView;
  /** No newer table is being waited for. */
  isNewest: boolean;
  route: Route;
  go: Go;
  cells: CellDesk;
}) {
  const words = useWords();
  const locale = useLocale();
  const { handle, view: study } = useStudy();
  const method = study?.method ?? "wbt";
  const phases = useMemo(() => phasesOf(view), [view]);
  const choice = choiceOfRuns(route, phases);
  const { show, phase } = choice;
  const table = useMemo(
    () => runsTable(view, { show, phase }, { words, locale, quantities: quantitiesOf(locale), method }),
    [view, show, phase, words, locale, method],
  );
  const falling = route.falling === "yes";
  const runs = useMemo(() => sortedRuns(table, route.sort, falling, locale), [table, route.sort, falling, locale]);
  const { place, moveTo } = useFollowedPlace(runs, table.columns);
  const [pointed, setPointed] = useState<GridPlace | null>(null);
  const [focusWish, setFocusWish] = useState(0);
  const [wantsField, setWantsField] = useState<FieldWish | null>(null);
  const panel = useRef<HTMLElement>(null);
  const focusGrid = useCallback(() => setFocusWish((before) => before + 1), []);

  const { settle } = cells;
  const seen = useRef(view);
  // Each table that was asked for last has all that was saved before; where none comes, what was saved goes on being shown.
  useEffect(() => {
    if (!isNewest || seen.current === view) return;
    seen.current = view;
    settle();
  }, [view, isNewest, settle]);
  /** What is on disk of a cell while the table does not have it yet. */
  const awaited = (run: RunView, column: RunsColumn): string | null => {
    if (!cells.drafts.some(({ status }) => status === "saved")) return null;
    const at = cellPlace(handle, run, column);
    const draft = at === null ? undefined : cells.draftOf(at);
    return draft?.status === "saved" ? draft.text : null;
  };

  const move = (wanted: GridPlace) => {
    // What is told about a cell follows the keyboard again, wherever the pointer rests.
    setPointed(null);
    setWantsField(null);
    cells.clearShown();
    moveTo(wanted);
  };

  const handled = useRef<string | null>(null);
  useEffect(() => {
    if (route.run === null) return;
    // Once: a table that is read anew does not take the focus from where it is.
    const wish = JSON.stringify([route.run, route.column, show, phase]);
    if (handled.current === wish) return;
    handled.current = wish;
    const row = runs.findIndex((run) => run.run === route.run);
    const column = table.columns.findIndex((one) => one.reading !== null && one.reading === route.column);
    if (row < 0) return;
    moveTo({ row, column: Math.max(0, column) });
    focusGrid();
  }, [route.run, route.column, show, phase, runs, table, moveTo, focusGrid]);

  const sort = (index: number) => {
    const key = table.columns[index]?.key;
    if (key === undefined) return;
    const turned = route.sort === key && !falling;
    go({ sort: key, falling: turned ? "yes" : null, run: null, column: null }, "replace");
  };
  const here = cellPlace(handle, runs[place.row], table.columns[place.column]);
  const enter = (at: GridPlace) => {
    if (at.row < 0) return;
    setPointed(null);
    setWantsField("whole");
  };
  /** A character on a cell begins it anew, as on Import. */
  const type = (at: GridPlace, text: string) => {
    const column = table.columns[at.column];
    const run = runs[at.row];
    const cell = cellPlace(handle, run, column);
    if (cell === null || run === undefined || column === undefined || text.trim() === "") return;
    if (study?.readOnly === null) begin(cell, column.cell(run).text, text);
  };
  const begin = (cell: CellPlace, stands: string, text: string) => {
    if (cells.draftOf(cell)?.status === "saving") return;
    setPointed(null);
    cells.type(cell, stands, text);
    setWantsField("end");
  };
  const point = (at: GridPlace | null) => {
    // What is being written is not taken away by a pointer that passes over the table.
    if (panel.current?.contains(document.activeElement) !== true) setPointed(at);
  };
  const fieldFocused = useCallback(() => setWantsField(null), []);
  const isHere = (draft: CellDraft) =>
    here !== null && draft.run === here.run && draft.phase === here.phase && draft.column === here.column;
  const goTo = (draft: CellDraft) => {
    const run = runs.find((one) => one.id === draft.run);
    if (run === undefined) return;
    handled.current = null;
    go({ show: "readings", phase: draft.phase ?? phase, run: run.run, column: draft.column });
  };
  const phaseName = phase === null ? words.runs.wholeRun : words.phase(phase);
  const sortedBy = table.columns.find((one) => one.key === route.sort);
  const isPointed = pointed !== null && (pointed.row !== place.row || pointed.column !== place.column);

  return (
    <>
      <RunsSentence choice={choice} phases={phases} go={go} />
      <RunsGrid
        label={words.runs.table(words.runs[show], phaseName)}
        columns={table.columns}
        runs={runs}
        place={place}
        onMove={move}
        onPoint={point}
        onSort={sort}
        onEnter={enter}
        onType={type}
        awaited={awaited}
        sort={route.sort}
        falling={falling}
        focusWish={focusWish}
      />
      <p className="soft small grid-keys">{study?.readOnly === null ? words.runs.keys : words.runs.keysReadOnly}</p>
      <p className="visually-hidden" role="status">
        {sortedBy === undefined ? "" : words.runs.sorted(sortedBy.heading, falling)}
      </p>
      <UnsavedCells cells={cells} runs={view.runs} isHere={isHere} onGo={goTo} />
      <AboutCell
        place={isPointed ? pointed : place}
        columns={table.columns}
        runs={runs}
        cells={cells}
        isPointed={isPointed}
        wantsFocus={wantsField}
        onFocused={fieldFocused}
        panel={panel}
        onDone={focusGrid}
        onPutBack={begin}
      />
    </>
  );
}

/** A place that stays with its run and its column when the rows are sorted, or read anew with others among them. */
function useFollowedPlace(runs: readonly RunView[], columns: readonly RunsColumn[]) {
  const [at, setAt] = useState<{ place: GridPlace; run: string | undefined }>({
    place: { row: 0, column: 0 },
    run: runs[0]?.id,
  });
  const row = useMemo(() => {
    const { place, run } = at;
    if (place.row < 0 || run === undefined || runs[place.row]?.id === run) return place.row;
    const found = runs.findIndex((one) => one.id === run);
    return found < 0 ? place.row : found;
  }, [at, runs]);
  const place = useMemo<GridPlace>(
    () => ({ row: Math.min(row, runs.length - 1), column: Math.min(at.place.column, columns.length - 1) }),
    [row, runs.length, at.place.column, columns.length],
  );
  const moveTo = useCallback((to: GridPlace) => setAt({ place: to, run: runs[to.row]?.id }), [runs]);
  return { place, moveTo };
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
