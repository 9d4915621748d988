import type { CellDraft } from "./cell-desk.ts";

/** What was typed into cells and is not on disk yet: it outlives a reload, not the window. */
const place = "boilbench.cells";

export function rememberDrafts(drafts: readonly CellDraft[]): void {
  const unsaved = drafts.filter((draft) => draft.status !== "saved" && draft.status !== "shown");
  try {
    if (unsaved.length === 0) sessionStorage.removeItem(place);
    else sessionStorage.setItem(place, JSON.stringify(unsaved));
  } catch {
    // Where nothing can be kept it is still there until the page is loaded again.
  }
}

export function recallDrafts(): CellDraft[] {
  try {
    const kept = JSON.parse(sessionStorage.getItem(place) ?? "[]") as CellDraft[];
    // Whether what was under way was done is not known here: it is sent again only when somebody says so.
    return kept.map((draft) => ({ ...draft, status: "kept", refusal: null }));
  } catch {
    return [];
  }
}
