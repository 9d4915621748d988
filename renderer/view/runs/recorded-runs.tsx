import { type KeyboardEvent, useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { GridRowView } from "../../../app/contract/index.ts";
import type { PhaseName } from "../../../core/index.ts";
import type { GridPlace } from "../../component/grid-place.ts";
import type { CellDesk, CellDraft, CellPlace } from "../../state/cell-desk.ts";
import type { GridHead, GridRows } from "../../state/grid.ts";
import { useBulkDesk } from "../../state/grid-bulk.ts";
import { isColumnShown, useColumnChoice } from "../../state/grid-columns.ts";
import { useWalkedPlace } from "../../state/grid-place.ts";
import { useLocale, useWords } from "../../state/language.tsx";
import { quantitiesOf } from "../../state/quantities.ts";
import type { Go, Route } from "../../state/route.ts";
import { useShownUncertainty } from "../../state/shown-uncertainty.ts";
import { useStudy } from "../../state/study.tsx";
import {
  AboutCell,
  cellPlace,
  type OpenBudget,
  proposalsOf,
  Question,
  useCellLabel,
  wantsProposals,
} from "./about-cell.tsx";
import { BulkTrouble } from "./bulk-trouble.tsx";
import type { FieldWish } from "./cell-field.tsx";
import { CellWriter, type Onward } from "./cell-writer.tsx";
import { ColumnsDialog } from "./columns-dialog.tsx";
import { choiceOfRoute, isFiltered, noFilter, phaseNamed } from "./grid-choice.ts";
import { isShownAtFirst, quantityKeyOf, type RunsColumn, readingOf, runsColumns } from "./grid-columns.ts";
import { GridToolbar } from "./grid-toolbar.tsx";
import { QuestionButtons } from "./question-buttons.tsx";
import { RunsGrid } from "./runs-grid.tsx";
import { UnsavedCells } from "./unsaved-cells.tsx";
import { useGoTo } from "./use-go-to.ts";
import { useGridActs } from "./use-grid-acts.ts";
import { useQuestionSteps } from "./use-questions.ts";

/** The cell that is being written in: its place in the study, and the row in which it is seen. */
interface Writing {
  readonly place: CellPlace;
  readonly runId: string;
  readonly phase: PhaseName;
  readonly key: string;
  readonly stands: string;
  readonly wish: FieldWish;
}

/** The grid of readings and results, and what is known of the cell that is walked on. */
export function RecordedRuns({
  grid,
  head,
  route,
  go,
  cells,
}: {
  grid: GridRows;
  head: GridHead;
  route: Route;
  go: Go;
  cells: CellDesk;
}) {
  const words = useWords();
  const { handle, view: study } = useStudy();
  const canChange = study?.readOnly === null;
  const uncertainty = useShownUncertainty(handle);
  const { all, columns, choice: columnChoice } = useShownColumns(head, head.hasErrors && uncertainty.isShown);
  const keys = useMemo(() => columns.map(({ key }) => key), [columns]);
  const choice = choiceOfRoute(route);
  const { place, range, move, choose, chooseWhole } = useWalkedPlace(grid, keys);
  const [writing, setWriting] = useState<Writing | null>(null);
  const isWriting = useRef(false);
  isWriting.current = writing !== null;
  const [focusWish, setFocusWish] = useState(0);
  const [topWish, setTopWish] = useState(0);
  const [wantsField, setWantsField] = useState<FieldWish | null>(null);
  const [isChoosing, setIsChoosing] = useState(false);
  const budget = useOpenBudget();
  const panel = useRef<HTMLElement>(null);
  const focusGrid = useCallback(() => setFocusWish((before) => before + 1), []);
  const desk = useBulkDesk();
  const label = useCellLabel();

  const rowNow = useRef(grid.rowAt);
  rowNow.current = grid.rowAt;
  const row = grid.rowAt(place.row);
  const column = columns[place.column];
  const here = row === undefined || column === undefined ? null : cellPlace(handle, row, column);

  const { settle } = cells;
  // Rows that were asked for last have all that was saved before; where none come, what was saved goes on being shown.
  const seen = useRef(grid.blocks);
  useEffect(() => {
    if (!grid.isNewest || seen.current === grid.blocks) return;
    seen.current = grid.blocks;
    settle();
  }, [grid.blocks, grid.isNewest, settle]);

  const showColumn = useCallback(
    (reading: string) => {
      const wanted = all.find((one) => one.reading === reading);
      if (wanted !== undefined && !columns.includes(wanted)) columnChoice.show([wanted.key], true);
      return wanted?.key ?? null;
    },
    [all, columns, columnChoice.show],
  );
  const goTo = useGoTo({ grid, route, go, keys, move, showColumn, focusGrid });
  const questions = useQuestionSteps((question) => {
    if (question.runId === null) return;
    setWriting(null);
    void goTo({ run: question.runId, phase: phaseNamed(question.phase), column: question.column });
  });
  useLinkedCell(route, handle, questions.all, grid, goTo);

  const acts = useGridActs({ grid, columns, range, choose, desk, onDone: focusGrid });

  const moveTo = (to: GridPlace, extend: boolean) => {
    setWantsField(null);
    if (writing !== null) setWriting(null);
    cells.clearShown();
    move(to, extend);
  };
  const write = (of: GridRowView, at: RunsColumn, wish: FieldWish, text: string | null) => {
    const cell = cellPlace(handle, of, at);
    if (cell === null || !canChange || cells.draftOf(cell)?.status === "saving") return;
    const stands = readingOf(of, at);
    if (text !== null) cells.type(cell, stands, text);
    setWriting({ place: cell, runId: of.runId, phase: of.phase, key: at.key, stands, wish });
  };
  const enter = (at: GridPlace) => {
    const of = grid.rowAt(at.row);
    const to = columns[at.column];
    if (of === undefined || to === undefined) return;
    if (quantityKeyOf(of, to) !== null) budget.open();
    else write(of, to, "whole", null);
  };
  /** A character on a cell begins it anew. */
  const type = (at: GridPlace, text: string) => {
    const of = grid.rowAt(at.row);
    const to = columns[at.column];
    if (of !== undefined && to !== undefined && text.trim() !== "") write(of, to, "end", text);
  };
  const finish = (of: Writing, onward: Onward | null) => {
    setWriting(null);
    focusGrid();
    if (onward === null) return;
    const at = place;
    move({
      row: Math.min(Math.max(0, at.row + onward.down), head.rows - 1),
      column: Math.min(Math.max(0, at.column + onward.right), columns.length - 1),
    });
    void cells.save(of.place).then(async (done) => {
      // Whoever has begun another cell is not called back: it stands in the list of what is not saved.
      if (done || isWriting.current) return;
      const there = rowNow.current(at.row);
      if (there?.runId === of.runId && there.phase === of.phase) move(at);
      else await goTo({ run: of.runId, phase: of.phase, column: of.place.column });
      setWriting((now) => now ?? { ...of, wish: "end" });
    });
  };
  const pressed = (event: KeyboardEvent): boolean => {
    const whole = event.ctrlKey || event.metaKey;
    if (event.key === "F8") questions.step(event.shiftKey ? -1 : 1);
    else if (event.key === "Delete" && !whole && !event.shiftKey) acts.empty();
    else if (event.key.toLowerCase() === "d" && whole && !event.shiftKey && !event.altKey) acts.fillDown();
    else if (event.key === "Escape" && range !== null && (range.top !== range.bottom || range.left !== range.right))
      move(place);
    else return false;
    return true;
  };

  const filter = (change: Partial<Route>) => {
    go({ ...change, run: null, column: null, phase: null }, "replace");
    if (place.row > 0) move({ row: 0, column: place.column });
    setTopWish((before) => before + 1);
  };
  const sort = (index: number) => {
    const key = columns[index]?.key;
    if (key === undefined) return;
    const isFalling = route.falling === "yes";
    // Up, down, and as the study has them.
    if (route.sort !== key) filter({ sort: key, falling: null });
    else filter(isFalling ? { sort: null, falling: null } : { sort: key, falling: "yes" });
  };

  const isHere = (draft: CellDraft) =>
    here !== null && draft.run === here.run && draft.phase === here.phase && draft.column === here.column;
  const goToDraft = (draft: CellDraft) => {
    void goTo({ run: draft.run, phase: phaseNamed(draft.phase), column: draft.column }).then(() =>
      setWantsField("end"),
    );
  };
  const nameOf = (run: string): string | null => {
    for (const { rows } of grid.blocks.values()) {
      const found = rows.find((one) => one.runId === run);
      if (found !== undefined) return found.run;
    }
    return null;
  };
  const sortedBy = all.find((one) => one.key === route.sort);

  return (
    <>
      <GridToolbar
        choice={choice}
        head={head}
        range={range}
        onFilter={filter}
        onColumns={() => setIsChoosing(true)}
        onFill={canChange ? acts.fillDown : null}
        uncertainty={head.hasErrors ? uncertainty : null}
      >
        <QuestionButtons steps={questions} />
      </GridToolbar>
      {questions.current !== null && questions.current.runId === null && (
        <Question question={questions.current} isElsewhere={false} onAnswered={focusGrid} />
      )}
      {head.rows === 0 && isFiltered(choice) ? (
        <div className="grid-nothing">
          <p className="voice">{words.grid.nothingFits}</p>
          <button type="button" className="act quiet" onClick={() => filter(noFilter)}>
            {words.grid.showAll}
          </button>
        </div>
      ) : (
        <RunsGrid
          grid={grid}
          columns={columns}
          cells={cells}
          bulk={desk.bulk}
          placeOf={(of, at) => cellPlace(handle, of, at)}
          writing={writing}
          writer={(of, at) =>
            writing !== null && (
              <CellWriter
                key={JSON.stringify(writing.place)}
                cells={cells}
                place={writing.place}
                stands={readingOf(of, at)}
                label={label(of, at)}
                wish={writing.wish}
                proposals={wantsProposals(at) ? proposalsOf(at, grid) : []}
                panel={panel}
                onDone={(onward) => finish(writing, onward)}
                onLeft={() => setWriting((now) => (now === writing ? null : now))}
              />
            )
          }
          place={place}
          range={range}
          onMove={moveTo}
          onChoose={chooseWhole}
          onSort={sort}
          onEnter={enter}
          onType={type}
          onKey={pressed}
          onCopy={acts.copy}
          onPaste={acts.paste}
          sort={route.sort}
          falling={route.falling === "yes"}
          focusWish={focusWish}
          topWish={topWish}
        />
      )}
      <p className="visually-hidden" role="status">
        {sortedBy === undefined ? "" : words.grid.sorted(sortedBy.heading, route.falling === "yes")}
      </p>
      {desk.bulk !== null && (
        <BulkTrouble
          bulk={desk.bulk}
          desk={desk}
          onGo={(cell) => void goTo({ run: cell.run, phase: phaseNamed(cell.phase), column: cell.column })}
          onDone={focusGrid}
        />
      )}
      <UnsavedCells cells={cells} nameOf={nameOf} isHere={isHere} onGo={goToDraft} />
      <AboutCell
        row={row}
        column={column}
        columns={columns}
        grid={grid}
        cells={cells}
        isInGrid={writing !== null}
        budget={budget}
        route={route}
        wantsFocus={wantsField}
        onFocused={() => setWantsField(null)}
        panel={panel}
        onDone={() => {
          setWriting(null);
          focusGrid();
        }}
        onPutBack={(of, stands, text) => {
          if (cells.draftOf(of)?.status === "saving") return;
          cells.type(of, stands, text);
          setWantsField("end");
        }}
      />
      <details className="grid-keys soft small">
        <summary>{words.grid.keysTitle}</summary>
        <p>{canChange ? words.grid.keys : words.grid.keysReadOnly}</p>
      </details>
      {isChoosing && (
        <ColumnsDialog
          columns={all}
          isShown={(one) => columns.includes(one)}
          onShow={columnChoice.show}
          onAsAtFirst={columnChoice.asAtFirst}
          onClose={() => setIsChoosing(false)}
        />
      )}
    </>
  );
}

/** Whether it is shown what the uncertainty of the result that is walked on is made of; as opened, it takes the focus. */
function useOpenBudget(): OpenBudget {
  const [isOpen, setIsOpen] = useState(false);
  const [wantsFocus, setWantsFocus] = useState(false);
  const open = useCallback(() => {
    setIsOpen(true);
    setWantsFocus(true);
  }, []);
  const focused = useCallback(() => setWantsFocus(false), []);
  const close = useCallback(() => {
    setIsOpen(false);
    setWantsFocus(false);
  }, []);
  return { isOpen, wantsFocus, open, focused, close };
}

/** All columns, and those that are shown. */
function useShownColumns(head: GridHead, withUncertainty: boolean) {
  const words = useWords();
  const locale = useLocale();
  const { handle, view } = useStudy();
  const method = view?.method ?? "wbt";
  const choice = useColumnChoice(handle);
  const { columns: views } = head;
  const all = useMemo(
    () => runsColumns(views, { words, locale, quantities: quantitiesOf(locale), method, withUncertainty }),
    [views, words, locale, method, withUncertainty],
  );
  const columns = useMemo(
    () =>
      all.filter((column) => column.at === null || isColumnShown(choice.choice, column.key, isShownAtFirst(column))),
    [all, choice.choice],
  );
  return { all, columns, choice };
}

/** A link led here, to a cell by the name of its run. */
function useLinkedCell(
  route: Route,
  handle: string | null,
  allQuestions: () => Promise<readonly { readonly run: string | null; readonly runId: string | null }[]>,
  grid: GridRows,
  goTo: ReturnType<typeof useGoTo>,
): void {
  const handled = useRef<string | null>(null);
  const latest = useRef({ grid, goTo, allQuestions });
  latest.current = { grid, goTo, allQuestions };
  const { run, phase, column } = route;
  useEffect(() => {
    if (run === null) return;
    // Once: rows that come anew do not take the focus from where it is.
    const wish = JSON.stringify([handle, run, column, phase]);
    if (handled.current === wish) return;
    handled.current = wish;
    const find = async () => {
      const named = (one: { readonly run: string | null }) => one.run === run;
      for (const { rows } of latest.current.grid.blocks.values()) {
        const found = rows.find(named);
        if (found !== undefined) return found.runId;
      }
      return (await latest.current.allQuestions()).find(named)?.runId ?? null;
    };
    void find().then((runId) => {
      if (runId !== null) void latest.current.goTo({ run: runId, phase: phaseNamed(phase), column });
    });
  }, [run, column, phase, handle]);
}
