import { useState } from "react";
import type { RecordedView } from "../../../app/contract/index.ts";
import { Moment } from "../../component/moment.tsx";
import { FullName, Name } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { SaveButtons } from "../../component/save-button.tsx";
import { Waiting } from "../../component/waiting.tsx";
import { useAsked } from "../../state/asked.ts";
import { useWords } from "../../state/language.tsx";
import { choiceOf, type Route } from "../../state/route.ts";
import { useStudy } from "../../state/study.tsx";

/** How many changes are shown at first. */
const firstShown = 5;

/** Who changed what, when and why, newest first. */
export function RecordOfChanges({ route }: { route: Route }) {
  const { changes: words } = useWords();
  const [pages, setPages] = useState(0);
  return (
    <section className="record">
      <h2>{words.record}</h2>
      <p className="soft">{words.recordLead}</p>
      <RecordPage before={null} pages={pages} onOlder={() => setPages((before) => before + 1)} />
      <SaveButtons kinds={["record.csv"]} choice={choiceOf(route)} />
    </section>
  );
}

/** The changes before one of them, and as many pages after it as were asked for; none: the newest few. */
function RecordPage({ before, pages, onOlder }: { before: number | null; pages: number; onOlder: () => void }) {
  const { changes: words } = useWords();
  const { handle, stamp } = useStudy();
  const { value, refusal } = useAsked<"record.show">({ kind: "record.show", study: handle, before }, stamp);
  if (refusal !== null) return <Refused refusal={refusal} />;
  if (value === null) return <Waiting />;
  const { edits, more } = value;
  const last = edits.at(-1);
  if (last === undefined) return before === null ? <p className="soft">{words.noRecord}</p> : null;
  const shown = pages === 0 ? edits.slice(0, firstShown) : edits;
  const isLast = shown.length === edits.length && !more;
  return (
    <>
      <ol className="lines">
        {shown.map((one) => (
          <Recorded key={one.edit} one={one} />
        ))}
      </ol>
      {!isLast && pages > 1 && <RecordPage before={last.edit} pages={pages - 1} onOlder={onOlder} />}
      {!isLast && pages <= 1 && (
        <button type="button" className="act quiet" onClick={onOlder}>
          {words.older}
        </button>
      )}
    </>
  );
}

function Recorded({ one }: { one: RecordedView }) {
  const { changes: words } = useWords();
  return (
    <li>
      <FullName text={one.what} />
      {one.why !== null && (
        <div>
          <FullName text={words.because(one.why)} />
        </div>
      )}
      <div className="soft small">
        <Moment at={one.at} /> <Name text={one.who} />
      </div>
    </li>
  );
}
