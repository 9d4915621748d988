/** Languages in which the catalogue exists. */
export type Locale = "en";

export const defaultLocale: Locale = "en";
