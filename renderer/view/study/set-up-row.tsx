import { useId, useState } from "react";
import type { Refusal, SetUpFieldView, SetUpItemView, SetUpSectionView } from "../../../app/contract/index.ts";
import { FullName, shortened } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { useMakeEdit } from "../../state/change.ts";
import { isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";
import { SetUpCell } from "./set-up-cell.tsx";
import { rowName } from "./set-up-fields.ts";

/** One of what is set up: its cells, what it comes to, and the key that removes it. Under it, why something was not saved. */
export function SetUpRow({
  section,
  item,
  fields,
  columns,
  hasTitles,
  hasKeys,
  canChange,
}: {
  section: SetUpSectionView;
  item: SetUpItemView;
  fields: readonly SetUpFieldView[];
  columns: number;
  hasTitles: boolean;
  hasKeys: boolean;
  canChange: boolean;
}) {
  const words = useWords().setUp;
  const make = useMakeEdit();
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  const refusedId = useId();
  const name = rowName(item, section.fields);
  const row = { subject: section.subject, item: item.item, name, refusedId, onRefused: setRefusal };

  const remove = async () => {
    if (item.item === null || isBusy) return;
    setIsBusy(true);
    const answer = await make({ kind: "removeSetUp", subject: section.subject, item: item.item });
    setIsBusy(false);
    setRefusal(answer !== null && isRefusal(answer) ? answer : null);
  };

  return (
    <>
      <tr>
        {hasTitles && <th scope="row">{item.title}</th>}
        {fields.map((field) => (
          <td key={field.field} className={field.kind === "number" ? "n" : undefined}>
            <SetUpCell
              field={field}
              text={item.texts[section.fields.findIndex((one) => one.field === field.field)] ?? ""}
              row={row}
              canChange={canChange}
            />
          </td>
        ))}
        <td className="soft small set-up-detail">
          <FullName text={item.detail} />
        </td>
        {hasKeys && (
          <td>
            {item.isRemovable && canChange && (
              <button
                type="button"
                className="plain small"
                aria-label={words.removeOf(shortened(name))}
                aria-busy={isBusy}
                onClick={() => void remove()}
              >
                {words.remove}
              </button>
            )}
          </td>
        )}
      </tr>
      {refusal !== null && (
        <tr>
          <td colSpan={columns} id={refusedId}>
            <Refused refusal={refusal} title={words.notSaved} />
          </td>
        </tr>
      )}
    </>
  );
}
