import { BrowserWindow, dialog, nativeTheme } from "electron";
import type { Words } from "../../core/index.ts";
import { type MenuStep, pageOrigin, stepChannel } from "../host/desktop-names.ts";
import { studyExtension } from "../host/study-path.ts";
import type { RemoteDoor } from "./door-over-port.ts";
import { studyAddress, studyShown } from "./policy.ts";
import { windowOptions } from "./window-options.ts";

export interface Windows {
  /** Another window, on a study or on what the page shows by itself. */
  open(study?: string): void;
  /** The window in use, or one where there is none. */
  show(): void;
  /** Opens a study's file, and shows it: in the window that has it already, or in one of its own. */
  openFile(path: string): Promise<void>;
  /** Asks for a study's file, and opens it. */
  chooseFile(): Promise<void>;
  /** Tells the page of the window in use to undo, or to do again. */
  step(way: MenuStep): void;
}

/** The program's windows. They are all made alike; what they show is chosen within the page. */
export function createWindows(options: {
  readonly preload: string;
  readonly words: Words["hosts"];
  readonly service: Pick<RemoteDoor, "openFile">;
  /** A window could not show the page; how many others are open. */
  readonly failed: (error: unknown, others: number) => void;
}): Windows {
  const { words } = options;
  const latest = () => BrowserWindow.getFocusedWindow() ?? BrowserWindow.getAllWindows().at(-1) ?? null;

  const raise = (window: BrowserWindow) => {
    if (window.isMinimized()) window.restore();
    window.focus();
  };

  const windows: Windows = {
    open(study) {
      const window = new BrowserWindow(windowOptions(words.program, options.preload, nativeTheme.shouldUseDarkColors));
      window.once("ready-to-show", () => window.show());
      // The page asks to stay while something that was typed is not saved. Without an answer the window would not close, and not say why.
      window.webContents.on("will-prevent-unload", (event) => {
        const { message, detail, stay, leave } = words.unsaved;
        const box = { type: "question", message, detail, buttons: [stay, leave], defaultId: 0, cancelId: 0 } as const;
        if (dialog.showMessageBoxSync(window, { ...box, buttons: [...box.buttons] }) === 1) event.preventDefault();
      });
      window.loadURL(study === undefined ? `${pageOrigin}/` : studyAddress(study)).catch((error: unknown) => {
        // Closed before the page was there: nothing has failed.
        if (window.isDestroyed()) return;
        window.destroy();
        options.failed(error, BrowserWindow.getAllWindows().length);
      });
    },
    show() {
      const window = latest();
      if (window === null) windows.open();
      else raise(window);
    },
    async openFile(path) {
      const opened = await options.service.openFile(path);
      if (opened.ok) {
        const showing = BrowserWindow.getAllWindows().find(
          (window) => studyShown(window.webContents.getURL()) === opened.study,
        );
        if (showing === undefined) windows.open(opened.study);
        else raise(showing);
        return;
      }
      windows.show();
      const box = { type: "error", message: words.studyNotOpened, detail: opened.message } as const;
      const over = latest();
      await (over === null ? dialog.showMessageBox(box) : dialog.showMessageBox(over, box));
    },
    async chooseFile() {
      const asking = {
        title: words.openStudyTitle,
        properties: ["openFile" as const],
        filters: [{ name: words.studyFiles, extensions: [studyExtension] }],
      };
      const over = latest();
      const chosen = await (over === null ? dialog.showOpenDialog(asking) : dialog.showOpenDialog(over, asking));
      const path = chosen.canceled ? undefined : chosen.filePaths[0];
      if (path !== undefined) await windows.openFile(path);
    },
    step(way) {
      BrowserWindow.getFocusedWindow()?.webContents.send(stepChannel, way);
    },
  };
  return windows;
}
