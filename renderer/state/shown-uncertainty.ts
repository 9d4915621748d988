import { useCallback, useState } from "react";

const place = (study: string) => `boilbench.uncertainty.${study}`;

function recall(study: string | null): boolean {
  try {
    return study === null || localStorage.getItem(place(study)) !== "hidden";
  } catch {
    return true;
  }
}

/** Whether results are shown with their uncertainty: so at first; what a person chose is kept on this machine, for each study. */
export function useShownUncertainty(study: string | null) {
  const [kept, setKept] = useState(() => ({ study, isShown: recall(study) }));
  // Another study was opened in this window.
  const of = kept.study === study ? kept : { study, isShown: recall(study) };
  if (of !== kept) setKept(of);
  const show = useCallback(
    (isShown: boolean) => {
      setKept({ study, isShown });
      try {
        if (study === null) return;
        if (isShown) localStorage.removeItem(place(study));
        else localStorage.setItem(place(study), "hidden");
      } catch {
        // Where nothing can be kept the choice holds until the page is loaded again.
      }
    },
    [study],
  );
  return { isShown: of.isShown, show };
}
