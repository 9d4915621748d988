/** Capitals make no difference, nor how a letter with an accent is written. */
export const folded = (text: string): string => text.normalize("NFKC").toLowerCase();

/** A number as it is typed, whichever its decimal sign and minus, and with or without spaces between thousands. */
export const numeral = (text: string): string =>
  text.replaceAll(/\s/g, "").replaceAll(",", ".").replaceAll("\u2212", "-");
