import { shortened } from "./name.tsx";

export interface PickOption {
  readonly value: string;
  readonly label: string;
}

/** A word of a sentence that can be changed: the platform's own list behind it. */
export function Pick({
  label,
  value,
  options,
  onPick,
}: {
  label: string;
  value: string;
  options: readonly PickOption[];
  onPick: (value: string) => void;
}) {
  return (
    <span className="pick-word">
      <select
        className="pick"
        aria-label={label}
        value={value}
        title={options.find((option) => option.value === value)?.label}
        onChange={(event) => onPick(event.target.value)}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value} dir="auto">
            {shortened(option.label)}
          </option>
        ))}
      </select>
    </span>
  );
}
