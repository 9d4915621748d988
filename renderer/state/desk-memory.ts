import type { Mend } from "./import-desk.ts";

/** What a person did to a file on its way in, as far as the host does not keep it: it outlives a reload, not the window. */
export interface DeskMemory {
  readonly importId: string;
  readonly leftOut: readonly number[];
  readonly mends: readonly Mend[];
  readonly studyName: string | null;
}

const place = "boilbench.desk";

export function remember(memory: DeskMemory): void {
  try {
    sessionStorage.setItem(place, JSON.stringify(memory));
  } catch {
    // Where nothing can be kept the file is still on the desk until the page is loaded again.
  }
}

export function forget(): void {
  try {
    sessionStorage.removeItem(place);
  } catch {
    // Nothing was kept.
  }
}

/** What was done to this very file; nothing where it is another, or where nothing was kept. */
export function recall(importId: string): DeskMemory {
  const nothing: DeskMemory = { importId, leftOut: [], mends: [], studyName: null };
  try {
    const kept = JSON.parse(sessionStorage.getItem(place) ?? "null") as DeskMemory | null;
    return kept?.importId === importId ? kept : nothing;
  } catch {
    return nothing;
  }
}
