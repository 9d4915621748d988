import type { ImportView } from "../../../app/contract/index.ts";
import type { Problem } from "../../../core/index.ts";
import type { GridPlace } from "../../component/grid-place.ts";
import { useWords } from "../../state/language.tsx";
import type { FileTable } from "./file-table.ts";

/** Most problems that are listed at once; stepping reaches all. */
const listed = 200;

/** All problems in order of row. Each leads to its cell; next and previous go on from the cell where the focus is. */
export function ProblemList({
  view,
  table,
  place,
  onGo,
}: {
  view: ImportView;
  table: FileTable;
  place: GridPlace;
  onGo: (place: GridPlace) => void;
}) {
  const { importing: words, separator } = useWords();
  const placed = view.problems
    .map((problem) => ({ problem, place: table.placeOf(problem) }))
    .filter((one): one is { problem: Problem; place: GridPlace } => one.place !== null);
  const at = placed.findIndex((one) => one.place.row === place.row && one.place.column === place.column);
  const errors = view.problems.filter((problem) => problem.severity === "error").length;
  const step = (by: 1 | -1) => {
    const from =
      at >= 0 ? at : by > 0 ? placed.findIndex((one) => isAfter(one.place, place)) - 1 : lastBefore(placed, place) + 1;
    const next = placed[(Math.max(-1, from) + by + placed.length) % placed.length];
    if (next !== undefined) onGo(next.place);
  };
  return (
    <section className="problems">
      <h2>{words.problems}</h2>
      <p role="status">
        {view.problems.length === 0
          ? words.noProblems
          : [words.errors(errors), words.questions(view.problems.length - errors)].join(separator)}
      </p>
      {placed.length > 0 && (
        <div className="acts">
          <button type="button" className="act quiet" onClick={() => step(-1)}>
            {words.previous}
          </button>
          <button type="button" className="act quiet" onClick={() => step(1)}>
            {words.next}
          </button>
          {at >= 0 && <span className="soft small">{words.step(at + 1, placed.length)}</span>}
        </div>
      )}
      <ol className="problem-list">
        {placed.slice(0, listed).map(({ problem, place: where }, index) => (
          <li key={`${problem.rule}:${problem.row}:${problem.column}:${problem.message}`}>
            <button type="button" aria-current={index === at ? "true" : undefined} onClick={() => onGo(where)}>
              <b className={problem.severity === "error" ? "error-word" : "question-word"}>
                {problem.severity === "error" ? words.error : words.question}
              </b>
              {separator}
              {words.place(problem.row, problem.column)}
              <span className="soft problem-message">{problem.message}</span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}

const isAfter = (one: GridPlace, other: GridPlace) =>
  one.row > other.row || (one.row === other.row && one.column > other.column);

function lastBefore(placed: readonly { place: GridPlace }[], place: GridPlace): number {
  return placed.findLastIndex((one) => isAfter(place, one.place));
}
