import { join } from "node:path";
import { app, BrowserWindow, ipcMain, Menu, nativeTheme, protocol, session, type WebContents } from "electron";
import { defaultLocale, wordsFor } from "../../core/index.ts";
import { type BuiltPage, readBuiltPage } from "../host/built-page.ts";
import { askChannel, pageOrigin, pageScheme } from "../host/desktop-names.ts";
import { menuTemplate } from "./menu.ts";
import { answerPageRequest } from "./page-answer.ts";
import { mayAsk, mayNavigateFrame, mayNavigateWindow } from "./policy.ts";
import { startService } from "./service-door.ts";

const words = wordsFor(defaultLocale).hosts;
const builtFolder = join(import.meta.dirname, "..");

// As late as possible for everything else, as early as possible for these: they hold before any page exists.
app.enableSandbox();
protocol.registerSchemesAsPrivileged([
  { scheme: pageScheme, privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } },
]);

/** Holds every web contents, whoever made it, to the policy. */
function restrict(contents: WebContents): void {
  contents.setWindowOpenHandler(() => ({ action: "deny" }));
  contents.on("will-navigate", (event) => {
    if (!mayNavigateWindow(event.url)) event.preventDefault();
  });
  contents.on("will-frame-navigate", (event) => {
    const allowed = event.isMainFrame ? mayNavigateWindow(event.url) : mayNavigateFrame(event.url);
    if (!allowed) event.preventDefault();
  });
  contents.on("will-redirect", (event) => event.preventDefault());
  contents.on("will-attach-webview", (event) => event.preventDefault());
}

function openWindow(): BrowserWindow {
  const window = new BrowserWindow({
    title: words.program,
    width: 1280,
    height: 860,
    minWidth: 480,
    minHeight: 480,
    show: false,
    // The page's paper, so that nothing flashes before it is drawn.
    backgroundColor: nativeTheme.shouldUseDarkColors ? "#15171a" : "#f6f3ea",
    webPreferences: {
      preload: join(builtFolder, "preload", "preload.cjs"),
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      webviewTag: false,
      spellcheck: false,
    },
  });
  window.once("ready-to-show", () => window.show());
  window.loadURL(`${pageOrigin}/`).catch((error: unknown) => {
    console.error(words.cannotStart(String(error)));
    app.exit(1);
  });
  return window;
}

async function run(): Promise<void> {
  const page: BuiltPage = readBuiltPage(join(builtFolder, "page"));
  app.on("web-contents-created", (_event, contents) => restrict(contents));
  await app.whenReady();

  const service = startService(words.program, { ok: false, reason: "failed", message: words.serviceEnded });
  app.once("will-quit", () => service.stop());
  protocol.handle(pageScheme, (request) => answerPageRequest(request, page, service));
  // The page needs no permission: no camera, place, notification or device, and copying goes by the keys.
  session.defaultSession.setPermissionRequestHandler((_contents, _permission, decide) => decide(false));
  session.defaultSession.setPermissionCheckHandler(() => false);
  session.defaultSession.setDevicePermissionHandler(() => false);
  ipcMain.handle(askChannel, (event, message: unknown) => {
    const frame = event.senderFrame;
    const sender = frame === null ? null : { address: frame.url, isTopFrame: frame.parent === null };
    // Not a reply: whoever is not the page learns nothing, not even that there is a door.
    if (!mayAsk(sender)) throw new Error("refused");
    return service.ask(message);
  });
  Menu.setApplicationMenu(Menu.buildFromTemplate(menuTemplate(process.platform, words)));

  let window: BrowserWindow | null = null;
  const show = () => {
    if (window === null || window.isDestroyed()) window = openWindow();
    else {
      if (window.isMinimized()) window.restore();
      window.focus();
    }
  };
  app.on("second-instance", show);
  app.on("activate", show);
  app.on("window-all-closed", () => app.quit());
  for (const signal of ["SIGINT", "SIGTERM"] as const) process.on(signal, () => app.quit());
  show();
}

if (app.requestSingleInstanceLock()) {
  run().catch((error: unknown) => {
    console.error(words.cannotStart(error instanceof Error ? error.message : String(error)));
    app.exit(1);
  });
} else {
  app.quit();
}
