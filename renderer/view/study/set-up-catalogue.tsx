import { useState } from "react";
import type { Refusal, SetUpCatalogueView } from "../../../app/contract/index.ts";
import { Refused } from "../../component/refused.tsx";
import { useMakeEdit } from "../../state/change.ts";
import { isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";
import type { SetUpEdit } from "./set-up-fields.ts";

type Entry = SetUpCatalogueView["entries"][number];

const classes = { number: "n", text: undefined, sentence: "set-up-long" } as const;

/** What can be taken over with one key, each with its source. */
export function SetUpCatalogue({
  subject,
  title,
  catalogue,
}: {
  subject: SetUpEdit["subject"];
  title: string;
  catalogue: SetUpCatalogueView;
}) {
  const words = useWords().setUp;
  const make = useMakeEdit();
  const [busy, setBusy] = useState<string | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);

  const take = async ({ label, item, fields }: Entry) => {
    if (busy !== null) return;
    setBusy(label);
    const answer = await make({
      kind: "setUp",
      subject,
      item,
      fields: fields.map(({ field, text }) => ({ field, text, was: "" })),
    });
    setBusy(null);
    setRefusal(answer !== null && isRefusal(answer) ? answer : null);
  };

  return (
    <details className="set-up-catalogue">
      <summary>{words.catalogue}</summary>
      {refusal !== null && <Refused refusal={refusal} title={words.notSaved} />}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard. */}
      <section className="wide" tabIndex={0} aria-label={words.catalogueOf(title)}>
        <table>
          <thead>
            <tr>
              {catalogue.columns.map(({ name, unit, kind }) => (
                <th key={name} scope="col" className={classes[kind]}>
                  {name} {unit !== null && words.unit(unit)}
                </th>
              ))}
              <th scope="col">
                <span className="visually-hidden">{words.columns.keys}</span>
              </th>
              <th scope="col">{words.source}</th>
            </tr>
          </thead>
          <tbody>
            {catalogue.entries.map((entry) => (
              <tr key={entry.label}>
                {catalogue.columns.map(({ name, kind }, index) => (
                  <td key={name} className={classes[kind]}>
                    {entry.cells[index]}
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
