import { useState } from "react";
import type { StudyView } from "../../../app/contract/index.ts";
import { formatFixed } from "../../../core/index.ts";
import { Cautions } from "../../component/cautions.tsx";
import { FullName } from "../../component/name.tsx";
import { SaveButtons } from "../../component/save-button.tsx";
import { Waiting } from "../../component/waiting.tsx";
import { useLocale, useWords } from "../../state/language.tsx";
import { addressOfScreen, choiceOf, type Route } from "../../state/route.ts";
import { useStudy } from "../../state/study.tsx";
import { Backups } from "./backups.tsx";
import { BlankSheets } from "./blank-sheets.tsx";
import { FirstRun } from "./first-run.tsx";
import { OpenExample } from "./open-example.tsx";
import { QuestionList } from "./question-list.tsx";
import { RecordOfChanges } from "./record.tsx";
import { SetUp, type WantedPart } from "./set-up.tsx";
import { StudyFile } from "./study-file.tsx";
import { LeftOut, NamedDetails, OnBench } from "./study-lists.tsx";
import { StudyTitle } from "./study-title.tsx";
import { VariantTable } from "./variant-table.tsx";

/** What are we testing, and how far are we? */
export function StudyScreen({ route }: { route: Route }) {
  const { view } = useStudy();
  const words = useWords().study;
  const [wanted, setWanted] = useState<WantedPart | null>(route.setUp === null ? null : { subject: route.setUp });
  if (view === null) {
    return (
      <>
        <h1>{words.title}</h1>
        <Waiting />
      </>
    );
  }
  const isEmpty = view.runs === 0;
  return (
    <div className="study">
      <StudyTitle view={view} />
      <p className="soft study-method">
        <MethodLine view={view} />
        {view.isExample && (
          <>
            <br />
            {words.ownStudyLead}{" "}
            <a href={addressOfScreen(route, "studies")} aria-keyshortcuts="Control+O">
              {words.ownStudy}
            </a>{" "}
            <kbd>{words.ownStudyKey}</kbd>
          </>
        )}
      </p>
      {isEmpty && (
        <div className="study-empty">
          <p className="voice">{words.empty}</p>
          <FirstRun view={view} route={route} />
          <p>{words.emptyRemedy}</p>
          <a className="act quiet" href={addressOfScreen(route, "import")}>
            {words.toImport}
          </a>
          <OpenExample />
        </div>
      )}
      <SetUp key={view.study} view={view} wanted={wanted} />
      <div className="beside">
        <div>
          {!isEmpty && <VariantTable variants={view.variants} />}
          {!isEmpty && (
            <QuestionList
              questions={view.questions}
              open={view.openQuestions}
              onBench={view.onBench}
              answered={view.answeredQuestions}
              route={route}
              onSetUp={(subject) => setWanted({ subject })}
            />
          )}
          <OnBench view={view} route={route} />
          <LeftOut view={view} />
          {!isEmpty && <Inputs view={view} />}
          <RecordOfChanges route={route} />
          <Backups />
        </div>
        <div>
          <StudyFile view={view} route={route} />
          <BlankSheets />
          {!isEmpty && <Keep route={route} hasAnswers={view.answeredQuestions.length > 0} />}
          <NamedDetails title={words.fuels} items={view.fuels} />
          <NamedDetails title={words.settings} items={view.settings} none={words.noSettings} />
          {view.notes.length > 0 && (
            <section>
              <h2>{words.notes}</h2>
              <ul className="lines">
                {view.notes.map((note) => (
                  <li key={note}>
                    <FullName text={note} />
                  </li>
                ))}
              </ul>
            </section>
          )}
        </div>
      </div>
      <Cautions />
    </div>
  );
}

function MethodLine({ view }: { view: StudyView }) {
  const { study, separator } = useWords();
  const locale = useLocale();
  const level = view.confidence * 100;
  return [
    study.method[view.method],
    study.confidence(formatFixed(level, Number.isInteger(Math.round(level * 10) / 10) ? 0 : 1, locale)),
    ...(view.blocks.length > 0 ? [study.blocks(view.blocks.length)] : []),
    ...(view.operators.length > 0 ? [study.operators(view.operators.length)] : []),
  ].join(separator);
}

function Keep({ route, hasAnswers }: { route: Route; hasAnswers: boolean }) {
  const { study: words, questions } = useWords();
  return (
    <section className="keep">
      <h2>{words.keep}</h2>
      <p className="soft">
        {words.keepLead} {hasAnswers && questions.notInFiles}
      </p>
      <SaveButtons kinds={["readings.csv", "settings.json"]} choice={choiceOf(route)} />
      <OpenExample />
    </section>
  );
}

function Inputs({ view }: { view: StudyView }) {
  const words = useWords().study;
  return (
    <section>
      <h2>{words.inputs}</h2>
      {view.inputs.length === 0 && <p className="soft">{words.noInputs}</p>}
      <ul className="lines">
        {view.inputs.map((input) => (
          <li key={input.file}>
            <FullName text={input.file} />
            <div className="soft small digest">
              {words.digest} <code>{input.sha256}</code>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}
