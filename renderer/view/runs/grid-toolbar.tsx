import { type ReactNode, useEffect, useRef, useState } from "react";
import type { GridChoice } from "../../../app/contract/index.ts";
import { Pick } from "../../component/pick.tsx";
import type { GridHead } from "../../state/grid.ts";
import { cellsOf, columnsOf, type GridRange, rowsOf } from "../../state/grid-range.ts";
import { useWords } from "../../state/language.tsx";
import type { Route } from "../../state/route.ts";
import { useStudy } from "../../state/study.tsx";
import { onlyNames, phasesOf } from "./grid-choice.ts";

/** How long typing is waited out before rows are looked for, in milliseconds. */
const typedAfter = 250;

/** Which rows are shown, and what can be done with those that are chosen. */
export function GridToolbar({
  choice,
  head,
  range,
  onFilter,
  onColumns,
  onFill,
  uncertainty,
  children,
}: {
  choice: GridChoice;
  head: GridHead | null;
  range: GridRange | null;
  onFilter: (change: Partial<Route>) => void;
  onColumns: () => void;
  /** Null where nothing can be changed. */
  onFill: (() => void) | null;
  /** Whether results are shown with their uncertainty; null where none is known. */
  uncertainty: { readonly isShown: boolean; readonly show: (isShown: boolean) => void } | null;
  children: ReactNode;
}) {
  const words = useWords();
  const { grid } = words;
  const { view } = useStudy();
  const phases = phasesOf(view?.method ?? "wbt");
  return (
    <div className="grid-tools">
      <FindField text={choice.find} onFind={(find) => onFilter({ find: find === "" ? null : find })} />
      <Pick
        label={grid.only}
        value={choice.only}
        options={onlyNames.map((value) => ({ value, label: grid.onlyOf[value] }))}
        onPick={(only) => onFilter({ only: only === "all" ? null : only })}
      />
      <Pick
        label={grid.variant}
        value={choice.variant === null ? "" : `=${choice.variant}`}
        options={[
          { value: "", label: grid.allVariants },
          ...(view?.variants ?? []).map(({ name }) => ({ value: `=${name}`, label: name })),
        ]}
        onPick={(variant) => onFilter({ ofVariant: variant === "" ? null : variant.slice(1) })}
      />
      <Pick
        label={grid.phase}
        value={choice.phase ?? ""}
        options={[
          { value: "", label: grid.allPhases },
          ...phases.map((phase) => ({ value: phase, label: words.phase(phase) })),
        ]}
        onPick={(phase) => onFilter({ ofPhase: phase === "" ? null : phase })}
      />
      <span className="soft small" role="status">
        {head !== null && grid.shown(head.rows, head.allRows, head.runs)}
      </span>
      <span className="grid-acts">
        {children}
        {onFill !== null && (
          <button type="button" className="act quiet" title={grid.fillHint} onClick={onFill}>
            {grid.fillDown}
          </button>
        )}
        {uncertainty !== null && (
          <label className="grid-check" title={words.uncertainty.shownHint}>
            <input
              type="checkbox"
              checked={uncertainty.isShown}
              onChange={(event) => uncertainty.show(event.target.checked)}
            />{" "}
            {words.uncertainty.shown}
          </label>
        )}
        <button type="button" className="act quiet" aria-haspopup="dialog" onClick={onColumns}>
          {grid.columns}
        </button>
        {range !== null && cellsOf(range) > 1 && (
          <span className="soft small">{grid.selected(rowsOf(range), columnsOf(range))}</span>
        )}
      </span>
    </div>
  );
}

function FindField({ text, onFind }: { text: string; onFind: (text: string) => void }) {
  const { grid } = useWords();
  const [typed, setTyped] = useState(text);
  const sent = useRef(text);
  const find = useRef(onFind);
  find.current = onFind;
  // The address may change by itself: by the back button, or where all rows are shown again.
  useEffect(() => {
    if (sent.current === text) return;
    sent.current = text;
    setTyped(text);
  }, [text]);
  useEffect(() => {
    if (typed === sent.current) return;
    const timer = setTimeout(() => {
      sent.current = typed;
      find.current(typed);
    }, typedAfter);
    return () => clearTimeout(timer);
  }, [typed]);
  return (
    <input
      type="search"
      className="field grid-find"
      aria-label={grid.find}
      placeholder={grid.find}
      title={grid.findHint}
      maxLength={200}
      dir="auto"
      value={typed}
      onChange={(event) => setTyped(event.target.value)}
    />
  );
}
