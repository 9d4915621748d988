import { useEffect, useState } from "react";
import type { BackupView, Refusal } from "../../../app/contract/index.ts";
import { BackupLine } from "../../component/backup-line.tsx";
import { Dialog } from "../../component/dialog.tsx";
import { FullName, shortened } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { backupsId } from "../../component/study-notices.tsx";
import { Waiting } from "../../component/waiting.tsx";
import { useAsked } from "../../state/asked.ts";
import { askHost, isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";
import { shownMoment } from "../../state/moment.ts";
import { useStudy } from "../../state/study.tsx";
import { useAskWho } from "../../state/who.ts";

/** Earlier states of the whole study; they are looked for once this is opened. It is open where nothing else helps. */
export function Backups() {
  const { changes: words } = useWords();
  const { view } = useStudy();
  const canChange = view?.readOnly === null;
  const [isOpen, setIsOpen] = useState(!canChange);
  useEffect(() => {
    if (!canChange) setIsOpen(true);
  }, [canChange]);
  return (
    <details className="backups" open={isOpen} onToggle={(event) => setIsOpen(event.currentTarget.open)}>
      <summary id={backupsId}>
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
              <Backup key={backup.id} backup={backup} canChange={view?.readOnly === null} />
            ))}
          </ul>
        </>
      )}
      <div className="acts">
        {view?.readOnly === null && (
          <button type="button" className="act quiet" aria-busy={isBusy} onClick={() => !isBusy && void make()}>
            {words.makeBackup}
          </button>
        )}
        <span className="soft small" role="status">
          {done}
        </span>
      </div>
      {refusal !== null && <Refused refusal={refusal} />}
    </>
  );
}

/** Goes back to it; or, where the study cannot be changed, makes it a study of its own. */
function Backup({ backup, canChange }: { backup: BackupView; canChange: boolean }) {
  const { changes: words } = useWords();
  const { handle, edited, opened } = useStudy();
  const askWho = useAskWho();
  const [isAsking, setIsAsking] = useState(false);
  const [isBusy, setIsBusy] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const moment = shownMoment(backup.at);

  const goBack = async () => {
    setIsAsking(false);
    setRefusal(null);
    const who = await askWho.ask();
    if (who === null) return;
    setIsBusy(true);
    const answer = await askHost<"backups.goBack">({ kind: "backups.goBack", study: handle, backup: backup.id, who });
    setIsBusy(false);
    if (answer.ok && answer.value.study === handle) edited(answer.value, words.wentBack(moment));
    else if (answer.ok) opened(answer.value, words.backupOpened(shortened(answer.value.name, 120), moment));
    else if (isRefusal(answer)) setRefusal(answer);
  };

  return (
    <BackupLine backup={backup}>
      <button
        type="button"
        className="plain small"
        aria-label={canChange ? words.goBackTo(moment) : words.openBackupOf(moment)}
        aria-busy={isBusy}
        onClick={() => {
          if (isBusy) return;
          if (canChange) setIsAsking(true);
          else void goBack();
        }}
      >
        {canChange ? words.goBack : words.openBackup}
      </button>
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
    </BackupLine>
  );
}
