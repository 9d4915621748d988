import type { ImportView } from "../../../app/contract/index.ts";
import type { GridPlace } from "../../component/grid-place.ts";
import { FullName, shortened } from "../../component/name.tsx";
import { type ImportDesk, mendKey } from "../../state/import-desk.ts";
import { useWords } from "../../state/language.tsx";
import { cellText } from "./file-grid.tsx";
import { type FileTable, headingRow } from "./file-table.ts";

/** A longer text stands below the heading instead. */
const longestHeading = 120;

/** What is wrong with the cell that is pointed at, the whole of its text, and what can be done. */
export function AboutFileCell({
  desk,
  view,
  table,
  place,
  onMend,
  onDone,
}: {
  desk: ImportDesk;
  view: ImportView;
  table: FileTable;
  place: GridPlace;
  onMend: () => void;
  onDone: () => void;
}) {
  const { importing: words, separator } = useWords();
  const row = table.rowNumber(place.row);
  const column = place.column === 0 ? null : (table.headings[place.column - 1] ?? "");
  const problems = table.problemsAt(place);
  const mended = desk.mends.get(mendKey(row, place.column - 1));
  const text = cellText(view, desk.mends, table, place);
  const isLeftOut = view.rows[place.row]?.leftOut === true;
  return (
    <section className="about-cell" aria-label={words.place(row, column)}>
      <h2>
        {words.place(row, column)}
        {column !== null && place.row >= 0 && (
          <>
            {separator}
            <bdi>{shortened(text || words.emptyCell, longestHeading)}</bdi>
          </>
        )}
      </h2>
      {text.length > longestHeading && (
        <p>
          <FullName text={text} />
        </p>
      )}
      {mended !== undefined && (
        <p className="soft">
          {words.mended}, <FullName text={words.wasText(mended.was)} />
        </p>
      )}
      {problems.map((problem) => (
        <p className="mark" key={problem.rule + problem.message}>
          <b>{problem.severity === "error" ? words.error : words.question}.</b> <FullName text={problem.message} />
        </p>
      ))}
      {problems.length === 0 && <p className="soft">{isLeftOut ? words.leftOutHint : words.nothingHere}</p>}
      <div className="acts">
        {column !== null && (
          <button type="button" className="act quiet" onClick={onMend}>
            {words.mend}
          </button>
        )}
        {row !== headingRow && !isLeftOut && (
          <button
            type="button"
            className="act quiet"
            onClick={() => {
              desk.leaveOut(row);
              onDone();
            }}
          >
            {words.leaveOut(row)}
          </button>
        )}
        {isLeftOut && (
          <button
            type="button"
            className="act quiet"
            onClick={() => {
              desk.putBack(row);
              onDone();
            }}
          >
            {words.putBack(row)}
          </button>
        )}
      </div>
    </section>
  );
}
