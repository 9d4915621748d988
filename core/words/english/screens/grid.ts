/** What the grid of readings and results says. */
export const grid = {};
