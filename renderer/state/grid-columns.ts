import { useCallback, useState } from "react";

/** What a person chose about columns: the others are as at first. */
export interface ColumnChoice {
  readonly shown: readonly string[];
  readonly hidden: readonly string[];
}

export const noColumnChoice: ColumnChoice = { shown: [], hidden: [] };

const place = (study: string) => `boilbench.columns.${study}`;

function recall(study: string | null): ColumnChoice {
  try {
    const kept =
      study === null ? null : (JSON.parse(localStorage.getItem(place(study)) ?? "null") as ColumnChoice | null);
    return Array.isArray(kept?.shown) && Array.isArray(kept.hidden) ? kept : noColumnChoice;
  } catch {
    return noColumnChoice;
  }
}

function remember(study: string, choice: ColumnChoice): void {
  try {
    if (choice.shown.length + choice.hidden.length === 0) localStorage.removeItem(place(study));
    else localStorage.setItem(place(study), JSON.stringify(choice));
  } catch {
    // Where nothing can be kept the choice holds until the page is loaded again.
  }
}

/** A choice with some columns shown or hidden. */
export function withColumns(choice: ColumnChoice, keys: readonly string[], isShown: boolean): ColumnChoice {
  const others = (list: readonly string[]) => list.filter((key) => !keys.includes(key));
  return {
    shown: [...others(choice.shown), ...(isShown ? keys : [])],
    hidden: [...others(choice.hidden), ...(isShown ? [] : keys)],
  };
}

export const isColumnShown = (choice: ColumnChoice, key: string, atFirst: boolean): boolean =>
  choice.hidden.includes(key) ? false : choice.shown.includes(key) || atFirst;

/** Which columns of a study are shown: kept on this machine, for each study. */
export function useColumnChoice(study: string | null) {
  const [kept, setKept] = useState(() => ({ study, choice: recall(study) }));
  // Another study was opened in this window.
  const of = kept.study === study ? kept : { study, choice: recall(study) };
  if (of !== kept) setKept(of);
  const show = useCallback(
    (keys: readonly string[], isShown: boolean) =>
      setKept((before) => {
        const choice = withColumns(before.choice, keys, isShown);
        if (before.study !== null) remember(before.study, choice);
        return { ...before, choice };
      }),
    [],
  );
  const asAtFirst = useCallback(
    () =>
      setKept((before) => {
        if (before.study !== null) remember(before.study, noColumnChoice);
        return { ...before, choice: noColumnChoice };
      }),
    [],
  );
  return { choice: of.choice, show, asAtFirst };
}
