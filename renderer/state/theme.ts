import { useSyncExternalStore } from "react";

export const themes = ["system", "light", "dark"] as const;
export type Theme = (typeof themes)[number];

const place = "boilbench.theme";
const listeners = new Set<() => void>();

/** The chosen theme; the system's where nothing was chosen or nothing can be kept. */
export function readTheme(): Theme {
  try {
    return themes.find((theme) => theme === localStorage.getItem(place)) ?? "system";
  } catch {
    return "system";
  }
}

let chosen: Theme = "system";

function show(theme: Theme): void {
  if (theme === "system") delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = theme;
}

/** Called once, before the page is drawn. */
export function startTheme(): void {
  chosen = readTheme();
  show(chosen);
}

export function chooseTheme(theme: Theme): void {
  chosen = theme;
  show(theme);
  try {
    localStorage.setItem(place, theme);
  } catch {
    // Where nothing can be kept the choice lasts as long as the page.
  }
  for (const listener of listeners) listener();
}

const systemDark = () => window.matchMedia?.("(prefers-color-scheme: dark)");

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  const system = systemDark();
  system?.addEventListener("change", listener);
  return () => {
    listeners.delete(listener);
    system?.removeEventListener("change", listener);
  };
}

export function useTheme(): Theme {
  return useSyncExternalStore(subscribe, () => chosen);
}

/** Whether dark colours are shown now: charts are drawn, not styled, and must be told. */
export function useIsDark(): boolean {
  return useSyncExternalStore(
    subscribe,
    () => chosen === "dark" || (chosen === "system" && systemDark()?.matches === true),
  );
}
