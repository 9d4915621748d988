import type { FieldKind } from "../../procedure/field-kind.ts";
import type { ProcedureStepId } from "../../procedure/procedure-step.ts";

interface StepWords {
  readonly title: string;
  /** What to do: one sentence, at most two. */
  readonly sentence: string;
}

interface FieldWords {
  /** Short, beside the field. */
  readonly name: string;
  readonly what: string;
  readonly how: string;
}

const weighAfter = "Pot first: it loses steam while you wait. Then the wood, then the char.";

const steps: Record<ProcedureStepId, StepWords> = {
  "before-the-fire": {
    title: "Before the fire",
    sentence: "What holds for the whole run. Weigh pot and container dry and empty.",
  },
  "cold-start.weigh": {
    title: "Weigh for the cold start",
    sentence: "The pot with cool water; a bundle of wood, more than it will take.",
  },
  "cold-start.light": { title: "Light it, cold stove", sentence: "Start the clock as it catches." },
  "cold-start.boils": { title: "Water boils", sentence: "Stop the clock, read the water." },
  "cold-start.weigh-after": { title: "Weigh after the cold start", sentence: weighAfter },
  "hot-start.weigh": {
    title: "Weigh for the hot start",
    sentence: "Fresh cool water and fresh wood, while the stove is hot.",
  },
  "hot-start.light": { title: "Light it, hot stove", sentence: "Start the clock as it catches." },
  "hot-start.boils": { title: "Water boils", sentence: "Stop the clock, read the water." },
  "hot-start.weigh-after": {
    title: "Weigh after the hot start",
    sentence: "Be quick: pot and fire go straight on to the simmer.",
  },
  "simmer.begin": {
    title: "Simmer, 45 minutes",
    sentence: "Put the pot back and keep the water just under the boil.",
  },
  "simmer.over": { title: "45 minutes are over", sentence: "Stop the clock, read the water." },
  "simmer.weigh-after": { title: "Weigh at the end", sentence: weighAfter },

  "high-power.weigh": {
    title: "Weigh for high power",
    sentence: "The pot with cool water; a bundle of wood, more than it will take.",
  },
  "high-power.light": { title: "Light it, high power", sentence: "Start the clock as it catches." },
  "high-power.boils": { title: "Water boils", sentence: "Note when; go on." },
  "high-power.over": { title: "High power is over", sentence: "Stop the clock, read the water." },
  "high-power.weigh-after": { title: "Weigh after high power", sentence: weighAfter },
  "medium-power.weigh": {
    title: "Weigh for medium power",
    sentence: "Fresh cool water and fresh wood, and what char lies in the stove.",
  },
  "medium-power.light": { title: "Begin medium power", sentence: "Start the clock; hold a middle fire." },
  "medium-power.boils": { title: "Water boils", sentence: "If it does, note when." },
  "medium-power.over": { title: "Medium power is over", sentence: "Stop the clock, read the water." },
  "medium-power.weigh-after": { title: "Weigh after medium power", sentence: weighAfter },
  "low-power.weigh": {
    title: "Weigh for low power",
    sentence: "Fresh cool water and fresh wood, and what char lies in the stove.",
  },
  "low-power.light": {
    title: "Begin low power",
    sentence: "Start the clock; keep a low fire.",
  },
  "low-power.boils": { title: "Water boils", sentence: "If it does, note when." },
  "low-power.over": { title: "Low power is over", sentence: "Stop the clock, read the water." },
  "low-power.weigh-after": { title: "Weigh at the end", sentence: weighAfter },

  "anything-unusual": {
    title: "Anything unusual",
    sentence: "What was done otherwise, or went wrong: a dropped stick, a gust, water spilt.",
  },
};

