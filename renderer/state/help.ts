import { createContext, use } from "react";

/** What is said of a field that is filled in. */
export interface FieldHelpView {
  readonly name: string;
  readonly what: string;
  readonly how: string;
  readonly feeds: string;
}

/** Opens the help; at one quantity, if its name is given, or with what is said of a field. */
export type OpenHelp = (about: string | null, field?: FieldHelpView) => void;

export const HelpContext = createContext<OpenHelp>(() => {});

export function useHelp(): OpenHelp {
  return use(HelpContext);
}
