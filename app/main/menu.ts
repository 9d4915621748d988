import type { MenuItemConstructorOptions } from "electron";
import type { Words } from "../../core/index.ts";
import type { MenuStep } from "../host/desktop-names.ts";

/** What the menu does that is not the platform's own. */
export interface MenuActions {
  newWindow(): void;
  openStudy(): void;
  /** Undo and redo are the study's: the page knows whether a field that is typed in has its own. */
  step(way: MenuStep): void;
}

/** The menu: the platform's own entries with the platform's own shortcuts, which a page cannot give itself. */
export function menuTemplate(
  platform: string,
  words: Words["hosts"],
  actions: MenuActions,
): MenuItemConstructorOptions[] {
  const mac = platform === "darwin";
  // The page gets the keys; where it can be so, the menu only shows them.
  const step = (way: MenuStep, accelerator: string): MenuItemConstructorOptions => ({
    label: words.menu[way],
    accelerator,
    registerAccelerator: false,
    click: () => actions.step(way),
  });
  return [
    ...(mac ? [{ role: "appMenu" } satisfies MenuItemConstructorOptions] : []),
    {
      label: words.menu.file,
      submenu: [
        { label: words.menu.newWindow, accelerator: "CmdOrCtrl+N", click: () => actions.newWindow() },
        { label: words.menu.openStudy, accelerator: "CmdOrCtrl+O", click: () => actions.openStudy() },
        { type: "separator" },
        { role: "close" },
        ...(mac ? [] : [{ role: "quit" } satisfies MenuItemConstructorOptions]),
      ],
    },
    {
      label: words.menu.edit,
      submenu: [
        step("undo", "CmdOrCtrl+Z"),
        step("redo", mac ? "Cmd+Shift+Z" : "Ctrl+Y"),
        { type: "separator" },
        { role: "cut" },
        { role: "copy" },
        { role: "paste" },
        { role: "selectAll" },
      ],
    },
    {
      label: words.menu.view,
      submenu: [
        { role: "resetZoom" },
        { role: "zoomIn" },
        { role: "zoomOut" },
        { type: "separator" },
        { role: "togglefullscreen" },
      ],
    },
    { label: words.menu.window, role: "windowMenu" },
  ];
}
