import { useState } from "react";
import { Dialog } from "../../component/dialog.tsx";
import { Name } from "../../component/name.tsx";
import { useWords } from "../../state/language.tsx";
import type { RunsColumn } from "./grid-columns.ts";

const groups = ["run", "reading", "result", "runResult"] as const;

/** Which columns are shown. The first is always: it says which row it is. */
export function ColumnsDialog({
  columns,
  isShown,
  onShow,
  onAsAtFirst,
  onClose,
}: {
  columns: readonly RunsColumn[];
  isShown: (column: RunsColumn) => boolean;
  onShow: (keys: readonly string[], isShown: boolean) => void;
  onAsAtFirst: () => void;
  onClose: () => void;
}) {
  const { grid: words } = useWords();
  const [wanted, setWanted] = useState("");
  const own = columns.filter(({ at }) => at !== null);
  const sought = wanted.trim().toLowerCase();
  const found = own.filter(({ heading }) => heading.toLowerCase().includes(sought));
  return (
    <Dialog className="columns-dialog" label={words.columnsTitle} onClose={onClose}>
      <div className="columns-head">
        <h2>{words.columnsTitle}</h2>
        <button type="button" className="act quiet" onClick={onClose}>
          {words.columnsDone}
        </button>
      </div>
      <div className="columns-tools">
        <label>
          <span className="small soft">{words.columnsFind}</span>
          <input
            type="search"
            className="field"
            dir="auto"
            value={wanted}
            onChange={(event) => setWanted(event.target.value)}
          />
        </label>
        <p className="soft small" role="status">
          {found.length === 0 ? words.columnsNone : words.columnsShown(own.filter(isShown).length, own.length)}
        </p>
        <button type="button" className="plain" onClick={onAsAtFirst}>
          {words.columnsAsAtFirst}
        </button>
      </div>
      {groups.map((group) => {
        const members = found.filter((column) => column.group === group);
        const keys = members.map(({ key }) => key);
        if (members.length === 0) return null;
        return (
          <fieldset key={group} className="columns-group">
            <legend>{words.group[group]}</legend>
            <p className="small columns-whole">
              <button
                type="button"
                className="plain"
                aria-label={words.columnsAllOf(words.group[group])}
                onClick={() => onShow(keys, true)}
              >
                {words.columnsAll}
              </button>{" "}
              <button
                type="button"
                className="plain"
                aria-label={words.columnsHideOf(words.group[group])}
                onClick={() => onShow(keys, false)}
              >
                {words.columnsNoneOf}
              </button>
            </p>
            <ul>
              {members.map((column) => (
                <li key={column.key}>
                  <label>
                    <input
                      type="checkbox"
                      checked={isShown(column)}
                      onChange={(event) => onShow([column.key], event.target.checked)}
                    />{" "}
                    <Name text={column.heading} />
                  </label>
                </li>
              ))}
            </ul>
          </fieldset>
        );
      })}
    </Dialog>
  );
}
