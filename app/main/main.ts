import { join } from "node:path";
import { app, ipcMain, Menu, protocol, session, type WebContents } from "electron";
import { defaultLocale, wordsFor } from "../../core/index.ts";
import { type BuiltPage, readBuiltPage } from "../host/built-page.ts";
import { askChannel, pageScheme } from "../host/desktop-names.ts";
import { isStudyPath, studyAmong } from "../host/study-path.ts";
import { closingLimit, doneWithin } from "../host/within-time.ts";
import { menuTemplate } from "./menu.ts";
import { answerPageRequest } from "./page-answer.ts";
import { passOn } from "./page-message.ts";
import { mayAsk, mayNavigateFrame, mayNavigateWindow, mayUse } from "./policy.ts";
import { startService } from "./service-door.ts";
import { createWindows } from "./windows.ts";

const words = wordsFor(defaultLocale).hosts;
const builtFolder = join(import.meta.dirname, "..");
const platform = process.platform;

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

function fail(error: unknown, others = 0): void {
  console.error(words.cannotStart(error instanceof Error ? error.message : String(error)));
  if (others === 0) app.exit(1);
}

/** Files that the system (macOS: `open-file`) or a person named before there was a window; then, where they go. */
let openFile = (path: string): void => void early.push(path);
const early: string[] = [];

async function run(): Promise<void> {
  const page: BuiltPage = readBuiltPage(join(builtFolder, "page"));
  app.on("web-contents-created", (_event, contents) => restrict(contents));
  await app.whenReady();

  const service = startService(words.program, { ok: false, reason: "failed", message: words.serviceEnded });
  let isClosed = false;
  app.on("will-quit", (event) => {
    if (isClosed) return;
    // The service writes back and lets go of its files first.
    event.preventDefault();
    void doneWithin(service.close(), closingLimit).then((inTime) => {
      if (!inTime) console.error(words.notAllClosed(closingLimit / 1000));
      isClosed = true;
      service.stop();
      app.quit();
    });
  });
  protocol.handle(pageScheme, (request) => answerPageRequest(request, page, service));
  session.defaultSession.setPermissionRequestHandler((_contents, permission, decide) => decide(mayUse(permission)));
  session.defaultSession.setPermissionCheckHandler((_contents, permission) => mayUse(permission));
  session.defaultSession.setDevicePermissionHandler((device) => mayUse(device.deviceType));
  ipcMain.handle(askChannel, (event, message: unknown) => {
    const frame = event.senderFrame;
    const sender = frame === null ? null : { address: frame.url, isTopFrame: frame.parent === null };
    // Not a reply: whoever is not the page learns nothing, not even that there is a door.
    if (!mayAsk(sender)) throw new Error("refused");
    return passOn(message, service, words.refused);
  });

  const windows = createWindows({ preload: join(builtFolder, "preload", "preload.cjs"), words, service, failed: fail });
  const open = (path: string) => windows.openFile(path).catch((error: unknown) => console.error(error));
  Menu.setApplicationMenu(
    Menu.buildFromTemplate(
      menuTemplate(platform, words, {
        newWindow: () => windows.open(),
        step: (way) => windows.step(way),
        openStudy: () => void windows.chooseFile().catch((error: unknown) => console.error(error)),
      }),
    ),
  );
  // Between two windows (a refusal's box, a slow study) there may be none.
  let opening = early.length;
  app.on("window-all-closed", () => {
    if (opening === 0) app.quit();
  });
  openFile = (path) => {
    opening += 1;
    void open(path).finally(() => {
      opening -= 1;
    });
  };
  app.on("second-instance", (_event, _arguments, _folder, named) => {
    const path = fileOf(named);
    if (path === null) windows.show();
    else openFile(path);
  });
  app.on("activate", () => windows.show());
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.on(signal, () => app.quit());
  if (early.length === 0) windows.show();
  for (const path of early.splice(0)) {
    opening -= 1;
    openFile(path);
  }
}

/** What a second start hands over: the file that it was named, or nothing. It is another process, and may say anything. */
function fileOf(named: unknown): string | null {
  const path = typeof named === "object" && named !== null && "file" in named ? named.file : null;
  return isStudyPath(path, platform) ? path : null;
}

const named = studyAmong(process.argv.slice(1), process.cwd(), platform);
if (named !== null) early.push(named);
app.on("open-file", (event, path) => {
  event.preventDefault();
  if (isStudyPath(path, platform)) openFile(path);
});

if (app.requestSingleInstanceLock(named === null ? {} : { file: named })) run().catch((error: unknown) => fail(error));
else app.quit();
