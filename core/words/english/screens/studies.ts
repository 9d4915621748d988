/** The Studies page, and the name under which somebody writes. */
export const studies = {
  tab: "Studies",
  title: "Which study?",
  list: "Studies that can be opened",
  none: "There is no study here yet: begin one, open the example, or drop a study file here.",
  recent: "opened here before",
  inFolder: "in the studies folder",
  gone: "It is not there any more. Was it moved, or is its drive not connected?",
  isOpen: "open in this window",
  notOpened: "It could not be opened.",
  open: (name: string) => `Open “${name}”`,
  folder: (folder: string) => `New studies are put into ${folder}`,
  opened: (name: string) => `“${name}” is open.`,
  refresh: "Look again",

  newTitle: "Begin a study",
  newName: "Name of the new study",
  nameNeeded: "Give the study a name first.",
  method: "Method",
  begin: "Begin it",
  created: (name: string) => `“${name}” was begun. Everything that is changed in it is saved as it is made.`,

  exampleTitle: "Try the example",
  exampleLead: "An invented study to play with. Each time it is a fresh copy: nothing can go wrong.",

  fileTitle: "Bring a study file",
  fileLead:
    "A file with the ending “.boilstudy”. A copy of it is put into the studies folder; the file itself stays as it is.",
  pick: "Pick a study file",
  pickOrDrop: "or drop it anywhere on this window.",
  reading: "Reading the file…",
  tooLarge: (name: string, limit: string) =>
    `${name} is larger than ${limit}. Put it into the studies folder by hand; then it is in the list here.`,
  limit: "16 MiB",
  unreadable: (name: string) => `${name} could not be read from the disk. Is it still there, and not open elsewhere?`,
  oneAtATime: "Bring one study file at a time, with no other files.",

  gonePage: "This study is not open.",
  toStudies: "Choose a study",
  readOnly: "This study cannot be changed now.",
  openAnew: "Open it anew",
  stillReadOnly: "It still cannot be changed.",
  writable: "It can be changed now.",

  who: "Who is writing?",
  whoName: "Name for the record",
  whoLead: "Each change is recorded with this name. It is recorded, not checked.",
  whoNeeded: "Say who is writing first.",
  whoEarlier: "Earlier names",
  whoTake: "Write under this name",
  whoCancel: "Not now",
  whoNow: (name: string) => `Changes are recorded under “${name}” from now on.`,
};
