/** What the start, the two hosts, the build and the runners say. */
export const hosts = {
  program: "Boilbench",
  unsaved: {
    message: "Something that was typed is not saved yet.",
    detail: "It is on the Runs page, with the reason why. Closed now, it is lost.",
    stay: "Stay",
    leave: "Close without it",
  },
  menu: {
    undo: "Undo",
    redo: "Redo",
    file: "File",
    newWindow: "New window",
    openStudy: "Open study …",
    edit: "Edit",
    view: "View",
    window: "Window",
  },
  openStudyTitle: "Open a study",
  studyFiles: "Boilbench studies",
  studyNotOpened: "The study could not be opened.",

  building: "Building the page …",
  pageBuilt: (files: number, seconds: string) => `Built the page: ${files} files in ${seconds} s.`,
  commandBuilt: (seconds: string) => `Built the command line in ${seconds} s.`,
  desktopBuilt: (seconds: string) => `Built the desktop program in ${seconds} s.`,
  upToDate: "Everything is built already.",
  buildFailed: (what: string) => `The build failed: ${what}`,

  fetchingRuntime: (seconds: number, limit: number) =>
    `Fetching the desktop window's runtime (once): ${seconds} s of at most ${limit} s …`,
  /** Why the browser is used; each goes before the address, on one line with it. */
  noDisplay: "There is no display here for the desktop window, so Boilbench opens in the browser",
  runtimeFailed:
    "The desktop window's runtime could not be fetched (next try after a day, or now with `npm start -- --retry-desktop`), so Boilbench opens in the browser",
  runtimeFailedBefore:
    "The desktop window's runtime could not be fetched last time (to try again now: `npm start -- --retry-desktop`), so Boilbench opens in the browser",
  windowFailed: "The desktop window could not be opened on this machine, so Boilbench opens in the browser",
  browserWanted: "Boilbench opens in the browser, as asked",
  opensAt: (why: string, address: string) => `${why}: ${address}`,
  addressIsOnce: "The address works once, on this machine only. Ctrl+C ends the program.",
  alreadyRunning: (address: string) => `Boilbench is running already. Open ${address}`,
  stateNotKept: (folder: string, what: string) =>
    `A second start will not find this one, because ${folder} cannot be written: ${what}`,
  unknownOption: (option: string) =>
    `There is no option “${option}”. Known are --browser, --no-open and --retry-desktop, and the name of one study to open.`,
  notStudyFile: (name: string) =>
    `“${name}” is not the name of a study: those end in .boilstudy. To bring in a readings file, start Boilbench and choose Import.`,
  oneStudyOnly: "Name one study at a time: Boilbench opens each in a window of its own.",
  studyNotOpenedThere: "The Boilbench that is running already did not open the study. End it, and start again.",
  notAllClosed: (seconds: number) =>
    `The studies were not closed within ${seconds} s, so Boilbench ended without. Every confirmed edit is kept; the next start puts the rest in order.`,
  cannotStart: (what: string) => `Boilbench could not start: ${what}`,

  refused: {
    wrongHost: "This address is not one that Boilbench answers to. Use the address that `npm start` prints.",
    foreign: "Boilbench answers only its own page.",
    notEntered: "This page is not connected to the program. Run `npm start` again and open the address that it prints.",
    tokenSpent: "This address was used already, or is out of date. Run `npm start` again for a fresh one.",
    notFound: "There is nothing at this address.",
    method: "This address does not take that kind of request.",
    notJson: "The message is not JSON in UTF-8.",
    tooLarge: (mebibytes: number) => `The message is larger than ${mebibytes} MiB. Use a smaller file.`,
    tooSlow: "The message did not arrive in time. Try again.",
    malformed: "The message is not well-formed HTTP.",
    tooDeep: "The message is nested too deeply, or holds more values than any study needs.",
    anotherUser: "Boilbench answers only programs of the user who started it.",
    notPlain: "The message is not plain text, numbers, lists and objects.",
  },
  serviceFailed: "The program failed on this request. Try again; if it happens again, restart Boilbench.",
  serviceEnded: "The part of the program that keeps the study stopped and was started again. Try once more.",

  check: {
    passed: (step: string, seconds: string) => `passed  ${step} (${seconds} s)`,
    failed: (step: string, seconds: string) => `FAILED  ${step} (${seconds} s)`,
    summaryPassed: (steps: number) => `All ${steps} checks passed.`,
    summaryFailed: (steps: string) => `Checks failed: ${steps}.`,
  },
  tests: {
    installing: (what: string) => `Installing ${what} for the tests …`,
    noBrowser:
      "The tests need a Chromium browser and found none: install chromium or google-chrome, or set CHROMIUM to its executable.",
    noPdfTools: "The tests need pdftotext, pdfinfo and pdffonts and found none: install poppler-utils.",
    noElectron:
      "Electron's runtime, or a display for it, is not present here: the desktop window was not opened by this run of the tests.",
  },
};
