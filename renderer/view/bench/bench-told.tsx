import { useEffect, useRef, useState } from "react";
import type { BenchFieldView, BenchStepView, QuestionView } from "../../../app/contract/index.ts";
import { FullName, shortened } from "../../component/name.tsx";
import type { BenchDesk } from "../../state/bench-desk.ts";
import { benchKey } from "../../state/bench-walk.ts";
import { isOnDisk } from "../../state/cell-desk.ts";
import { useWords } from "../../state/language.tsx";
import { BenchQuestions } from "./bench-questions.tsx";

/**
 * What is told above the step: questions of no field, those of the step that was just left, those that a reading of this step raises
 * about an earlier one, and what is not saved elsewhere.
 */
export function BenchTold({ desk }: { desk: BenchDesk }) {
  const { run } = desk;
  return (
    <div className="bench-told">
      <BenchQuestions questions={run.questions} onAnswered={() => desk.openStep(desk.step)} />
      <AskedElsewhere desk={desk} />
      <UnsavedElsewhere desk={desk} />
      <Announced desk={desk} />
    </div>
  );
}

const openIn = (field: BenchFieldView): readonly QuestionView[] =>
  field.questions.filter(({ answer }) => answer === null);

interface AskedAt {
  readonly step: BenchStepView;
  readonly field: BenchFieldView;
  readonly question: QuestionView;
}

/** Names of the questions that were open when the step was gone to. */
function useOpenBefore(step: string, asked: readonly AskedAt[]): ReadonlySet<string> {
  const before = useRef<{ step: string; ids: ReadonlySet<string> } | null>(null);
  if (before.current?.step !== step) {
    before.current = { step, ids: new Set(asked.map(({ question }) => question.id)) };
  }
  return before.current.ids;
}

/**
 * Enter at the end of a step goes on at once: what its fields are asked is still seen from the next one. And what is weighed now may
 * make an earlier weighing odd: that is told where the work is.
 */
function AskedElsewhere({ desk }: { desk: BenchDesk }) {
  const words = useWords().bench;
  const all = desk.run.steps.flatMap((step) =>
    step.fields.flatMap((field) => openIn(field).map((question): AskedAt => ({ step, field, question }))),
  );
  const openBefore = useOpenBefore(desk.step, all);
  const asked = all.filter(
    ({ step, question }) => step.id !== desk.step && (step.id === desk.cameFrom || !openBefore.has(question.id)),
  );
  if (asked.length === 0) return null;
  return (
    <ul className="bench-questions">
      {asked.map(({ step, field, question }) => (
        <li className="mark" key={question.id}>
          <b className="small">{words.before(step.title, field.name)}</b>
          <p>
            <FullName text={question.message} />
          </p>
          <button
            type="button"
            className="plain"
            onClick={() => desk.sendTo({ step: step.id, field: benchKey(field) })}
          >
            {words.lookAgain}
          </button>
        </li>
      ))}
    </ul>
  );
}

/** What was typed into fields of other steps and is not on disk. */
function UnsavedElsewhere({ desk }: { desk: BenchDesk }) {
  const { bench: words, changes } = useWords();
  const elsewhere = desk.run.steps
    .filter(({ id }) => id !== desk.step)
    .flatMap((step) => step.fields.map((field) => ({ step, field, draft: desk.draftOf(field) })))
    .filter(
      ({ draft }) => draft !== undefined && !isOnDisk(draft) && draft.status !== "saving" && draft.status !== "typing",
    );
  if (elsewhere.length === 0) return null;
  return (
    <section className="unsaved" aria-label={words.unsavedTitle}>
      <h2>{words.unsavedTitle}</h2>
      <ul className="bench-questions">
        {elsewhere.map(({ step, field, draft }) => (
          <li className="mark" key={benchKey(field)}>
            <p>
              <FullName text={words.unsaved(words.before(step.title, field.name), shortened(draft?.text ?? "", 120))} />
            </p>
            {draft?.refusal != null && (
              <p role="alert">
                <FullName text={draft.refusal.message} />
              </p>
            )}
            <div className="acts">
              <button
                type="button"
                className="act quiet"
                onClick={() => desk.sendTo({ step: step.id, field: benchKey(field) })}
              >
                {words.toUnsaved}
              </button>
              <button type="button" className="plain" onClick={() => desk.restore(field)}>
                {changes.drop}
              </button>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Questions that came up since the run was opened here are said aloud, politely and once. */
function Announced({ desk }: { desk: BenchDesk }) {
  const words = useWords().bench;
  const known = useRef<ReadonlySet<string> | null>(null);
  const [said, setSaid] = useState("");
  const { run } = desk;
  useEffect(() => {
    const all = [
      ...run.questions.map((question) => ({ question, text: question.message })),
      ...run.steps.flatMap(({ fields }) =>
        fields.flatMap((field) =>
          openIn(field).map((question) => ({ question, text: words.questionHere(field.name, question.message) })),
        ),
      ),
    ];
    const before = known.current;
    known.current = new Set(all.map(({ question }) => question.id));
    const fresh = all.filter(({ question }) => before?.has(question.id) === false);
    if (fresh.length > 0) setSaid(fresh.map(({ text }) => text).join(" "));
  }, [run, words]);
  return (
    <p className="visually-hidden" role="status">
      {said}
    </p>
  );
}
