import type { MenuItemConstructorOptions } from "electron";
import type { Words } from "../../core/index.ts";

/** The menu: the platform's own entries with the platform's own shortcuts, which a page cannot give itself. */
export function menuTemplate(platform: string, words: Words["hosts"]): MenuItemConstructorOptions[] {
  const mac = platform === "darwin";
  return [
    ...(mac ? [{ role: "appMenu" } satisfies MenuItemConstructorOptions] : []),
    { label: words.menu.file, submenu: [{ role: mac ? "close" : "quit" }] },
    {
      label: words.menu.edit,
      submenu: [
        { role: "undo" },
        { role: "redo" },
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
