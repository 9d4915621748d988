import { createContext, use } from "react";
import type { StudyView } from "../../app/contract/index.ts";

/** The open study as every screen sees it. */
export interface OpenStudy {
  readonly view: StudyView | null;
  /** Counts the studies that were opened: what was asked about the last one is asked again. */
  readonly revision: number;
  /** Another study is open now; all screens start anew with it. `said` is told to the person. */
  readonly replaced: (said: string) => void;
}

export const StudyContext = createContext<OpenStudy>({ view: null, revision: 0, replaced: () => {} });

export function useStudy(): OpenStudy {
  return use(StudyContext);
}
