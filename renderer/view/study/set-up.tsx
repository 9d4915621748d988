import { useEffect, useRef, useState } from "react";
import type { SetUpSectionView, SetUpSubject, StudyView } from "../../../app/contract/index.ts";
import { Refused } from "../../component/refused.tsx";
import { Waiting } from "../../component/waiting.tsx";
import { useAsked } from "../../state/asked.ts";
import { useWords } from "../../state/language.tsx";
import { useStudy } from "../../state/study.tsx";
import { SetUpCatalogue } from "./set-up-catalogue.tsx";
import { SetUpTable } from "./set-up-table.tsx";

/** A part that a question led to; another object each time that it does. */
export interface WantedPart {
  readonly subject: SetUpSubject;
}

/** What is set up for the study, as tables that are filled in. Looked for once it is opened; a study without runs begins with it. */
export function SetUp({ view, wanted }: { view: StudyView; wanted: WantedPart | null }) {
  const words = useWords().setUp;
  const [isOpen, setIsOpen] = useState(view.runs === 0);
  useEffect(() => {
    if (wanted !== null) setIsOpen(true);
  }, [wanted]);
  return (
    <details className="set-up" open={isOpen} onToggle={(event) => setIsOpen(event.currentTarget.open)}>
      <summary>
        <h2>{words.title}</h2>
      </summary>
      {isOpen && <SetUpSections canChange={view.readOnly === null} wanted={wanted} />}
    </details>
  );
}

function SetUpSections({ canChange, wanted }: { canChange: boolean; wanted: WantedPart | null }) {
  const words = useWords().setUp;
  const { handle, stamp } = useStudy();
  const { value, refusal } = useAsked<"setup.show">({ kind: "setup.show", study: handle }, stamp);
  return (
    <>
      <p className="soft prose">{canChange ? words.lead : words.readOnly}</p>
      {refusal !== null && <Refused refusal={refusal} />}
      {value === null && refusal === null && <Waiting />}
      {value?.sections.map((section) => (
        <SetUpSection
          key={section.subject}
          section={section}
          canChange={canChange}
          wanted={wanted?.subject === section.subject ? wanted : null}
        />
      ))}
    </>
  );
}

/** One table, folded but for the variants. */
function SetUpSection({
  section,
  canChange,
  wanted,
}: {
  section: SetUpSectionView;
  canChange: boolean;
  wanted: WantedPart | null;
}) {
  const [isOpen, setIsOpen] = useState(section.subject === "variant");
  const summary = useRef<HTMLElement>(null);
  useEffect(() => {
    if (wanted === null) return;
    setIsOpen(true);
    summary.current?.focus();
    summary.current?.scrollIntoView({ block: "start" });
  }, [wanted]);
  return (
    <details className="set-up-part" open={isOpen} onToggle={(event) => setIsOpen(event.currentTarget.open)}>
      <summary ref={summary}>
        <h3>{section.title}</h3> <span className="soft small">{summaryOf(section)}</span>
      </summary>
      {isOpen && (
        <>
          <p className="soft prose">{section.sentence}</p>
          <SetUpTable section={section} canChange={canChange} />
          {canChange && section.catalogue !== null && (
            <SetUpCatalogue subject={section.subject} title={section.title} catalogue={section.catalogue} />
          )}
        </>
      )}
    </details>
  );
}

/** How many there are; of what there is always one of, what was chosen, or what it comes to. */
function summaryOf({ items, add, fields }: SetUpSectionView): string {
  if (add !== null) return String(items.length);
  const [only] = items;
  if (items.length !== 1 || only === undefined) {
    return String(items.filter(({ texts }) => texts.some((text) => text !== "")).length);
  }
  const chosen = fields[0]?.choices?.find(({ value }) => value === only.texts[0]);
  return chosen?.label ?? only.detail;
}
