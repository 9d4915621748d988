/**
 * The loopback host in a process of its own, for attacks: its memory is its own, and it says over the channel to the test what reached
 * its door. The door is the service's own, with every call counted.
 */
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Door, StudyView } from "../../app/contract/index.ts";
import type { BuiltPage } from "../../app/host/built-page.ts";
import { startListener } from "../../app/server/index.ts";
import { createDoor, userFolders } from "../../app/service/index.ts";

const index = { body: Buffer.from("<!doctype html><title>page</title>"), mediaType: "text/html; charset=utf-8" };
const page: BuiltPage = new Map([
  ["/", index],
  ["/index.html", index],
]);

mkdirSync(join(process.cwd(), "home"), { recursive: true });
const inner = createDoor({ folders: userFolders(process.platform, process.env) });
let calls = 0;
const counted = <T extends unknown[], R>(call: (...given: T) => R) => {
  return (...given: T): R => {
    calls += 1;
    return call(...given);
  };
};
const door: Door = {
  ask: counted((message) => inner.ask(message)),
  preview: counted((id) => inner.preview(id)),
  openFile: counted((path) => inner.openFile(path)),
  close: counted(() => inner.close()),
};

const opened = await inner.ask({ kind: "study.openExample" });
if (!opened.ok) throw new Error(opened.message);
const { name } = opened.value as StudyView;

const own = Object.getOwnPropertyNames(Object.prototype).join();
const listener = await startListener({
  door,
  page,
  limits: { headersTimeout: 1_000, requestTimeout: 1_500, idleTimeout: 2_000, checkingInterval: 50 },
});

let peak = 0;
const watch = () => {
  peak = Math.max(peak, process.memoryUsage.rss());
};
setInterval(watch, 5).unref();

process.on("message", (wanted) => {
  watch();
  if (wanted === "calm") {
    calls = 0;
    peak = process.memoryUsage.rss();
  }
  process.send?.({
    calls,
    peak,
    /** Nothing was hung on what every object has. */
    clean: Object.getOwnPropertyNames(Object.prototype).join() === own,
    address: wanted === "address" ? listener.freshAddress() : "",
  });
});
process.on("disconnect", () => void inner.close().then(() => process.exit(0)));
process.send?.({ port: listener.port, ownerSecret: listener.ownerSecret, name });
