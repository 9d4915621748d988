/** Sentences about bad or odd input: what is wrong, and what to do. */
export const problems = {};
