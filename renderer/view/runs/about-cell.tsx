import type { RunView } from "../../../app/contract/index.ts";
import type { GridPlace } from "../../component/grid-place.ts";
import { FullName } from "../../component/name.tsx";
import { VariantMark } from "../../component/variant-mark.tsx";
import { useWords } from "../../state/language.tsx";
import type { RunsColumn } from "./runs-table.ts";

/** Everything that is known about the cell that is pointed at: the whole text, why it is missing, what is odd about it. */
export function AboutCell({
  place,
  columns,
  runs,
}: {
  place: GridPlace;
  columns: readonly RunsColumn[];
  runs: readonly RunView[];
}) {
  const words = useWords().runs;
  const column = columns[place.column];
  const run = runs[place.row];
  return (
    <section className="about-cell" aria-label={words.details}>
      {column === undefined ? (
        <p className="soft">{words.detailsEmpty}</p>
      ) : (
        <>
          {run !== undefined && <AboutRunCell run={run} column={column} />}
          <AboutColumn column={column} isHeading={run === undefined} />
        </>
      )}
    </section>
  );
}

function AboutRunCell({ run, column }: { run: RunView; column: RunsColumn }) {
  const { runs: words, separator } = useWords();
  const cell = column.cell(run);
  return (
    <>
      <h2>
        <FullName text={run.run} />
        {column.key !== "run" && (
          <>
            {separator}
            {column.heading}
            {separator}
            {cell.missing === null ? (
              <FullName text={cell.text} />
            ) : (
              <span className="soft">{words.missing(cell.missing)}</span>
            )}
          </>
        )}
      </h2>
      {column.key === "run" && (
        <p className="variant-name">
          <VariantMark index={run.variantIndex} /> <FullName text={run.variant} />
        </p>
      )}
      {run.leftOut !== null && (
        <p>
          <FullName text={words.leftOut(run.leftOut)} />
        </p>
      )}
      {cell.questions.map((question) => (
        <p className="mark" key={question}>
          <b>{words.question}.</b> <FullName text={question} />
        </p>
      ))}
      {column.key === "run" &&
        run.notes.map((note) => (
          <p className="soft" key={note}>
            <FullName text={note} />
          </p>
        ))}
    </>
  );
}

function AboutColumn({ column, isHeading }: { column: RunsColumn; isHeading: boolean }) {
  const { runs: words, compare } = useWords();
  const { quantity } = column;
  return (
    <div className="soft">
      {isHeading && <h2>{column.heading}</h2>}
      {quantity !== null && (
        <>
          <p className="prose">{quantity.meaning}</p>
          <p>
            <span className="formula">{quantity.formula}</span>
          </p>
          {column.formulaOnly && <p>{compare.formulaOnlyMeaning}</p>}
        </>
      )}
      {column.reading !== null && column.reading !== column.heading && (
        <p className="small">
          {words.heading}: <code>{column.reading}</code>
        </p>
      )}
    </div>
  );
}
