import { useState } from "react";
import type { QuestionView } from "../../../app/contract/index.ts";
import { FullName, Name } from "../../component/name.tsx";
import { useWords } from "../../state/language.tsx";
import { addressOf, type Route } from "../../state/route.ts";

/** So many questions are shown at first. */
const firstShown = 50;

/** Everything that looks odd, each with a way to the cell where it stands. */
export function QuestionList({ questions, route }: { questions: readonly QuestionView[]; route: Route }) {
  const words = useWords().study;
  const [isWhole, setIsWhole] = useState(false);
  const shown = isWhole ? questions : questions.slice(0, firstShown);
  return (
    <section>
      <h2>{words.questions}</h2>
      <p className="soft">{questions.length === 0 ? words.noQuestions : words.questionsLead}</p>
      <ul className="marks">
        {shown.map((question) => (
          <li className="mark" key={`${question.run}/${question.phase}/${question.column}/${question.message}`}>
            <Where question={question} />
            <p>
              <FullName text={question.message} />
            </p>
            {question.run !== null && (
              <a
                href={addressOf({
                  ...route,
                  screen: "runs",
                  show: "readings",
                  phase: question.phase,
                  run: question.run,
                  column: question.column,
                })}
              >
                {words.look}
              </a>
            )}
          </li>
        ))}
      </ul>
      {shown.length < questions.length && (
        <button type="button" className="act quiet more" onClick={() => setIsWhole(true)}>
          {words.moreQuestions(questions.length - shown.length)}
        </button>
      )}
    </section>
  );
}

function Where({ question }: { question: QuestionView }) {
  const words = useWords();
  const parts = [
    ...(question.phase === null ? [] : [words.phase(question.phase)]),
    ...(question.column === null ? [] : [words.reading(question.column)]),
  ];
  return (
    <b className="where">
      <Name text={question.run ?? words.study.wholeStudy} />
      {parts.map((part) => words.separator + part).join("")}
    </b>
  );
}
