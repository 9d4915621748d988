import { useRef, useState } from "react";
import type { SetUpFieldView, SetUpSectionView } from "../../../app/contract/index.ts";
import { useWords } from "../../state/language.tsx";
import { SetUpFactors } from "./set-up-factors.tsx";
import { addedField } from "./set-up-fields.ts";
import { SetUpHelp } from "./set-up-help.tsx";
import { SetUpNewRow } from "./set-up-new-row.tsx";
import { SetUpRow } from "./set-up-row.tsx";

/** A quiet table, filled in where it stands. */
export function SetUpTable({ section, canChange }: { section: SetUpSectionView; canChange: boolean }) {
  const words = useWords().setUp;
  const [isAdding, setIsAdding] = useState(false);
  const [added, setAdded] = useState<readonly string[]>([]);
  const [about, setAbout] = useState<string | null>(null);
  const adder = useRef<HTMLButtonElement>(null);
  const known = new Set(section.fields.map(({ field }) => field));
  const fields: readonly SetUpFieldView[] = [
    ...section.fields,
    ...added.map((factor) => addedField(factor, words.factorHelp)).filter(({ field }) => !known.has(field)),
  ];
  const hasTitles = section.items.some(({ title }) => title !== null);
  const hasKeys = section.add !== null || section.items.some(({ isRemovable }) => isRemovable);
  const columns = fields.length + (hasTitles ? 1 : 0) + (hasKeys ? 2 : 1);

  const done = () => {
    setIsAdding(false);
    setTimeout(() => adder.current?.focus());
  };

  return (
    <>
      {section.items.length === 0 && !isAdding && <p className="soft">{words.none}</p>}
      {(section.items.length > 0 || isAdding) && (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard.
        <section className="wide" tabIndex={0} aria-label={words.partOf(section.title)}>
          <table>
            <thead>
              <tr>
                {hasTitles && <th scope="col">{words.columns.item}</th>}
                {fields.map((field) => (
                  <th key={field.field} scope="col" className={field.kind === "number" ? "n" : undefined}>
                    <bdi>{field.name}</bdi> {field.unit !== null && <span>{words.unit(field.unit)}</span>}{" "}
                    <button
                      type="button"
                      className="set-up-what"
                      aria-label={words.whatIs(field.name)}
                      onClick={() => setAbout(field.field)}
                    >
                      ?
                    </button>
                  </th>
                ))}
                <th scope="col">{words.columns.detail}</th>
                {hasKeys && (
                  <th scope="col">
                    <span className="visually-hidden">{words.columns.keys}</span>
                  </th>
                )}
              </tr>
            </thead>
            <tbody>
              {section.items.map((item) => (
                <SetUpRow
                  key={item.item ?? ""}
                  section={section}
                  item={item}
                  fields={fields}
                  columns={columns}
                  hasTitles={hasTitles}
                  hasKeys={hasKeys}
                  canChange={canChange}
                />
              ))}
              {isAdding && <SetUpNewRow section={section} fields={fields} columns={columns} onDone={done} />}
            </tbody>
          </table>
        </section>
      )}
      {canChange && section.add !== null && !isAdding && (
        <div className="acts">
          <button ref={adder} type="button" className="act quiet" onClick={() => setIsAdding(true)}>
            {section.add}
          </button>
        </div>
      )}
      {canChange && section.addField !== null && (
        <SetUpFactors
          suggestions={section.fieldSuggestions.filter((one) => !added.includes(one))}
          onAdd={(factor) => setAdded([...added, factor])}
        />
      )}
      {about !== null && (
        <SetUpHelp title={section.title} fields={fields} about={about} onClose={() => setAbout(null)} />
      )}
    </>
  );
}
