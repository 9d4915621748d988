import type { Backup } from "./backup.ts";

/** How many backups are kept: a bound on space, and on how far back one can go. */
export const keptNewest = 10;
export const keptDays = 14;
export const keptBeforeMigrations = 3;

/** What was made later than this is of a clock that was set back since. */
const slack = 60_000;

/**
 * Those of a study's backups that are to go: all but the newest 10, the newest of each day (UTC) of the last 14 days, and the
 * newest 3 that were made before a migration. A backup that is not sound never keeps a sound one from its place, and one that a
 * wrong clock dates after now never one that was made now: of those another 10 stay.
 */
export function backupsToRemove(backups: readonly Backup[], now: Date): Backup[] {
  const newestFirst = backups.toSorted((a, b) => (a.at < b.at ? 1 : a.at > b.at ? -1 : a.id < b.id ? 1 : -1));
  const sound = newestFirst.filter((backup) => backup.sound);
  const later = new Date(now.getTime() + slack).toISOString();
  const ofLater = sound.filter(({ at }) => at > later);
  const kept = new Set([
    ...ofLater.slice(0, keptNewest),
    ...sound.filter(({ at }) => at <= later).slice(0, keptNewest),
  ]);
  for (const backup of sound.filter(({ why }) => why === "beforeMigration").slice(0, keptBeforeMigrations))
    kept.add(backup);

  const since = new Date(now.getTime() - keptDays * 86_400_000).toISOString();
  const days = new Set<string>();
  for (const backup of sound) {
    const day = backup.at.slice(0, 10);
    if (backup.at < since || days.has(day)) continue;
    days.add(day);
    kept.add(backup);
  }
  // What is not sound may still be read in part: it goes as those of its age do.
  for (const backup of newestFirst.slice(0, keptNewest)) if (!backup.sound) kept.add(backup);
  return newestFirst.filter((backup) => !kept.has(backup));
}
