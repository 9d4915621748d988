/** What the service answers when it cannot do what it was asked. What happened, and what to do. */
export const service = {
  badRequest: (reason: string) =>
    `The program's window asked for something the service does not know (${reason}). Reload the window; if it happens again, the two are of different versions.`,
  tooLarge: (megabytes: string) =>
    `That is too large: the limit is ${megabytes} MB. Split the file, or take out what does not belong in it.`,
  failed:
    "Something went wrong inside the program, and nothing was changed. Try again; if it happens again, export the readings and start the program anew.",
  importGone:
    "This file is no longer at hand: the program has been started anew since it was read. Choose the file again.",
  importNotAcceptable: "The file still has errors. Mend the marked cells, or leave their rows out, and try again.",
  mended: (file: string, row: number, column: string, was: string, is: string) =>
    `${file}, row ${row}, ${column}: “${was}” was mended to “${is}” while the file was taken in; the file itself still has the first.`,
  unknownQuantity: (name: string) => `There is no quantity called “${name}”. Choose one from the list.`,
  unknownVariant: (name: string) => `There is no variant called “${name}” in this study. Choose one from the list.`,
  nothingToCompare: "There is one variant only, so there is nothing to compare. Bring in readings of a second variant.",
  noVariantToPrint:
    "The study has no such variant. Set one up on the Study page first, or print sheets on which it is written by hand.",
  noResults: "No run that counts has a result to compare. The Runs page says of each what is missing and why.",
  noResultsOf: (label: string) => `Fewer than two variants have ${label}. Choose another quantity.`,
  exampleMissing: "The example study is not where it should be. Install the program again.",
  exampleName: "Tall kettle stove, skirt and gap",
};
