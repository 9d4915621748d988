import { useId } from "react";
import { useWords } from "../state/language.tsx";
import { Name } from "./name.tsx";

/** Earlier names that can be taken with one press; the field proposes all of them. */
const mostPicks = 6;

/** The name for the record: typed, or picked from those who wrote before. */
export function WhoField({
  value,
  names,
  isLacking,
  onChange,
}: {
  value: string;
  names: readonly string[];
  isLacking: boolean;
  onChange: (name: string) => void;
}) {
  const words = useWords().studies;
  const id = useId();
  return (
    <div className="who-field">
      <label>
        <span>{words.whoName}</span>
        <input
          className="field"
          name="who"
          value={value}
          maxLength={200}
          list={id}
          autoComplete="off"
          aria-invalid={isLacking}
          aria-describedby={`${id}-lead`}
          onChange={(event) => onChange(event.target.value)}
        />
      </label>
      <datalist id={id}>
        {names.map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
      <p className="soft small" id={`${id}-lead`}>
        {words.whoLead}
      </p>
      {isLacking && (
        <p className="mark" role="alert">
          {words.whoNeeded}
        </p>
      )}
      {names.length > 0 && (
        // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out as a line of words.
        <div className="picks" role="group" aria-label={words.whoEarlier}>
          {names.slice(0, mostPicks).map((name) => (
            <button
              key={name}
              type="button"
              className="pick-name"
              aria-pressed={name === value.trim()}
              onClick={() => onChange(name)}
            >
              <Name text={name} />
            </button>
          ))}
        </div>
      )}
    </div>
  );
}