const fields: Record<FieldKind, FieldWords> = {
  run: {
    name: "Run",
    what: "The name of this run, which no other run of the study has.",
    how: "Keep the one that is given, or write your own. The sheet and the study call it the same.",
  },
  variant: {
    name: "Variant",
    what: "How the stove was built for this run. Runs of one variant are repeats of each other.",
    how: "Choose it from the study’s variants, and look that the stove stands as it says.",
  },
  order: {
    name: "Place in order",
    what: "The position in which the runs were made. It shows whether results drift as time goes on.",
    how: "Count on from the run before, or take it from the plan.",
  },
  block: {
    name: "Block",
    what: "A day, an operator or a batch of wood. Variants are compared within it, so that its own effect drops out.",
    how: "Give all runs made under the same circumstances the same name.",
  },
  date: {
    name: "Date",
    what: "The day on which the first phase began.",
    how: "Write year, month and day. A run that passes midnight keeps the day on which it began.",
  },
  operator: {
    name: "Operator",
    what: "Who tended the fire: people feed a stove differently.",
    how: "Write a name or initials, always the same for one person.",
  },
  air: {
    name: "Air",
    what: "Temperature of the air that feeds the fire.",
    how: "Read it in the shade, a few steps from the stove, once the thermometer has settled.",
  },
  boiling: {
    name: "Boiling point",
    what: "The temperature at which water boils at this place today. It is lower the higher the place.",
    how: "Bring water to a full boil, hold the thermometer in its middle and wait until it stands still. Where it was not read, the altitude serves.",
  },
  altitude: {
    name: "Altitude",
    what: "Height of the place above the sea. It gives the boiling point where that was not read.",
    how: "Take it from a map or a survey mark. It is not used where the boiling point was read.",
  },
  humidity: {
    name: "Humidity of the air",
    what: "Relative humidity of the air.",
    how: "Read it before the fire, away from the steam.",
  },
  fuel: {
    name: "Wood",
    what: "The species or kind of the wood. Its calorific value is looked up by this name.",
    how: "Choose it from the study’s fuels. Kindling, or a second wood, is an entry of its own.",
  },
  moisture: {
    name: "Moisture of the wood",
    what: "Water in the wood, in per cent. On a wet basis it is a share of the wood as it burns, on a dry basis of the dry wood: 25 % dry is 20 % wet.",
    how: "Measure several sticks from the bundle and take the mean. A pin meter usually reads dry basis; from an oven, say which mass you divided by.",
  },
  fuelSize: {
    name: "Thickness of sticks",
    what: "How thick the sticks are.",
    how: "Measure a few across the middle; write the range.",
  },
  wind: {
    name: "Wind",
    what: "How the air moves at the stove.",
    how: "Say it in a word or two: calm, light, gusty.",
  },
  lid: {
    name: "Lid",
    what: "Whether the pot is covered. A lid keeps steam in.",
    how: "Leave it as it is through all phases of a run, and the same in all runs.",
  },
  potEmpty: {
    name: "Pot, empty",
    what: "Mass of the dry pot, without lid and thermometer.",
    how: "Weigh it once and write it on the pot; weigh it again when soot has gathered or it was scoured.",
  },
  potBefore: {
    name: "Pot with water",
    what: "Mass of pot and water together as the phase begins.",
    how: "Take lid and thermometer off, wipe the outside dry, and wait until the balance stands still.",
  },
  potAfter: {
    name: "Pot with water",
    what: "Mass of pot and the water that is left as the phase ends. What is missing went off as steam.",
    how: "Weigh it at once, without lid and thermometer: every minute costs a few grams of steam.",
  },
  waterBefore: {
    name: "Water",
    what: "Temperature of the water as the phase begins.",
    how: "Stir, then hold the thermometer in the middle of the water, off the pot’s bottom.",
  },
  waterAtBoil: {
    name: "Water",
    what: "Temperature of the water as it boils.",
    how: "Hold the thermometer in the middle of the water while it bubbles all over. Far under the boiling point, it has not boiled yet.",
  },
  waterAfter: {
    name: "Water",
    what: "Temperature of the water as the phase ends.",
    how: "Read it before the pot leaves the fire, in the middle of the water.",
  },
  fuelBefore: {
    name: "Wood to burn",
    what: "Mass of the wood laid ready for the phase, as it is.",
    how: "Weigh the whole bundle, and burn from it alone. Kindling and wood that is added later are entries of their own.",
  },
  fuelAfter: {
    name: "Wood left",
    what: "Mass of the wood that did not burn: untouched sticks, and burnt ones with their char knocked off.",
    how: "Put the flames out, knock the char off into the container, and weigh every stick of the bundle.",
  },
  charContainer: {
    name: "Container, empty",
    what: "Mass of the empty container for hot char.",
    how: "Use a metal one with a lid. Weigh it cold, clean and dry.",
  },
  charWithContainer: {
    name: "Container with char",
    what: "Mass of the container with the char of the fire in it.",
    how: "Rake all char out of the stove, leave the ash, close the lid, and weigh.",
  },
  charAtStart: {
    name: "Char in the stove",
    what: "Net mass of char that lies in the stove as the phase begins. It belongs to the phase before.",
    how: "Take container with char less the container. Write 0 where the stove was cleared; leave it empty where it is not known.",
  },
  lit: {
    name: "Lit at",
    what: "The moment at which the fire caught. The time to boil counts from here.",
    how: "Press the key, or write the time, when the kindling burns by itself, with the pot on.",
  },
  begun: {
    name: "Begun at",
    what: "The moment at which the phase begins.",
    how: "Press the key, or write the time, as the pot goes on the fire.",
  },
  boiled: {
    name: "Boiled at",
    what: "The moment at which the water came to a full boil.",
    how: "Wait until it bubbles all over and the thermometer stands still at the boiling point.",
  },
  over: {
    name: "Ended at",
    what: "The moment at which the phase ends.",
    how: "Press the key, or write the time, as the cue sounds and before anything is weighed.",
  },
  carbonMonoxide: {
    name: "Carbon monoxide",
    what: "Mass of carbon monoxide that was given off in the phase.",
    how: "Take it from the analyser’s record, from the phase’s start to its end.",
  },
  particulateMatter: {
    name: "Fine particles",
    what: "Mass of particles under 2.5 micrometres (PM2.5) that were given off in the phase.",
    how: "Take it from the filter’s gain, scaled from what was drawn through it to all that was given off.",
  },
  deviation: {
    name: "Done otherwise",
    what: "Where the phase departed from the procedure.",
    how: "Say in a few words what was different. The report tells it.",
  },
  note: {
    name: "Notes",
    what: "Anything that may help to understand this run later.",
    how: "Write what you would tell the person who works up the readings.",
  },
};

