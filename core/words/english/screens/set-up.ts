/** The setting up of a study, on the Study page. */
export const setUp = {
  title: "Set up",
  lead: "What is tested, with what and where. Each cell is changed in its place: Enter saves, Escape takes back, Tab goes on.",
  readOnly: "Nothing can be changed now: the notice above says why.",

  firstTitle: "The first run",
  firstLead:
    "A run needs the name of the variant that is tested, and nothing else. The rest can be set up before or after.",
  firstVariant: "What is this form of the stove called?",
  firstExample: "for example: without skirt",
  firstAdd: "Add it",
  firstNameNeeded: "Give it a name first.",
  toBench: "Begin a run on the Bench",

  /** A table of it, told from others of the page. */
  partOf: (title: string) => `Set up: ${title}`,
  /** A cell's name: its column and its row. */
  cell: (field: string, row: string) => `${field}, ${row}`,
  newRow: "new",
  unit: (unit: string) => `(${unit})`,
  columns: { item: "for", detail: "what it comes to", keys: "changes" },
  remove: "Remove",
  removeOf: (row: string) => `Remove ${row}`,
  save: "Save",
  cancel: "Cancel",
  none: "None yet.",
  /** From a question to what it is about. */
  lookAt: "Look at it under Set up",
  /** In front of names of columns that can be added. */
  addFieldLead: "Add a design factor:",
  otherFactor: "another one",
  factorName: "Name of the design factor",
  addFactor: "Add",
  addFactorOf: (factor: string) => `Add the design factor ${factor}`,
  factorNeeded: "Give the factor a name.",
  factorHelp:
    "A design factor: what is changed between variants. Its name holds the unit (“gap mm”); its level is a number or a word. Comparisons and the report tell variants apart by it.",
  catalogue: "Take over from the table",
  catalogueOf: (title: string) => `Take over from the table: ${title}`,
  takeOver: "Take over",
  takeOverOf: (name: string) => `Take over ${name}`,
  source: "source",
  whatIs: (field: string) => `What is “${field}”?`,
  helpTitle: (section: string) => `${section}: what the columns are`,
  close: "Close",
  notSaved: "Not saved.",
};
