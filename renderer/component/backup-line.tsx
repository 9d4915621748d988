import type { ReactNode } from "react";
import type { BackupView } from "../../app/contract/index.ts";
import { formatFixed } from "../../core/index.ts";
import { useLocale, useWords } from "../state/language.tsx";
import { Moment } from "./moment.tsx";
import { FullName } from "./name.tsx";

/** When a backup was made, why, and what it holds; and what can be done with it. */
export function BackupLine({ backup, children }: { backup: BackupView; children: ReactNode }) {
  const { changes: words } = useWords();
  const locale = useLocale();
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
      {children}
    </li>
  );
}