/** The steps of a run and their fields, as the Bench and blank sheets call them. */
export const procedure = {
  steps,
  fields,
  ofPot: (name: string, pot: number) =>
    name.startsWith("Pot") ? name.replace("Pot", `Pot ${pot}`) : `${name}, pot ${pot}`,
  ofEntry: (name: string, entry: number) => `${name}, further entry ${entry - 1}`,
  feeds: (quantities: string) => `Used for: ${quantities}.`,
  feedsNothing: "Recorded and reported; no result is computed from it.",
  lidChoices: { on: "on", off: "off" },
  moistureChoices: { wet: "wet basis", dry: "dry basis" },

  sheet: {
    subject: "Forms for writing down boil tests by hand",
    program: (version: string) => `Boilbench ${version}`,
    title: (study: string) => `Sheets to fill in: ${study}`,
    run: (run: string) => `Run ${run}`,
    runBlank: "One run",
    /** A step that follows in the same row, before its sentence. */
    runIn: (title: string) => `${title}.`,
    number: (sheet: number, sheets: number) => `Sheet ${sheet} of ${sheets}`,
    side: (number: string, side: number, sides: number) => `${number}, side ${side} of ${sides}`,
    cautions: "Take care:",
    clock: "h:min",
    unlessReadAnew: "Leave empty what was not read anew.",
    notes: "In which phase, and what. Further wood, before and after. What has changed.",
    toFill: "to be filled in",
  },
};
