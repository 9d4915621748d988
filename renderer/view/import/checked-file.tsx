import { useEffect, useMemo, useState } from "react";
import type { ImportView } from "../../../app/contract/index.ts";
import type { GridPlace } from "../../component/grid-place.ts";
import type { ImportDesk } from "../../state/import-desk.ts";
import { useWords } from "../../state/language.tsx";
import { AboutFileCell } from "./about-file-cell.tsx";
import { FileGrid } from "./file-grid.tsx";
import { fileTable } from "./file-table.ts";
import { ProblemList } from "./problem-list.tsx";
import { TakeIn } from "./take-in.tsx";

/** A file that was read: its cells with what is wrong in them, the problems to step through, and the way in. */
export function CheckedFile({ desk, view }: { desk: ImportDesk; view: ImportView }) {
  const words = useWords().importing;
  const table = useMemo(() => fileTable(view), [view]);
  const [place, setPlace] = useState<GridPlace>({ row: 0, column: 0 });
  const [writing, setWriting] = useState<{ place: GridPlace; text: string | null } | null>(null);
  const [focusWish, setFocusWish] = useState(0);

  const moveTo = (wanted: GridPlace) => {
    setPlace(wanted);
    setFocusWish((before) => before + 1);
  };
  // Rows never go away while a file is on the desk; another file may be shorter.
  const within: GridPlace = {
    row: Math.min(place.row, view.rows.length - 1),
    column: Math.min(place.column, table.headings.length),
  };
  const write = (at: GridPlace, text: string | null) => {
    if (at.column > 0) setWriting({ place: at, text });
  };

  const placed = view.problems.filter((one) => table.placeOf(one) !== null);
  const first = placed.find((one) => one.severity === "error") ?? placed[0];
  const firstPlace = first === undefined ? null : table.placeOf(first);
  // biome-ignore lint/correctness/useExhaustiveDependencies: only another file moves the cell; a mended cell does not.
  useEffect(() => {
    if (firstPlace !== null) moveTo(firstPlace);
  }, [view.readingsFile]);

  const whole = view.problems.filter((one) => table.placeOf(one) === null);
  const hasCells = table.headings.length > 0;
  return (
    <>
      {whole.map((one) => (
        <div className="mark prose whole-file" key={`${one.rule}:${one.row}:${one.column}:${one.message}`}>
          <b>{words.inFile(one.file, one.row, one.column)}</b>
          <p>{one.message}</p>
        </div>
      ))}
      {view.notes.length > 0 && (
        <details className="how-read">
          <summary>{words.assumed}</summary>
          <ul>
            {view.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
      {hasCells && (
        <div className="beside import-beside">
          <div>
            <FileGrid
              desk={desk}
              view={view}
              table={table}
              place={within}
              onMove={setPlace}
              writing={writing}
              onWrite={write}
              onWritten={(next) => {
                setWriting(null);
                moveTo(next ?? within);
              }}
              focusWish={focusWish}
            />
            <p className="soft small grid-keys">{words.keys}</p>
            <AboutFileCell
              desk={desk}
              view={view}
              table={table}
              place={within}
              onMend={() => write(within, null)}
              onDone={() => moveTo(within)}
            />
          </div>
          <div className="import-margin">
            <ProblemList view={view} table={table} place={within} onGo={moveTo} />
            <TakeIn desk={desk} view={view} table={table} />
          </div>
        </div>
      )}
    </>
  );
}
