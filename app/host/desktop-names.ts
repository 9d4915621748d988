/** Names that the desktop window's two sides share. */

/** The page's own scheme and origin: never file://. */
export const pageScheme = "boilbench";
export const pageOrigin = "boilbench://app";

/** The one channel on which the page asks the main process. */
export const askChannel = "boilbench:ask";

/** On which the menu tells the page of the window in use to undo or to do again. */
export const stepChannel = "boilbench:step";
export type MenuStep = "undo" | "redo";
