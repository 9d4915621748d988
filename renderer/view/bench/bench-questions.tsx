import type { QuestionView } from "../../../app/contract/index.ts";
import { FullName } from "../../component/name.tsx";
import { QuestionAnswer } from "../../component/question-answer.tsx";
import { useWords } from "../../state/language.tsx";

/** What looks odd, where it stands; one may go on, or say why it is right. */
export function BenchQuestions({
  questions,
  onAnswered,
}: {
  questions: readonly QuestionView[];
  /** The question was answered, or opened again: the focus goes back to the work. */
  onAnswered: () => void;
}) {
  const words = useWords().bench;
  if (questions.length === 0) return null;
  return (
    <ul className="bench-questions">
      {questions.map((question) =>
        question.answer === null ? (
          <li className="mark" key={question.id}>
            <p>
              <FullName text={question.message} /> <span className="soft">{words.keepsIt}</span>
            </p>
            <QuestionAnswer question={question} onAnswered={onAnswered} />
          </li>
        ) : (
          <li className="soft small" key={question.id}>
            <FullName text={question.message} />
            <QuestionAnswer question={question} onAnswered={onAnswered} />
          </li>
        ),
      )}
    </ul>
  );
}
