/** What the setting up of a study says. */
export const setUp = {};
