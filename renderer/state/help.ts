import { createContext, use } from "react";

/** Opens the help; at one quantity, if its name is given. */
export type OpenHelp = (about: string | null) => void;

export const HelpContext = createContext<OpenHelp>(() => {});

export function useHelp(): OpenHelp {
  return use(HelpContext);
}
