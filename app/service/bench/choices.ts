import { type Locale, type ProcedureField, type RunFacts, wordsFor } from "../../../core/index.ts";
import type { BenchFieldView } from "../../contract/index.ts";
import type { StudyContent } from "../study/study-content.ts";

type Choices = NonNullable<BenchFieldView["choices"]>;

function named(names: Iterable<string | null>): Choices {
  const known = new Set<string>();
  for (const name of names) if (name !== null && name !== "") known.add(name);
  return [...known].map((name) => ({ value: name, label: name }));
}

/** Known names that fields of choices take, the latest first where that helps; null for other fields. */
export function choicesIn(
  { head, settings }: StudyContent,
  facts: readonly RunFacts[],
  locale: Locale,
): (field: ProcedureField) => BenchFieldView["choices"] {
  const latest = facts.toReversed();
  const known = new Map<string, Choices>();
  const make = (column: string): Choices => {
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
  };
  return ({ column, group }) => {
    if (group !== "choice") return null;
    const key = column.replace(/^fuel[2-4]$/, "fuel");
    const choices = known.get(key) ?? make(key);
    known.set(key, choices);
    return choices;
  };
}
