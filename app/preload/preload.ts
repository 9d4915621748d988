import { contextBridge, ipcRenderer } from "electron";
import type { Reply } from "../contract/index.ts";
import { askChannel, type MenuStep, stepChannel } from "../host/desktop-names.ts";

let heard: ((way: MenuStep) => void) | null = null;
ipcRenderer.on(stepChannel, (_event, way: unknown) => {
  if (way === "undo" || way === "redo") heard?.(way);
});

// All that the page gets of the desktop: a channel to ask on, one to hear the menu's undo and redo, and data only. The door checks
// what is sent.
contextBridge.exposeInMainWorld("boilbench", {
  ask: (message: unknown): Promise<Reply> => ipcRenderer.invoke(askChannel, message),
  /** One listener: the last that was given. */
  onStep: (listener: (way: MenuStep) => void): void => {
    heard = listener;
  },
});
