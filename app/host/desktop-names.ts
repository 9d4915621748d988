/** Names that the desktop window's two sides share. */

/** The page's own scheme and origin: never file://. */
export const pageScheme = "boilbench";
export const pageOrigin = "boilbench://app";

/** The one channel between the page and the main process. */
export const askChannel = "boilbench:ask";
