/** Largest file that is read, bytes. */
export const largestFile = 16 * 1024 * 1024;
/** Longest cell, characters (UTF-16 units). */
export const longestCell = 10_000;
/** Most cells in a row. */
export const mostColumns = 1_000;
/** Most rows, blank ones and the heading counted. */
export const mostRows = 200_000;
/** Most problems of one file that are listed: beyond it, it is not a readings file. */
export const mostProblems = 100_000;
