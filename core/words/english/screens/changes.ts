import { count } from "./count.ts";

/** Changing what is recorded: a cell, a run, the study; their history, and backups. */
export const changes = {
  saving: "saving…",
  saved: "saved",
  notSaved: "Not saved.",
  unheard: "Not confirmed yet: the program does not answer. It goes on when you try again.",
  needsName: "Not saved yet: say who is writing, then press Enter.",
  why: "Why (if you like)",
  save: "Save",
  restore: "Put back",
  fieldKeys: "Enter saves · Escape puts back what was there",
  /** Name of the field of a cell. */
  field: (run: string, phase: string | null, column: string) =>
    [run, ...(phase === null ? [] : [phase]), column].join(", "),
  meanwhile: (text: string) =>
    text === "" ? "Meanwhile it was emptied by somebody else." : `Meanwhile somebody else made it “${text}”.`,
  keepTheirs: "Keep what is there",
  putMine: "Put mine in its place",
  computed: "This is worked out from the readings: it changes when they do, and cannot be changed itself.",
  noPhase: "This run has no such phase, so there is nothing to change here.",
  readOnly: "This cannot be changed now: the top of the page says why.",

  unsavedTitle: "Not saved yet",
  unsaved: (place: string, text: string) => `${place}: “${text}”`,
  toUnsaved: "Go to it",
  drop: "Drop it",

  history: "History of this cell",
  noHistory: "Nothing was changed here since it came into the study.",
  fromTo: (before: string, after: string) => `${before} → ${after}`,
  empty: "empty",
  putBack: (text: string) => `Write “${text}” again`,
  way: { undo: "undone", redo: "done again" },

  run: "This run",
  leaveOut: "Leave this run out",
  leaveOutReason: "Reason for leaving it out",
  bringBack: "Bring this run back",
  bringBackReason: "Reason for bringing it back",
  reasonNeeded: "Give the reason first.",
  cancel: "Cancel",

  rename: "Rename",
  renameLabel: "Name of this study",

  file: "The study file",
  savedAsMade: "Every change is saved as it is made.",
  where: "It is here:",
  copyName: "Name of the copy",
  saveCopy: "Save a copy",
  copyNameNeeded: "Give the copy a name first.",
  copySuggestion: (name: string) => `${name}, copy`,
  copied: (file: string) => `A copy was saved as ${file}. You go on in this study.`,

  backups: "Backups",
  backupsLead: (folder: string) => `They are made by themselves, and kept in ${folder}`,
  noBackups: "There is no backup yet.",
  makeBackup: "Make one now",
  backupMade: "A backup was made.",
  backup: (runs: number, edits: number, kilobytes: string) =>
    `${count(runs, "run", "runs")}, ${count(edits, "change", "changes")}, ${kilobytes} kB`,
  goBack: "Go back to it",
  goBackTo: (moment: string) => `Go back to it: the backup of ${moment}`,
  goBackTitle: "Go back to this backup?",
  goBackText: (moment: string, runs: number) =>
    `The study becomes what it was on ${moment}, with ${count(runs, "run", "runs")}. This is one change, and it can be undone: nothing is lost.`,
  goBackConfirm: "Go back",
  goBackCancel: "Stay where it is",
  placeBackups: "Backups of it. Each can be opened as a study of its own, beside the file:",
  noPlaceBackups: "There is no backup of it on this machine.",
  olderBackups: (n: number) => count(n, "older backup", "older backups"),
  openBackup: "Open as a study of its own",
  openBackupOf: (moment: string) => `Open as a study of its own: the backup of ${moment}`,
  backupOpened: (name: string, moment: string) =>
    `“${name}”, as it was on ${moment}, is now open as a study of its own. The file that it is a backup of stays as it is.`,
  toBackups: "Go to its backups",
  wentBack: (moment: string) => `The study is what it was on ${moment}. Undo brings back what was there.`,

  record: "Record of changes",
  recordLead: "Who changed what, when and why. Nothing is ever taken out of it.",
  noRecord: "Nothing has been changed yet.",
  older: "Show older ones",
  because: (why: string) => `because: ${why}`,
};
