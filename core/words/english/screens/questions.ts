/** What lists of questions and their answers say. */
export const questions = {};
