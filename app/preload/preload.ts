import { contextBridge, ipcRenderer } from "electron";
import type { Reply } from "../contract/index.ts";
import { askChannel } from "../host/desktop-names.ts";

// All that the page gets of the desktop: one function, one channel, and data only. The door checks what is sent.
contextBridge.exposeInMainWorld("boilbench", {
  ask: (message: unknown): Promise<Reply> => ipcRenderer.invoke(askChannel, message),
});
