/** What is said of study files: what is wrong with one, why it cannot be changed, and what to do. */
export const studyFile = {
  faults: {
    empty: (file: string) =>
      `${file} is empty: it has no bytes in it. If it came by mail or on a stick, copy it again from where it was; a backup may be on the Study page of the machine that wrote it.`,
    notAStudy: (file: string) =>
      `${file} is not a study of Boilbench. Choose a file whose name ends in .boilstudy; readings in a CSV file go in on the Import page.`,
    foreign: (file: string, what: string) =>
      `${file} holds something that Boilbench did not put there (${what}), so it was not opened. Use the copy from before another program changed it, or a backup.`,
    damaged: (file: string, what: string) =>
      `${file} is damaged (${what}). Nothing was written to it. Go back to a backup, or copy the file again from where it came from.`,
    newer: (file: string) =>
      `${file} was written by a newer version of Boilbench, which this one cannot read. Use that version, or export the readings there.`,
    migrationChanged: (file: string) =>
      `${file} was written by a version of Boilbench that this one does not know. Use the version that wrote it, and export the readings there.`,
    full: (file: string) =>
      `The disk is full, so this was not saved; everything saved before is still in ${file}. Make room on the disk and save once more.`,
    readOnlyPlace: (file: string) =>
      `${file} lies where nothing may be written, so this was not saved. Save a copy of the study elsewhere, and go on in that.`,
    gone: (file: string) =>
      `${file} is no longer there: its drive was taken out, or the file was moved or deleted. This was not saved. Put it back and open the study again, or save a copy of the study and go on in that.`,
    inUse: (file: string) =>
      `Another program is using ${file} just now, so this was not saved. Try once more in a moment.`,
    changedOutside: (file: string) =>
      `${file} was changed or replaced by another program since it was opened, so this was not saved, to overwrite nothing. Open the study again, and look at what changed.`,
    readOnly: (file: string) => `${file} is open for reading only, so this was not saved.`,
    refused: (file: string, what: string) =>
      `${file} does not take this (${what}). Nothing was changed. Look at what was typed, and try again.`,
    unreadable: (file: string, what: string) =>
      `${file} cannot be read (${what}). See that it is there and that you may read it, and try again.`,
    exists: (file: string) => `There is a file ${file} already. Choose another name.`,
    ownFolder: (_file: string, what: string) =>
      `Boilbench cannot use the folder in which it keeps locks, copies and backups (${what}). See that it is there, that you may write in it, and that its disk has room; then try again.`,
  },
  /** The same where a study is opened: nothing was being saved. */
  opening: {
    full: (file: string) => `The disk is full, so ${file} was not opened. Make room on the disk and open it once more.`,
    readOnlyPlace: (file: string) =>
      `${file} may not be read, or its folder may not. Change the rights of the file, or copy it to a folder of your own and open it there.`,
    gone: (file: string) =>
      `${file} is no longer there: its drive was taken out, or the file was moved or deleted. Put it back and open it once more, or open one of its backups.`,
    inUse: (file: string) => `Another program is using ${file} just now. Open it once more in a moment.`,
    changedOutside: (file: string) =>
      `${file} was changed by another program while it was opened. Open it once more, and look at what changed.`,
  },
  /** The same where a new study is put into its folder. */
  placing: {
    full: (file: string) => `The disk is full, so ${file} was not made. Make room on the disk and try once more.`,
    readOnlyPlace: (file: string, folder: string) =>
      `Nothing may be written in the folder ${folder}, so ${file} was not made. Change the rights of that folder, and try once more.`,
    gone: (file: string, folder: string) =>
      `The folder ${folder} is no longer there, so ${file} was not made. Put it back, and try once more.`,
  },
  noFolder: (folder: string, what: string) =>
    `The folder ${folder} for studies cannot be made (${what}). See what lies in its place and that you may write there, and try again.`,
  someFile: "The study",
  readOnly: {
    held: (who: string, machine: string, since: string) =>
      `${who} has this study open in another program (on ${machine}, since ${since}), so it can only be read here. Changes made there are shown. When that program has closed it, open the study again.`,
    heldByUnknown:
      "Another program has this study open, so it can only be read here. When that program has closed it, open the study again.",
    damaged: (what: string) =>
      `This file is damaged (${what}), so it can only be read, and nothing is written to it. Go back to a backup below, or export the readings that can still be read.`,
    newer:
      "This file was written by a newer version of Boilbench, so it can only be read here. Use that version to change it.",
    readOnlyPlace:
      "This file lies where nothing may be written, so it can only be read. Save a copy elsewhere to change it.",
  },
  notes: {
    recovered:
      "The program ended in the middle of an edit last time. That edit was taken back; all before it are here.",
    migrated: (file: string) =>
      `The file was brought to this version of the program. As it was before, it is kept in ${file}.`,
    workingCopy:
      "The file lies in a folder that is shared or synchronised. Edits are kept on this machine and written there every minute and when the study is closed.",
    workingCopyTakenUp:
      "The program ended before the last edits were written to the shared folder. They were kept on this machine, and are here.",
    workingCopySetAside: (file: string) =>
      `The file in the shared folder was changed by somebody else before the last edits made here were written to it. Those edits are kept in ${file}, which is on the list of the Studies page: open it there to see them.`,
    backupFailed: (what: string) => `The last backup could not be made: ${what}`,
    notRefreshed: (what: string) => `What is shown may no longer be what the study holds: ${what}`,
    notWrittenBack: (what: string) => `The shared file could not be brought up to date: ${what}`,
    runsUnread: (runs: number) =>
      runs === 1
        ? "One run could not be read and is missing here."
        : `${runs} runs could not be read and are missing here.`,
  },
  backups: {
    regular: "made while working",
    atClose: "made when the study was closed",
    beforeMigration: "before a new version of the program",
    beforeGoingBack: "before going back to a backup",
  },
  backupName: (study: string, at: string) => `${study} (backup of ${at})`,
  asideName: (study: string) => `${study} (edits that were set aside)`,
  nobody: "somebody",
  exampleAuthor: "the program",
  shelf: {
    notListed: "This study is not in the list of studies any more. Open it again on the Studies page.",
    backupNotListed: "This backup is not there any more. Look at the list again.",
    closed: "This study was closed in this program meanwhile. Open it again.",
    isOpen: "This study is open in this program already.",
  },
  fallbackName: "study",
};
