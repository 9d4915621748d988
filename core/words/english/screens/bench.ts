/** What the Bench says. */
export const bench = {};
