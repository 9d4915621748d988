/** What the command line prints. */
export const commandLine = {
  usage: [
    "boilbench analyse READINGS.csv [--settings S.json] [--method wbt|iso] [--baseline VARIANT] [--leave-out-bad-rows] [--force] --out DIR",
    "boilbench report STUDY-or-READINGS [--settings S.json] [--baseline VARIANT] [--force] --out DIR",
    "boilbench export STUDY [--force] --out DIR",
    "boilbench water --altitude METRES | --pressure KILOPASCAL [--json]",
    "boilbench --help | --version",
  ],
  help: [
    "analyse   reads boil-test readings and writes results.json, runs.csv, report.html and report.pdf into DIR.",
    "          A flag beats the settings file, which beats the default. Nothing in DIR is overwritten without --force.",
    "          It takes a study file (.boilstudy) as well, which brings its own settings.",
    "report    writes report.html and report.pdf alone, of a study file or a readings file.",
    "export    writes the readings.csv and settings.json of a study file, whichever version of the program wrote it.",
    "water     gives pressure, boiling point and latent heat of water at an altitude or a pressure.",
    "Exit codes: 0 done; 2 wrong usage; 3 input refused; 4 could not write.",
  ],
  usageHeading: "Usage:",
  noCommand: "Say what to do.",
  unknownCommand: (name: string) => `“${name}” is not a command.`,
  notUnderstood: (because: string) => `${because}.`,
  question: (message: string) => `(question) ${message}`,
  oneReadingsFile: "analyse takes one readings file.",
  oneStudyOrReadingsFile: "report takes one study file or readings file.",
  oneStudyFile: "export takes one study file.",
  notAStudyFile: (path: string) => `export takes a study file, whose name ends in .boilstudy, not ${path}.`,
  studyHasSettings: "A study file has its own settings and method: leave out --settings and --method.",
  tooLarge: (mebibytes: number) => `The file is larger than ${mebibytes} MiB. Split it into several.`,
  noOut: "Say where to write: --out DIR.",
  badMethod: (text: string) => `--method is wbt or iso, not “${text}”.`,
  unknownBaseline: (name: string, known: string) =>
    `--baseline: there is no variant “${name}” in the readings. There are: ${known}.`,
  unreadable: (because: string) => `The file cannot be read (${because}). Check its name and that you may read it.`,
  wouldOverwrite: (file: string) => `${file} is there already. Use --force to replace it, or another --out.`,
  cannotWrite: (place: string, because: string) =>
    `${place} could not be written (${because}), and nothing there was changed. Check the folder, its permissions and the space left.`,
  reading: (file: string) => `Reading ${file} …`,
  analysing: "Analysing …",
  done: (folder: string) => `Done: ${folder}`,
  onePlace: "water takes one of --altitude METRES and --pressure KILOPASCAL.",
  notANumber: (flag: string, text: string) => `${flag} takes a number with a decimal point, not “${text}”.`,
  waterOutside: (what: "altitude" | "pressure", lowest: string, highest: string) =>
    what === "altitude"
      ? `Altitudes from ${lowest} to ${highest} m are answered.`
      : `Pressures from ${lowest} to ${highest} kPa are answered.`,
  water: (pressure: string, boilingPoint: string, latentHeat: string) =>
    `pressure ${pressure} kPa, boiling point ${boilingPoint} °C, latent heat ${latentHeat} kJ/kg`,
};
