import { type Locale, type ProcedureField, type RunFacts, wordsFor } from "../../../core/index.ts";
import type { BenchFieldView } from "../../contract/index.ts";
import type { StudyContent } from "../study/study-content.ts";

const named = (names: readonly (string | null)[]) =>
  [...new Set(names.filter((name) => name !== null && name !== ""))].map((name) => ({
    value: name as string,
    label: name as string,
  }));

/** Known names that a field of choices takes, the latest first where that helps; null for other fields. */
export function choicesFor(
  { column, group }: ProcedureField,
  { head, settings }: StudyContent,
  facts: readonly RunFacts[],
  locale: Locale,
): BenchFieldView["choices"] {
  if (group !== "choice") return null;
  const latest = facts.toReversed();
  switch (column) {
    case "variant":
      return named([...head.variants.values()].map(({ name }) => name));
    case "block":
      return named(latest.map(({ block }) => block));
    case "operator":
      return named(latest.map(({ operator }) => operator));
    case "lid": {
      const { lidChoices } = wordsFor(locale).procedure;
      return [
        { value: "on", label: lidChoices.on },
        { value: "off", label: lidChoices.off },
      ];
    }
    default:
      return named([...settings.fuels.keys(), ...latest.flatMap(({ fuels }) => fuels.map(({ fuel }) => fuel))]);
  }
}
