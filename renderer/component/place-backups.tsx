import { type ReactNode, useState } from "react";
import type { BackupView, Refusal } from "../../app/contract/index.ts";
import { useAsked } from "../state/asked.ts";
import { askHost, isRefusal } from "../state/host.ts";
import { useWords } from "../state/language.tsx";
import { shownMoment } from "../state/moment.ts";
import { useStudy } from "../state/study.tsx";
import { BackupLine } from "./backup-line.tsx";
import { shortened } from "./name.tsx";
import { Refused } from "./refused.tsx";

/** So many backups are seen at once; the older ones are behind a word. */
const firstShown = 3;

/**
 * The backups of a study that cannot be opened, each of which becomes a study of its own. Nothing while they are looked for,
 * and where nothing is known of the place.
 */
export function PlaceBackups({ place, mayOpen }: { place: string; mayOpen: () => Promise<boolean> }) {
  const { changes: words } = useWords();
  const { value } = useAsked<"backups.ofPlace">({ kind: "backups.ofPlace", place }, "");
  if (value === null) return null;
  if (value.backups.length === 0) return <p className="soft small">{words.noPlaceBackups}</p>;
  const lines = (backups: readonly BackupView[]) => (
    <ul className="lines">
      {backups.map((backup) => (
        <PlaceBackup key={backup.id} place={place} backup={backup} mayOpen={mayOpen} />
      ))}
    </ul>
  );
  const older = value.backups.slice(firstShown);
  return (
    <div className="place-backups">
      <p>{words.placeBackups}</p>
      {lines(value.backups.slice(0, firstShown))}
      {older.length > 0 && (
        <details>
          <summary className="small">{words.olderBackups(older.length)}</summary>
          {lines(older)}
        </details>
      )}
    </div>
  );
}

function PlaceBackup({
  place,
  backup,
  mayOpen,
}: {
  place: string;
  backup: BackupView;
  mayOpen: () => Promise<boolean>;
}): ReactNode {
  const { changes: words } = useWords();
  const { opened } = useStudy();
  const [isBusy, setIsBusy] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const moment = shownMoment(backup.at);

  const open = async () => {
    if (isBusy || !(await mayOpen())) return;
    setIsBusy(true);
    setRefusal(null);
    const answer = await askHost<"backups.open">({ kind: "backups.open", place, backup: backup.id });
    setIsBusy(false);
    if (answer.ok) opened(answer.value, words.backupOpened(shortened(answer.value.name, 120), moment));
    else if (isRefusal(answer)) setRefusal(answer);
  };

  return (
    <BackupLine backup={backup}>
      <button
        type="button"
        className="plain small"
        aria-label={words.openBackupOf(moment)}
        aria-busy={isBusy}
        onClick={() => void open()}
      >
        {words.openBackup}
      </button>
      {refusal !== null && <Refused refusal={refusal} />}
    </BackupLine>
  );
}
