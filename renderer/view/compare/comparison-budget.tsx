import { useId, useState } from "react";
import type { ComparisonBudgetPart } from "../../../app/contract/index.ts";
import { Budget } from "../../component/budget.tsx";
import { FullName } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { Waiting } from "../../component/waiting.tsx";
import { useAsked } from "../../state/asked.ts";
import { useWords } from "../../state/language.tsx";
import { addressOfSetUp, choiceOf, type Route } from "../../state/route.ts";
import { useStudy } from "../../state/study.tsx";

/** What the uncertainties of the difference and of both means are made of. Looked for once it is opened. */
export function ComparisonBudget({ route }: { route: Route }) {
  const words = useWords().uncertainty;
  const [isOpen, setIsOpen] = useState(false);
  return (
    <details className="comparison-budget" open={isOpen} onToggle={(event) => setIsOpen(event.currentTarget.open)}>
      <summary>{words.ofComparison}</summary>
      {isOpen && <Parts route={route} />}
    </details>
  );
}

function Parts({ route }: { route: Route }) {
  const { uncertainty: words } = useWords();
  const { handle, stamp } = useStudy();
  const { value, refusal } = useAsked<"budget.ofComparison">(
    { kind: "budget.ofComparison", study: handle, choice: choiceOf(route) },
    stamp,
  );
  if (refusal !== null) return <Refused refusal={refusal} />;
  if (value === null) return <Waiting />;
  if (!value.hasErrors) {
    return (
      <p className="budget-way">
        {words.notStated.anywhere} <a href={addressOfSetUp(route, "instrument")}>{words.toSetUp}</a>
      </p>
    );
  }
  if (value.parts.length === 0) return <p className="soft">{words.noBudget}</p>;
  return (
    <div className="budget-parts">
      {value.parts.map((part) => (
        <Part key={part.of} part={part} />
      ))}
    </div>
  );
}

function Part({ part }: { part: ComparisonBudgetPart }) {
  const id = useId();
  return (
    <section className="budget-part" aria-labelledby={id}>
      <h2 id={id}>
        <FullName text={part.title} />
      </h2>
      <Budget budget={part.budget} title={part.title} />
      {part.advice.map((sentence) => (
        <p className="prose" key={sentence}>
          {sentence}
        </p>
      ))}
    </section>
  );
}
