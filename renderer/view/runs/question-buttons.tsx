import { useWords } from "../../state/language.tsx";
import type { QuestionSteps } from "./use-questions.ts";

/** Steps through what looks odd: "3 of 12". */
export function QuestionButtons({ steps }: { steps: QuestionSteps }) {
  const { grid } = useWords();
  if (steps.count === 0) return null;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is for fields, these are buttons.
    <span className="question-buttons" role="group" aria-label={grid.questionsAsked}>
      <button
        type="button"
        className="act quiet"
        aria-label={grid.previousQuestion}
        title={`${grid.previousQuestion} (${grid.questionKeys})`}
        onClick={() => steps.step(-1)}
      >
        ‹
      </button>
      <span className="small" role="status">
        {steps.at === null ? grid.questions(steps.count) : grid.questionOf(steps.at, steps.count)}
      </span>
      <button
        type="button"
        className="act quiet"
        aria-label={grid.nextQuestion}
        title={`${grid.nextQuestion} (${grid.questionKeys})`}
        onClick={() => steps.step(1)}
      >
        ›
      </button>
    </span>
  );
}
