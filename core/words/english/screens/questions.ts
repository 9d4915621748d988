/** What lists of questions and their answers say. */
export const questions = {
  gone: "This question is not asked any more: the reading was changed meanwhile. Look at the questions again.",
  isOpen: "This question is open already.",
};
