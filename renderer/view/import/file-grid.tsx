import { Fragment } from "react";
import type { ImportView } from "../../../app/contract/index.ts";
import { DataGrid, type GridCell } from "../../component/data-grid.tsx";
import type { GridPlace } from "../../component/grid-place.ts";
import { Name } from "../../component/name.tsx";
import { type ImportDesk, type Mend, mendKey } from "../../state/import-desk.ts";
import { useWords } from "../../state/language.tsx";
import { CellWriter } from "./cell-writer.tsx";
import type { FileTable } from "./file-table.ts";

interface FileGridProps {
  desk: ImportDesk;
  view: ImportView;
  table: FileTable;
  place: GridPlace;
  onMove: (place: GridPlace) => void;
  writing: { place: GridPlace; text: string | null } | null;
  onWrite: (place: GridPlace, text: string | null) => void;
  onWritten: (next: GridPlace | null) => void;
  focusWish: number;
}

/** Text of a cell of the file as it stands now, mended or not. */
export function cellText(
  view: ImportView,
  mends: ReadonlyMap<string, Mend>,
  table: FileTable,
  place: GridPlace,
): string {
  const mended = mends.get(mendKey(table.rowNumber(place.row), place.column - 1));
  if (mended !== undefined) return mended.text;
  const cells = place.row < 0 ? view.columns : view.rows[place.row]?.cells;
  return cells?.[place.column - 1] ?? "";
}

/** The cells of the file, as the file has them, with what is wrong marked where it stands. */
export function FileGrid(props: FileGridProps) {
  const { desk, view, table, writing } = props;
  const words = useWords().importing;

  const shown = (place: GridPlace): GridCell => {
    const text = place.column === 0 ? String(table.rowNumber(place.row)) : cellText(view, desk.mends, table, place);
    const problems = table.problemsAt(place);
    const mended = desk.mends.get(mendKey(table.rowNumber(place.row), place.column - 1));
    const isWrong = problems.some((problem) => problem.severity === "error");
    const isLeftOut = place.column === 0 && view.rows[place.row]?.leftOut === true;
    const said = [
      ...problems.map(
        (problem) => `${problem.severity === "error" ? words.error : words.question}: ${problem.message}`,
      ),
      ...(mended === undefined ? [] : [`${words.mended}, ${words.wasText(mended.was)}`]),
      ...(isLeftOut ? [words.leftOutHint] : []),
    ];
    if (writing !== null && writing.place.row === place.row && writing.place.column === place.column) {
      const row = table.rowNumber(place.row);
      return {
        className: "writing",
        content: (
          <CellWriter
            label={words.mendLabel(row, table.headings[place.column - 1] ?? "")}
            text={writing.text ?? text}
            isReplacing={writing.text !== null}
            onKeep={(kept, next) => {
              if (kept !== text) desk.mend({ row, column: place.column - 1, text: kept, was: text });
              props.onWritten(
                next ? { row: place.row, column: Math.min(place.column + 1, table.headings.length) } : null,
              );
            }}
            onDrop={() => props.onWritten(null)}
          />
        ),
      };
    }
    return {
      title: said.length > 0 ? said.join("\n") : text,
      className: `${isWrong ? "wrong" : problems.length > 0 ? "questioned" : ""} ${mended === undefined ? "" : "mended"}`,
      content: (
        <>
          <span className="cell-text">
            {text === "" ? (
              problems.length > 0 && <i className="small">{words.emptyCell}</i>
            ) : place.row < 0 ? (
              <Heading text={text} />
            ) : (
              <Name text={text} />
            )}
            {problems.length > 0 && (
              <span className="question-mark" aria-hidden="true">
                {isWrong ? "!" : "?"}
              </span>
            )}
          </span>
          {isLeftOut && <span className="small"> {words.leftOut}</span>}
          {said.length > 0 && <span className="visually-hidden"> {said.join(". ")}</span>}
        </>
      ),
    };
  };

  const headingOf = (column: number) => shown({ row: -1, column });
  return (
    <DataGrid
      label={words.table(view.readingsFile)}
      columns={[
        { key: "row", heading: words.rowNumber, align: "number" },
        ...table.headings.map((text, index) => {
          const heading = headingOf(index + 1);
          return {
            key: String(index),
            heading: heading.content,
            title: heading.title,
            className: `${heading.className ?? ""} ${text.length > 10 ? "long-heading" : ""}`,
            align: "text" as const,
          };
        }),
      ]}
      rows={view.rows.length}
      rowKey={(row) => view.rows[row]?.row ?? row}
      rowClass={(row) => (view.rows[row]?.leftOut === true ? "left-out" : "")}
      cell={(row, column) => shown({ row, column })}
      place={props.place}
      onMove={props.onMove}
      onEnter={(place) => props.onWrite(place, null)}
      onType={(place, text) => props.onWrite(place, text)}
      isWriting={writing !== null}
      focusWish={props.focusWish}
    />
  );
}

/** A heading of the file; it may break behind its underlines. */
function Heading({ text }: { text: string }) {
  const words = text.slice(0, 200).split(/(?<=_)/);
  return (
    <bdi className="name">
      {words.map((word, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the words of a heading have no other name.
        <Fragment key={index}>
          {word}
          <wbr />
        </Fragment>
      ))}
    </bdi>
  );
}
