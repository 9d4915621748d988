import { useEffect, useId, useRef, useState } from "react";
import type { Refusal, SetUpFieldView, SetUpSectionView } from "../../../app/contract/index.ts";
import { Refused } from "../../component/refused.tsx";
import { useMakeEdit } from "../../state/change.ts";
import { isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";
import { SetUpInput } from "./set-up-cell.tsx";

/** A row that is being filled in: saved as one change with Enter, once all that is needed is there. */
export function SetUpNewRow({
  section,
  fields,
  columns,
  onDone,
}: {
  section: SetUpSectionView;
  fields: readonly SetUpFieldView[];
  columns: number;
  onDone: () => void;
}) {
  const words = useWords().setUp;
  const make = useMakeEdit();
  const [typed, setTyped] = useState<ReadonlyMap<string, string>>(new Map());
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  const row = useRef<HTMLTableRowElement>(null);
  const refusedId = useId();
  const inputOf = (field: string) => row.current?.querySelector<HTMLElement>(`[data-field="${CSS.escape(field)}"]`);
  const valueOfField = ({ field, choices }: SetUpFieldView) => typed.get(field) ?? choices?.[0]?.value ?? "";

  // biome-ignore lint/correctness/useExhaustiveDependencies: once, when the row appears.
  useEffect(() => {
    inputOf(fields[0]?.field ?? "")?.focus();
  }, []);

  const save = async (at: string | null) => {
    if (isBusy) return;
    const lacking = fields.find((field) => field.needed && valueOfField(field).trim() === "");
    if (lacking !== undefined && lacking.field !== at) {
      inputOf(lacking.field)?.focus();
      return;
    }
    const filled = fields.filter((field) => field.needed || valueOfField(field).trim() !== "");
    setIsBusy(true);
    const answer = await make({
      kind: "setUp",
      subject: section.subject,
      item: null,
      fields: filled.map((field) => ({ field: field.field, text: valueOfField(field), was: "" })),
    });
    setIsBusy(false);
    if (answer?.ok === true) onDone();
    else setRefusal(answer !== null && isRefusal(answer) ? answer : null);
  };

  return (
    <>
      <tr ref={row} className="set-up-new">
        {fields.map((field) => (
          <td key={field.field} className={field.kind === "number" ? "n" : undefined}>
            <SetUpInput
              field={field}
              label={words.cell(field.name, words.newRow)}
              value={valueOfField(field)}
              isChanged={typed.has(field.field)}
              isBusy={isBusy}
              canChange
              describedBy={refusal === null ? undefined : refusedId}
              onType={(text) => setTyped(new Map(typed).set(field.field, text))}
              onEnter={() => void save(field.field)}
              onEscape={onDone}
            />
          </td>
        ))}
        <td>
          <button type="button" className="act quiet" aria-busy={isBusy} onClick={() => void save(null)}>
            {words.save}
          </button>
        </td>
        <td>
          <button type="button" className="plain small" onClick={onDone}>
            {words.cancel}
          </button>
        </td>
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
