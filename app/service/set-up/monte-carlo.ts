import { formatFixed, type Locale, type MonteCarloSettings, type Settings, wordsFor } from "../../../core/index.ts";
import type { SetUpFieldView } from "../../contract/index.ts";
import { numberEntry } from "../../import/index.ts";
import { refuse } from "../refused.ts";
import { settingsParts } from "../study/stored-settings.ts";
import { shownText } from "./method.ts";
import { field, type SetUpPart } from "./part.ts";
import { Sheet, textsByField } from "./sheet.ts";

const stops = ["no", "yes"] as const;

function fieldsOf(locale: Locale): SetUpFieldView[] {
  const { fields, adaptiveChoices } = wordsFor(locale).setUpWork;
  return [
    field("trials", "number", fields.trials, { needed: true }),
    field("adaptive", "choice", fields.adaptive, {
      needed: true,
      choices: stops.map((value) => ({ value, label: adaptiveChoices[value] })),
    }),
    field("seed", "number", fields.seed, { needed: true }),
  ];
}

function textsOf({ trials, seed, adaptive }: MonteCarloSettings): string[] {
  return [numberEntry(trials), adaptive === true ? "yes" : "no", numberEntry(seed)];
}

/**
 * Trials that are advised for intervals of a confidence p: 10⁴ times 1/(1 − p), so that some ten thousand draws lie beyond the ends
 * (JCGM 101:2008, 7.2, from memory).
 */
const advisedTrials = (confidence: number) => Math.ceil(1e4 / (1 - confidence) - 1e-6);

function detailOf({ monteCarlo, confidence }: Settings, locale: Locale): string {
  const words = wordsFor(locale).setUpWork;
  const { trials, adaptive } = monteCarlo;
  const write = (value: number) => formatFixed(value, 0, locale);
  if (trials === 0) return words.noMonteCarlo;
  const advised = advisedTrials(confidence);
  return [
    adaptive === true ? words.trialsAtMost(write(trials)) : words.allTrials(write(trials)),
    ...(trials < advised ? [words.fewTrials(write(trials), write(advised))] : []),
  ].join("; ");
}

/** How the study's uncertainties are drawn: how often, from which seed, and when to stop. */
export const monteCarloPart: SetUpPart = {
  section({ content, locale }) {
    const { settings } = content;
    return {
      subject: "monteCarlo",
      ...wordsFor(locale).setUpWork.sections.monteCarlo,
      add: null,
      addField: null,
      fieldSuggestions: [],
      fields: fieldsOf(locale),
      items: [
        {
          item: null,
          title: null,
          called: wordsFor(locale).setUpWork.sections.monteCarlo.title,
          texts: textsOf(settings.monteCarlo),
          detail: detailOf(settings, locale),
          isRemovable: false,
        },
      ],
      catalogue: null,
    };
  },
  edit(_item, entered, { content, locale }) {
    const { settings } = content;
    const { monteCarlo } = settings;
    const fields = fieldsOf(locale);
    const sheet = new Sheet(fields, textsByField(fields, textsOf(monteCarlo)), entered, locale);
    const isAdaptive = sheet.text("adaptive") === "yes";
    const after: MonteCarloSettings = {
      trials: sheet.number("trials", "trials") ?? monteCarlo.trials,
      seed: sheet.number("seed", "seed") ?? monteCarlo.seed,
      ...(isAdaptive ? { adaptive: true } : {}),
    };
    const written = settingsParts({ ...settings, monteCarlo: after }).settings.get("monteCarlo");
    const isSame = JSON.stringify(written) === JSON.stringify(settingsParts(settings).settings.get("monteCarlo"));
    const [changed] = fields.filter((one) => sheet.isChanged(one.field));
    return {
      what: changed?.name ?? "",
      name: shownText(changed, sheet, locale),
      changes: isSame ? [] : [{ subject: "setting", field: "monteCarlo", after: written }],
    };
  },
  remove(_item, { locale }) {
    refuse(wordsFor(locale).setUpWork.noSuchField);
  },
};
