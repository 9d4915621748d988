import type { BrowserWindowConstructorOptions, WebPreferences } from "electron";

/** What a page is made with, said in full, also where it is Electron's own choice today (electronjs.org, "Security"). */
export function pagePreferences(preload: string): WebPreferences {
  return {
    preload,
    contextIsolation: true,
    sandbox: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    webSecurity: true,
    allowRunningInsecureContent: false,
    experimentalFeatures: false,
    navigateOnDragDrop: false,
    webviewTag: false,
    plugins: false,
    spellcheck: false,
  };
}

/** Every window is made alike, whoever asks for it. */
export function windowOptions(title: string, preload: string, dark: boolean): BrowserWindowConstructorOptions {
  return {
    title,
    width: 1280,
    height: 860,
    minWidth: 480,
    minHeight: 480,
    show: false,
    // The page's paper, so that nothing flashes before it is drawn.
    backgroundColor: dark ? "#15171a" : "#f6f3ea",
    webPreferences: pagePreferences(preload),
  };
}
