import { shortened } from "./name.tsx";

export interface PickOption {
  readonly value: string;
  readonly label: string;
  /** Options of one group stand together under its name. */
  readonly group?: string;
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
        {groupsOf(options).map(([group, members]) =>
          group === undefined ? (
            <Options key="" options={members} />
          ) : (
            <optgroup key={group} label={group}>
              <Options options={members} />
            </optgroup>
          ),
        )}
      </select>
    </span>
  );
}

function Options({ options }: { options: readonly PickOption[] }) {
  return options.map((option) => (
    <option key={option.value} value={option.value} dir="auto">
      {shortened(option.label)}
    </option>
  ));
}

function groupsOf(options: readonly PickOption[]): [string | undefined, PickOption[]][] {
  const groups = new Map<string | undefined, PickOption[]>();
  for (const option of options) groups.set(option.group, [...(groups.get(option.group) ?? []), option]);
  return [...groups];
}
