import { useState } from "react";
import type { QuestionView, Refusal } from "../../app/contract/index.ts";
import { useMakeEdit } from "../state/change.ts";
import { isRefusal } from "../state/host.ts";
import { useWords } from "../state/language.tsx";
import { useStudy } from "../state/study.tsx";
import { Moment } from "./moment.tsx";
import { FullName, Name } from "./name.tsx";
import { ReasonForm } from "./reason-form.tsx";
import { Refused } from "./refused.tsx";

/** What a question is about, in words: "R07, simmer, end". */
export function questionPlace({ run, phase, column }: QuestionView, words: ReturnType<typeof useWords>): string {
  return [
    run ?? words.study.wholeStudy,
    ...(phase === null ? [] : [words.phase(phase)]),
    ...(column === null ? [] : [words.reading(column)]),
  ].join(", ");
}

interface Answering {
  readonly question: QuestionView;
  /** The answer is on disk, or was taken back: whoever shows the question says where the focus goes. */
  readonly onAnswered: () => void;
}

/** Answers a question in its place ("It is right, because …"); of an answered one: the answer, and a way to open it again. */
export function QuestionAnswer({ question, onAnswered }: Answering) {
  const { view } = useStudy();
  const canChange = view !== null && view.readOnly === null;
  if (question.answer !== null) return <Answered {...{ question, onAnswered, canChange }} />;
  return canChange ? <Open question={question} onAnswered={onAnswered} /> : null;
}

function Open({ question, onAnswered }: Answering) {
  const all = useWords();
  const { itIsRight: open, itIsRightAt, because: reason, keys, reasonNeeded, save: send, cancel } = all.questions;
  const openAt = itIsRightAt(questionPlace(question, all));
  return (
    <div className="question-answer">
      <ReasonForm
        words={{ open, openAt, reason, keys, reasonNeeded, send, cancel }}
        edit={(because) => ({ kind: "answer", question: question.id, because })}
        onDone={onAnswered}
      />
    </div>
  );
}

function Answered({ question, onAnswered, canChange }: Answering & { readonly canChange: boolean }) {
  const all = useWords();
  const words = all.questions;
  const make = useMakeEdit();
  const [isBusy, setIsBusy] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  if (question.answer === null) return null;
  const { because, who, at } = question.answer;
  const reopen = async () => {
    if (isBusy) return;
    setIsBusy(true);
    setRefusal(null);
    const answer = await make({ kind: "reopen", question: question.id });
    setIsBusy(false);
    if (answer?.ok === true) onAnswered();
    else if (answer !== null && isRefusal(answer)) setRefusal(answer);
  };
  return (
    <div className="question-answer">
      <p>
        <FullName text={words.answer(because)} />
      </p>
      <p className="soft small">
        <Moment at={at} /> <Name text={who} />
      </p>
      {canChange && (
        <button
          type="button"
          className="act quiet"
          aria-busy={isBusy}
          aria-label={words.reopenAt(questionPlace(question, all))}
          onClick={() => void reopen()}
        >
          {words.reopen}
        </button>
      )}
      {refusal !== null && <Refused refusal={refusal} />}
    </div>
  );
}
