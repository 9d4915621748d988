import { useState } from "react";
import { Name } from "../../component/name.tsx";
import { VariantMark } from "../../component/variant-mark.tsx";
import type { BenchDesk } from "../../state/bench-desk.ts";
import { finishStep, openQuestionsOf } from "../../state/bench-walk.ts";
import { useWords } from "../../state/language.tsx";

/** The way through the run: what is done with what came of it, what is now, what is in sight. */
export function BenchSteps({
  desk,
  others,
}: {
  desk: BenchDesk;
  /** Address of the page on which runs are begun and taken up. */
  others: string;
}) {
  const all = useWords();
  const words = all.bench;
  const [isWhole, setIsWhole] = useState(false);
  const { run } = desk;
  const isFinish = desk.step === finishStep;
  return (
    <nav className={isWhole ? "bench-steps is-whole" : "bench-steps"} aria-label={words.steps}>
      <p className="bench-run-name small">
        <Name text={words.run(run.run)} />
        <span className="variant-name">
          <VariantMark index={run.variantIndex} />
          <Name text={run.variant} />
        </span>
        {run.date !== null && <span className="soft">{run.date}</span>}
      </p>
      <ol>
        {run.steps.map((step) => {
          const isNow = step.id === desk.step;
          const questions = openQuestionsOf(step);
          return (
            <li key={step.id} aria-current={isNow ? "step" : undefined}>
              <button type="button" onClick={() => desk.openStep(step.id)}>
                <span className="bench-tick" aria-hidden="true">
                  {isNow ? "→" : step.isDone && step.summary !== "" ? "✓" : ""}
                </span>
                <span className="bench-step-words">
                  <span>
                    {step.title}
                    {step.isDone && step.summary !== "" && !isNow && (
                      <span className="visually-hidden">, {words.isDone}</span>
                    )}
                    {isNow && <span className="visually-hidden">, {words.isNow}</span>}
                  </span>
                  {step.summary !== "" && (
                    <span className="soft small bench-summary" dir="auto">
                      {step.summary}
                    </span>
                  )}
                  {questions > 0 && <span className="attention small">? {words.openQuestions(questions)}</span>}
                </span>
              </button>
            </li>
          );
        })}
        <li aria-current={isFinish ? "step" : undefined}>
          <button type="button" onClick={() => desk.openStep(finishStep)}>
            <span className="bench-tick" aria-hidden="true">
              {isFinish ? "→" : ""}
            </span>
            <span>{words.finish}</span>
          </button>
        </li>
      </ol>
      <button
        type="button"
        className="plain bench-steps-more"
        aria-expanded={isWhole}
        onClick={() => setIsWhole(!isWhole)}
      >
        {isWhole ? words.fewSteps : words.allSteps}
      </button>
      <p className="bench-others small">
        <a href={others}>{words.others}</a>
      </p>
    </nav>
  );
}
