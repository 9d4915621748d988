import { createContext, use } from "react";
import type { Refusal, StudyState, StudyView } from "../../app/contract/index.ts";

/** The study of this window as every screen sees it. */
export interface OpenStudy {
  /** Its name for the host; null until the host has told it. */
  readonly handle: string | null;
  /** With the newest that is known of its state. */
  readonly view: StudyView | null;
  /** Why it cannot be shown: it is not open any more. */
  readonly refusal: Refusal | null;
  /** What was asked about the study is asked again when this changes. */
  readonly stamp: string;
  /** A study was opened: this window shows its first page from now on. `said` is told to the person. */
  readonly opened: (view: StudyView, said: string) => void;
  /** The study of this window was opened anew: the page stays where it is. */
  readonly reopened: (view: StudyView, said: string) => void;
  /** A change of this window is on disk: other windows are told. */
  readonly edited: (state: StudyState, said: string) => void;
  /** Told to the person, quietly. */
  readonly tell: (said: string) => void;
  /** The state as it is known now, for what was begun before. */
  readonly now: () => StudyState | null;
}

export const StudyContext = createContext<OpenStudy>({
  handle: null,
  view: null,
  refusal: null,
  stamp: "",
  opened: () => {},
  reopened: () => {},
  edited: () => {},
  tell: () => {},
  now: () => null,
});

export function useStudy(): OpenStudy {
  return use(StudyContext);
}
