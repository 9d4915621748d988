import { useRef, useState } from "react";
import type { QuestionView, SetUpSubject, StudyView } from "../../../app/contract/index.ts";
import { FullName, Name } from "../../component/name.tsx";
import { QuestionAnswer } from "../../component/question-answer.tsx";
import { useWords } from "../../state/language.tsx";
import { addressOf, type Route } from "../../state/route.ts";

/** So many questions are shown at first. */
const firstShown = 50;

/** Each with a key of its own: two questions of one name are asked where one cell is odd in two ways. */
function keyed(questions: readonly QuestionView[]): { readonly key: string; readonly question: QuestionView }[] {
  const seen = new Map<string, number>();
  return questions.map((question) => {
    const before = seen.get(question.id) ?? 0;
    seen.set(question.id, before + 1);
    return { key: `${question.id}/${before}`, question };
  });
}

/** Everything that looks odd, each with a way to the cell where it stands and to an answer; below, what was answered. */
export function QuestionList({
  questions,
  open,
  onBench,
  answered,
  route,
  onSetUp,
}: {
  /** The first of those that are open. */
  questions: readonly QuestionView[];
  /** How many are open. */
  open: number;
  /** Runs that are being made. */
  onBench: StudyView["onBench"];
  answered: readonly QuestionView[];
  route: Route;
  /** Goes to the part of the set-up where a question is answered. */
  onSetUp: (subject: SetUpSubject) => void;
}) {
  const words = useWords();
  const [isWhole, setIsWhole] = useState(false);
  const section = useRef<HTMLElement>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const shown = isWhole ? questions : questions.slice(0, firstShown);
  const isNothing = questions.length + answered.length === 0;

  /** The focus goes on to the next question of the list, which stays when this one goes; after the last, to the one before. */
  const goOn = (list: readonly QuestionView[], { id }: QuestionView) => {
    const others = list.filter((one) => one.id !== id);
    const at = list.findIndex((one) => one.id === id);
    const next = others[Math.min(at, others.length - 1)];
    const button =
      next === undefined ? null : section.current?.querySelector<HTMLElement>(`[data-question="${next.id}"] button`);
    (button ?? heading.current)?.focus();
  };

  return (
    <section className="questions" ref={section}>
      <h2 ref={heading} tabIndex={-1}>
        {words.study.questions}
      </h2>
      <p className="soft">
        {questions.length > 0
          ? words.study.questionsLead
          : isNothing
            ? words.study.noQuestions
            : words.questions.noneOpen}
      </p>
      <ul className="marks">
        {keyed(shown).map(({ key, question }) => (
          <li className="mark" key={key} data-question={question.id}>
            <Where question={question} />
            <p>
              <FullName text={question.message} />
            </p>
            {question.run !== null && <WayTo question={question} onBench={onBench} route={route} />}
            {question.run === null && question.setUp !== null && (
              <WayToSetUp subject={question.setUp} onSetUp={onSetUp} />
            )}
            <QuestionAnswer question={question} onAnswered={() => goOn(shown, question)} />
          </li>
        ))}
      </ul>
      {shown.length < questions.length && (
        <button type="button" className="act quiet more" onClick={() => setIsWhole(true)}>
          {words.study.moreQuestions(questions.length - shown.length)}
        </button>
      )}
      {shown.length === questions.length && open > questions.length && (
        <p className="soft">{words.questions.moreInRuns(open - questions.length)}</p>
      )}
      {answered.length > 0 && (
        <details className="answered">
          <summary>
            <h3>{words.questions.answered(answered.length)}</h3>
          </summary>
          <p className="soft">{words.questions.answeredLead}</p>
          <ul className="lines">
            {keyed(answered).map(({ key, question }) => (
              <li key={key} data-question={question.id}>
                <Where question={question} />
                <p>
                  <FullName text={question.message} />
                </p>
                <QuestionAnswer question={question} onAnswered={() => goOn(answered, question)} />
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

/** To the run on the Bench while it is being made, else to the cell in Runs. */
function WayTo({ question, onBench, route }: { question: QuestionView; onBench: StudyView["onBench"]; route: Route }) {
  const { study } = useWords();
  const { phase, run, column } = question;
  const made = onBench.find((one) => one.run === run);
  const address =
    made === undefined
      ? addressOf({ ...route, screen: "runs", show: "readings", phase, run, column })
      : addressOf({ ...route, screen: "bench", bench: made.id, step: null });
  return <a href={address}>{made === undefined ? study.look : study.lookOnBench}</a>;
}

/** To what is set up: the question is about that. */
function WayToSetUp({ subject, onSetUp }: { subject: SetUpSubject; onSetUp: (subject: SetUpSubject) => void }) {
  const words = useWords().setUp;
  return (
    <button type="button" className="plain" onClick={() => onSetUp(subject)}>
      {words.lookAt}
    </button>
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
