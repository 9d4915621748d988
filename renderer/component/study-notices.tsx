import { useState } from "react";
import type { Refusal } from "../../app/contract/index.ts";
import { askHost, isRefusal } from "../state/host.ts";
import { useWords } from "../state/language.tsx";
import { addressOfScreen, type Go, type Route } from "../state/route.ts";
import { useStudy } from "../state/study.tsx";
import { useAskWho } from "../state/who.ts";
import { FullName } from "./name.tsx";
import { PlaceBackups } from "./place-backups.tsx";
import { Refused } from "./refused.tsx";

/** Where the Study page has its backups. */
export const backupsId = "backups";

function toBackups(go: Go): void {
  go({ screen: "study" });
  setTimeout(() => document.getElementById(backupsId)?.focus());
}

/** What is to be known of the study's file: that it cannot be changed, and why; that it is worked on as a copy; … */
export function StudyNotices({ go, onWritable }: { go: Go; onWritable: () => void }) {
  const { studies: words, changes } = useWords();
  const { view } = useStudy();
  if (view === null || (view.readOnly === null && view.fileNotes.length === 0)) return null;
  return (
    <div className="notices">
      {view.readOnly !== null && (
        <div className="mark notice" role="status">
          <b>{words.readOnly}</b>
          <p>
            <FullName text={view.readOnly} />
          </p>
          <div className="acts">
            <OpenAnew go={go} onWritable={onWritable} />
            <button type="button" className="plain" onClick={() => toBackups(go)}>
              {changes.toBackups}
            </button>
          </div>
        </div>
      )}
      {view.fileNotes.map((note) => (
        <p className="soft small" key={note}>
          <FullName text={note} />
        </p>
      ))}
    </div>
  );
}

/** Opens the file once more: whoever held it may have let go of it. */
function OpenAnew({ go, onWritable }: { go: Go; onWritable: () => void }) {
  const words = useWords().studies;
  const { view, reopened } = useStudy();
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const [isBusy, setIsBusy] = useState(false);

  const open = async () => {
    setIsBusy(true);
    const shelf = await askHost<"shelf.show">({ kind: "shelf.show" });
    const place = shelf.ok
      ? shelf.value.studies.find((one) => one.file === view?.file && !one.isGone)?.place
      : undefined;
    if (shelf.ok && place === undefined) {
      go({ screen: "studies" });
      return;
    }
    if (place !== undefined) {
      const answer = await askHost<"study.open">({ kind: "study.open", place });
      if (answer.ok) {
        reopened(answer.value, answer.value.readOnly === null ? words.writable : words.stillReadOnly);
        if (answer.value.readOnly === null) onWritable();
      } else if (isRefusal(answer)) setRefusal(answer);
    } else if (!shelf.ok && isRefusal(shelf)) setRefusal(shelf);
    setIsBusy(false);
  };

  return (
    <>
      <button type="button" className="act quiet" aria-busy={isBusy} onClick={() => !isBusy && void open()}>
        {words.openAnew}
      </button>
      {refusal !== null && <Refused refusal={refusal} />}
    </>
  );
}

/** The study of the address is not open: why, and the way to those that are. */
export function StudyGone({ refusal, route }: { refusal: Refusal; route: Route }) {
  const words = useWords().studies;
  const askWho = useAskWho();
  const mayOpen = async () => (await askWho.ask()) !== null;
  return (
    <div className="study-empty">
      <h1>{words.gonePage}</h1>
      <p className="prose" role="alert">
        <FullName text={refusal.message} />
      </p>
      {route.study !== null && <PlaceBackups place={route.study} mayOpen={mayOpen} />}
      <a className="act" href={addressOfScreen({ ...route, study: null }, "studies")}>
        {words.toStudies}
      </a>
    </div>
  );
}
