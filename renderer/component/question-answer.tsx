import { useEffect, useId, useRef, useState } from "react";
import type { QuestionView, Refusal } from "../../app/contract/index.ts";
import { useMakeEdit } from "../state/change.ts";
import { isRefusal } from "../state/host.ts";
import { useWords } from "../state/language.tsx";
import { useStudy } from "../state/study.tsx";
import { Moment } from "./moment.tsx";
import { FullName, Name } from "./name.tsx";
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
  const words = all.questions;
  const make = useMakeEdit();
  const [reason, setReason] = useState<string | null>(null);
  const [isLacking, setIsLacking] = useState(false);
  const [isBusy, setIsBusy] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const input = useRef<HTMLInputElement>(null);
  const opener = useRef<HTMLButtonElement>(null);
  const id = useId();
  const isAsking = reason !== null;
  const lacks = isLacking && (reason ?? "").trim() === "";

  useEffect(() => {
    if (isAsking) input.current?.focus();
  }, [isAsking]);

  const close = () => {
    setReason(null);
    setRefusal(null);
    setIsLacking(false);
    setTimeout(() => opener.current?.focus());
  };
  const send = async () => {
    const because = reason?.trim() ?? "";
    setIsLacking(because === "");
    if (because === "" || isBusy) {
      input.current?.focus();
      return;
    }
    setIsBusy(true);
    setRefusal(null);
    const answer = await make({ kind: "answer", question: question.id, because });
    setIsBusy(false);
    if (answer?.ok === true) {
      setReason(null);
      onAnswered();
    } else if (answer !== null && isRefusal(answer)) setRefusal(answer);
    // Nobody was named, or the host does not answer: what was typed waits here.
    else input.current?.focus();
  };

  if (!isAsking) {
    return (
      <div className="question-answer">
        <button
          ref={opener}
          type="button"
          className="act quiet"
          aria-label={words.itIsRightAt(questionPlace(question, all))}
          onClick={() => setReason("")}
        >
          {words.itIsRight}
        </button>
      </div>
    );
  }
  return (
    <div className="question-answer">
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void send();
        }}
        onKeyDown={(event) => {
          if (event.key !== "Escape") return;
          event.preventDefault();
          event.stopPropagation();
          close();
        }}
      >
        <label>
          <span>{words.because}</span>
          <input
            ref={input}
            className="field"
            autoComplete="off"
            dir="auto"
            maxLength={10_000}
            value={reason}
            aria-invalid={lacks}
            aria-describedby={`${id}-lack ${id}-keys`}
            onChange={(event) => setReason(event.target.value)}
          />
        </label>
        <p className="soft small" id={`${id}-keys`}>
          {words.keys}
        </p>
        <p role="status" id={`${id}-lack`}>
          {lacks ? words.reasonNeeded : ""}
        </p>
        <div className="acts">
          <button type="submit" className="act quiet" aria-busy={isBusy}>
            {words.save}
          </button>
          <button type="button" className="plain" onClick={close}>
            {words.cancel}
          </button>
        </div>
      </form>
      {refusal !== null && <Refused refusal={refusal} />}
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
