import { useState } from "react";
import type { Refusal, SetUpSectionView } from "../../../app/contract/index.ts";
import { Refused } from "../../component/refused.tsx";
import { useMakeEdit } from "../../state/change.ts";
import { isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";

type Entry = SetUpSectionView["catalogue"][number];

/** What can be taken over with one key, each with its source. */
export function SetUpCatalogue({ section }: { section: SetUpSectionView }) {
  const words = useWords().setUp;
  const make = useMakeEdit();
  const [busy, setBusy] = useState<string | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  // Its source has a column of its own, behind the others.
  const shown = section.fields.flatMap((field, index) => (field.field === "source" ? [] : [{ field, index }]));

  const take = async ({ label, texts }: Entry) => {
    if (busy !== null) return;
    setBusy(label);
    const fields = section.fields.flatMap(({ field }, index) => {
      const text = texts[index] ?? "";
      return text === "" ? [] : [{ field, text, was: "" }];
    });
    const answer = await make({ kind: "setUp", subject: section.subject, item: null, fields });
    setBusy(null);
    setRefusal(answer !== null && isRefusal(answer) ? answer : null);
  };

  return (
    <details className="set-up-catalogue">
      <summary>{words.catalogue}</summary>
      {refusal !== null && <Refused refusal={refusal} title={words.notSaved} />}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard. */}
      <section className="wide" tabIndex={0} aria-label={words.catalogue}>
        <table>
          <thead>
            <tr>
              {shown.map(({ field }) => (
                <th key={field.field} scope="col" className={field.kind === "number" ? "n" : undefined}>
                  {field.name} {field.unit !== null && words.unit(field.unit)}
                </th>
              ))}
              <th scope="col">
                <span className="visually-hidden">{words.columns.keys}</span>
              </th>
              <th scope="col">{words.source}</th>
            </tr>
          </thead>
          <tbody>
            {section.catalogue.map((entry) => (
              <tr key={entry.label}>
                {shown.map(({ field, index }) => (
                  <td key={field.field} className={field.kind === "number" ? "n" : undefined}>
                    {field.choices?.find(({ value }) => value === entry.texts[index])?.label ?? entry.texts[index]}
                  </td>
                ))}
                <td>
                  <button
                    type="button"
                    className="plain"
                    aria-label={words.takeOverOf(entry.label)}
                    aria-busy={busy === entry.label}
                    onClick={() => void take(entry)}
                  >
                    {words.takeOver}
                  </button>
                </td>
                <td className="soft small set-up-detail">{entry.source}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </details>
  );
}
