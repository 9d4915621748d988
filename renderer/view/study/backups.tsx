import { useState } from "react";
import type { BackupView, Refusal } from "../../../app/contract/index.ts";
import { formatFixed } from "../../../core/index.ts";
import { Dialog } from "../../component/dialog.tsx";
import { Moment } from "../../component/moment.tsx";
import { FullName } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { Waiting } from "../../component/waiting.tsx";
import { useAsked } from "../../state/asked.ts";
import { askHost, isRefusal } from "../../state/host.ts";
import { useLocale, useWords } from "../../state/language.tsx";
import { shownMoment } from "../../state/moment.ts";
import { useStudy } from "../../state/study.tsx";
import { useAskWho } from "../../state/who.ts";

/** Earlier states of the whole study; they are looked for once this is opened. */
export function Backups() {
  const { changes: words } = useWords();
  const [isOpen, setIsOpen] = useState(false);
  return (
    <details className="backups" onToggle={(event) => setIsOpen(event.currentTarget.open)}>
      <summary>
        <h2>{words.backups}</h2>
      </summary>
      {isOpen && <BackupList />}
    </details>
  );
}

function BackupList() {
  const { changes: words } = useWords();
  const { handle, view, stamp } = useStudy();
  const [made, setMade] = useState(0);
  const asked = useAsked<"backups.show">({ kind: "backups.show", study: handle }, `${stamp}${made}`);
  const [isBusy, setIsBusy] = useState(false);
  const [done, setDone] = useState("");
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const shown = asked.value;

  const make = async () => {
    setIsBusy(true);
    setDone("");
    setRefusal(null);
    const answer = await askHost<"backups.make">({ kind: "backups.make", study: handle });
    setIsBusy(false);
    if (answer.ok) {
      setMade((before) => before + 1);
      setDone(words.backupMade);
    } else if (isRefusal(answer)) setRefusal(answer);
  };

  return (
    <>
      {asked.refusal !== null && <Refused refusal={asked.refusal} />}
      {shown === null && asked.refusal === null && <Waiting />}
      {shown !== null && (
        <>
          <p className="soft small">
            <FullName text={words.backupsLead(shown.folder)} />
          </p>
          {shown.backups.length === 0 && <p className="soft">{words.noBackups}</p>}
          <ul className="lines">
            {shown.backups.map((backup) => (
              <Backup key={backup.id} backup={backup} canGoBack={view?.readOnly === null} />
            ))}
          </ul>
        </>
      )}
      <div className="acts">
        <button type="button" className="act quiet" aria-busy={isBusy} onClick={() => !isBusy && void make()}>
          {words.makeBackup}
        </button>
        <span className="soft small" role="status">
          {done}
        </span>
      </div>
      {refusal !== null && <Refused refusal={refusal} />}
    </>
  );
}

function Backup({ backup, canGoBack }: { backup: BackupView; canGoBack: boolean }) {
  const { changes: words } = useWords();
  const locale = useLocale();
  const { handle, edited } = useStudy();
  const askWho = useAskWho();
  const [isAsking, setIsAsking] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const moment = shownMoment(backup.at);

  const goBack = async () => {
    setIsAsking(false);
    setRefusal(null);
    const who = await askWho.ask();
    if (who === null) return;
    const answer = await askHost<"backups.goBack">({ kind: "backups.goBack", study: handle, backup: backup.id, who });
    if (answer.ok) edited(answer.value, words.wentBack(moment));
    else if (isRefusal(answer)) setRefusal(answer);
  };

  return (
    <li className="backup">
      <div>
        <b>
          <Moment at={backup.at} />
        </b>{" "}
        <FullName text={backup.why} />
        <div className="soft small">
          {words.backup(backup.runs, backup.edits, formatFixed(Math.max(1, Math.round(backup.kilobytes)), 0, locale))}
        </div>
      </div>
      {canGoBack && (
        <button
          type="button"
          className="plain small"
          aria-label={words.goBackTo(moment)}
          onClick={() => setIsAsking(true)}
        >
          {words.goBack}
        </button>
      )}
      {refusal !== null && <Refused refusal={refusal} />}
      {isAsking && (
        <Dialog className="ask" label={words.goBackTitle} onClose={() => setIsAsking(false)}>
          <h2>{words.goBackTitle}</h2>
          <p>{words.goBackText(moment, backup.runs)}</p>
          <div className="acts">
            <button type="button" className="act quiet" onClick={() => setIsAsking(false)}>
              {words.goBackCancel}
            </button>
            <button type="button" className="act" onClick={() => void goBack()}>
              {words.goBackConfirm}
            </button>
          </div>
        </Dialog>
      )}
    </li>
  );
}
