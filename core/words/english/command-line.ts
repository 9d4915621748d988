/** What the command line prints. */
export const commandLine = {
  usage: [
    "boilbench analyse READINGS.csv [--settings S.json] [--method wbt|iso] [--baseline VARIANT] [--leave-out-bad-rows] [--trials NUMBER] [--seed NUMBER] [--force] --out DIR",
    "boilbench report STUDY-or-READINGS [--settings S.json] [--baseline VARIANT] [--trials NUMBER] [--seed NUMBER] [--force] --out DIR",
    "boilbench export STUDY [--force] --out DIR",
    "boilbench compare TABLE.csv --value COLUMN --by COLUMN [--baseline LEVEL] [--block COLUMN] [--factor COLUMN …] [--margin NUMBER] [--confidence 0.95] [--resamples 10000] [--seed 1] [--json]",
    "boilbench plan --sd NUMBER|PERCENT% [--detect NUMBER|PERCENT%] [--relative [--mean NUMBER]] [--power 0.8] [--confidence 0.95] [--n1 RUNS] [--sd-from RUNS] [--runs RUNS] [--order] [--variant NAME …] [--blocks NUMBER] [--seed 1] [--json]",
    "boilbench water --altitude METRES | --pressure KILOPASCAL [--json]",
    "boilbench --help | --version",
  ],
  help: [
    "analyse   reads boil-test readings and writes results.json, runs.csv, report.html and report.pdf into DIR.",
    "          A flag beats the settings file, which beats the default. Nothing in DIR is overwritten without --force.",
    "          It takes a study file (.boilstudy) as well, which brings its own settings.",
    "          --trials: Monte Carlo trials of each run, where errors of instruments are stated; 0 leaves Monte Carlo out. The same --seed",
    "          gives the same draws.",
    "report    writes report.html and report.pdf alone, of a study file or a readings file.",
    "export    writes the readings.csv and settings.json of a study file, whichever version of the program wrote it.",
    "compare   compares the variants of any table of results, one row a run: runs.csv, or one that is not from this program.",
    "          --value names the column that is compared, --by the one that says which variant a run is of; --baseline the variant that",
    "          the others are held against (the first, unless named); --block a column of days or the like, --factor a design factor",
    "          (again for each); --margin, in the column's unit, within which a difference would not matter. Rows with a text under",
    "          leftOut or excluded are skipped. --resamples 0 leaves the bootstrap out. --json prints all numbers.",
    "plan      tells how many runs of each variant a difference (--detect) needs, if single runs scatter with --sd; what a given number",
    "          (--runs) can detect; and a random order of the runs in blocks (--order, --variant NAME for each, --blocks, --seed).",
    "          --n1: the baseline's runs are fixed. --sd-from: how many runs the standard deviation was seen in; the number is then also",
    "          given for its one-sided 80 % upper limit. --detect 10% (or --detect 10 --relative) and --sd 8% are in per cent of --mean;",
    "          without --mean both are in per cent.",
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
  oneTable: "compare takes one table.",
  valueAndBy: "compare needs --value COLUMN (what is compared) and --by COLUMN (which variant a run is of).",
  notBelowZero: (flag: string) => `${flag} takes a number that is not below zero.`,
  notAProbability: (flag: string, text: string) =>
    `${flag} takes a number between 0 and 1, such as 0.95 for 95 %, not “${text}”.`,
  notWhole: (flag: string, text: string, least: number, most: number) =>
    `${flag} takes a whole number from ${least} to ${most}, not “${text}”.`,
  noPlanFile: "plan takes flags alone, no file.",
  noSd: "plan needs --sd NUMBER: the standard deviation of single runs of one variant.",
  meanWithoutRelative:
    "--mean is what per cent are taken of: give --detect in per cent (--detect 10%, or --relative) as well, or leave --mean out.",
  shareWithoutMean:
    "Per cent of what? Give --mean NUMBER, or both --sd and --detect in per cent (--sd 8% --detect 10%).",
  meanZero: "--mean takes a number other than zero: there is no per cent of nothing.",
  twoVariants: "--variant is given once for each of two variants or more, each with a name.",
  comparing: "Comparing …",
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
