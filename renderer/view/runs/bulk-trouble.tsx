import { useEffect, useId, useRef } from "react";
import type { RefusedCell } from "../../../app/contract/index.ts";
import { FullName, shortened } from "../../component/name.tsx";
import { type Bulk, type BulkCell, type BulkDesk, bulkKey } from "../../state/grid-bulk.ts";
import { useWords } from "../../state/language.tsx";

/** So many cells are listed; the others follow when these are mended. */
const listed = 50;

/** What was pasted, filled down or emptied and is not done: which cells do not fit and why, and how to go on. */
export function BulkTrouble({
  bulk,
  desk,
  onGo,
  onDone,
}: {
  bulk: Bulk;
  desk: BulkDesk;
  onGo: (cell: RefusedCell) => void;
  onDone: () => void;
}) {
  const words = useWords();
  const { grid } = words;
  const section = useRef<HTMLElement>(null);
  const wrong = bulk.cells.filter(({ trouble }) => trouble !== null);
  // A cell that was mended stays in the list until all is tried again: what is pressed next does not move away.
  const told = bulk.cells.filter(({ trouble, isMended }) => trouble !== null || isMended === true);
  const outside = new Set(bulk.others.map(({ run }) => run));
  // What does not fit together with cells that stay goes out run by run.
  const unfit = bulk.cells.filter(({ trouble, run }) => trouble !== null || outside.has(run));
  const rest = bulk.cells.length - unfit.length;
  const count = wrong.length + bulk.others.length;
  const isBusy = bulk.status === "asking";
  const isTold = bulk.status === "refused" && bulk.refusal !== null;
  // It stands below the grid: on a small screen below the edge.
  useEffect(() => {
    if (isTold) section.current?.scrollIntoView?.({ block: "nearest" });
  }, [isTold]);
  const finish = (done: boolean) => {
    if (done) onDone();
  };
  if (bulk.status === "ready" || (isBusy && wrong.length === 0)) return null;
  const title = count > 0 ? grid.bulkRefused(bulk.way, count) : grid.bulkStopped[bulk.way];
  return (
    <section ref={section} className="bulk-trouble" aria-label={title}>
      <div role="alert">
        <h2>{title}</h2>
        {bulk.status === "unheard" && <p>{grid.bulkUnheard}</p>}
        {bulk.status === "kept" && <p>{grid.bulkKept}</p>}
        {bulk.status === "nameless" && <p>{grid.bulkNameless}</p>}
        {bulk.refusal !== null && count === 0 && (
          <p>
            <FullName text={bulk.refusal.message} />
          </p>
        )}
      </div>
      <p className="soft">{count > 0 ? grid.bulkLead : grid.bulkOf(bulk.cells.length)}</p>
      {told.length + bulk.others.length > 0 && (
        <ul className="marks bulk-cells">
          {told.slice(0, listed).map((cell) => (
            <WrongCell key={bulkKey(cell)} cell={cell} desk={desk} onGo={onGo} />
          ))}
          {bulk.others.slice(0, listed).map((cell) => (
            <OtherCell
              key={JSON.stringify([cell.run, cell.phase, cell.column, cell.message])}
              cell={cell}
              name={bulk.cells.find(({ run }) => run === cell.run)?.name ?? words.dash}
              onGo={onGo}
            />
          ))}
          {told.length > listed && <li className="soft">{grid.bulkMore(told.length - listed)}</li>}
        </ul>
      )}
      <div className="acts">
        <button type="button" className="act" aria-busy={isBusy} onClick={() => void desk.again().then(finish)}>
          {grid.bulkAgain}
        </button>
        {count > 0 && rest > 0 && (
          <button
            type="button"
            className="act quiet"
            onClick={() => {
              desk.leaveOut(unfit);
              void desk.again().then(finish);
            }}
          >
            {grid.bulkRest(unfit.length, rest)}
          </button>
        )}
        <button
          type="button"
          className="plain"
          onClick={() => {
            desk.drop();
            onDone();
          }}
        >
          {grid.bulkDrop}
        </button>
      </div>
    </section>
  );
}

function WrongCell({ cell, desk, onGo }: { cell: BulkCell; desk: BulkDesk; onGo: (cell: RefusedCell) => void }) {
  const words = useWords();
  const { grid } = words;
  const id = useId();
  const place = words.changes.field(
    shortened(cell.name),
    cell.phase === null ? null : words.phase(cell.phase),
    words.reading(cell.column),
  );
  return (
    <li className="mark">
      <b>{place}</b>
      <p id={id}>
        <FullName text={cell.trouble ?? grid.bulkMended} />
      </p>
      <div className="acts">
        <input
          className="field bulk-mend"
          aria-label={grid.bulkMend(place)}
          aria-describedby={id}
          aria-invalid={cell.trouble !== null}
          autoComplete="off"
          dir="auto"
          maxLength={10_000}
          defaultValue={cell.text}
          onBlur={(event) => {
            if (event.target.value !== cell.text) desk.mend(cell, event.target.value);
          }}
          onKeyDown={(event) => {
            if (event.key !== "Enter") return;
            event.preventDefault();
            if (event.currentTarget.value !== cell.text) desk.mend(cell, event.currentTarget.value);
            void desk.again();
          }}
        />
        <button
          type="button"
          className="plain"
          aria-label={grid.goToOf(place)}
          onClick={() => onGo({ ...cell, message: "" })}
        >
          {grid.goTo}
        </button>
        <button
          type="button"
          className="plain"
          aria-label={grid.bulkLeaveOutOf(place)}
          onClick={() => desk.leaveOut([cell])}
        >
          {grid.bulkLeaveOut}
        </button>
      </div>
    </li>
  );
}

/** A cell that was not to be changed, but does not fit with those that were. */
function OtherCell({ cell, name, onGo }: { cell: RefusedCell; name: string; onGo: (cell: RefusedCell) => void }) {
  const words = useWords();
  const place = words.changes.field(
    shortened(name),
    cell.phase === null ? null : words.phase(cell.phase),
    words.reading(cell.column),
  );
  return (
    <li className="mark">
      <b>{place}</b>
      <p>
        <FullName text={cell.message} />
      </p>
      <button type="button" className="plain" aria-label={words.grid.goToOf(place)} onClick={() => onGo(cell)}>
        {words.grid.goTo}
      </button>
    </li>
  );
}
