import { useWords } from "../../state/language.tsx";

/** Of which form the sheet of a run is. */
export interface SheetForm {
  readonly pots: 1 | 2 | 3 | 4;
  readonly charAtHotStart: boolean;
  readonly emissions: boolean;
}

export function BenchFormFields({ form, onChange }: { form: SheetForm; onChange: (form: SheetForm) => void }) {
  const words = useWords().bench;
  return (
    <div className="bench-form-fields">
      <fieldset className="where-to bench-pots">
        <legend>{words.pots}</legend>
        {([1, 2, 3, 4] as const).map((pots) => (
          <label className="choice" key={pots}>
            <input type="radio" checked={form.pots === pots} onChange={() => onChange({ ...form, pots })} />
            <span>{pots}</span>
          </label>
        ))}
      </fieldset>
      <label className="choice">
        <input
          type="checkbox"
          checked={form.charAtHotStart}
          onChange={(event) => onChange({ ...form, charAtHotStart: event.target.checked })}
        />
        <span>{words.charAtHotStart}</span>
      </label>
      <label className="choice">
        <input
          type="checkbox"
          checked={form.emissions}
          onChange={(event) => onChange({ ...form, emissions: event.target.checked })}
        />
        <span>{words.emissions}</span>
      </label>
    </div>
  );
}
