import { MessageChannel } from "node:worker_threads";
import { afterEach, describe, expect, it } from "vitest";
import { type Refusal, requestByteLimit } from "../../app/contract/index.ts";
import { pageContentSecurityPolicy } from "../../app/host/page-policy.ts";
import { type Port, remoteDoor, serveDoor } from "../../app/main/door-over-port.ts";
import { answerPageRequest } from "../../app/main/page-answer.ts";
import { passOn } from "../../app/main/page-message.ts";
import { wordsFor } from "../../core/index.ts";
import { previewPolicy, smallDoor } from "./small-door.ts";

const failed: Refusal = { ok: false, reason: "failed", message: "failed" };
const ended: Refusal = { ok: false, reason: "failed", message: "ended" };
let close: () => void = () => undefined;
afterEach(() => close());

/** The two ends over a real message channel, so that what passes is copied as between processes. */
function connected() {
  const { port1, port2 } = new MessageChannel();
  close = () => port1.close();
  const portOf = (port: typeof port1): Port => ({
    postMessage: (message) => port.postMessage(message),
    onMessage: (listener) => port.on("message", listener),
  });
  const door = smallDoor();
  serveDoor(portOf(port2), door, failed);
  return { door, remote: remoteDoor(portOf(port1), ended) };
}

describe("the door from another process", () => {
  it("answers each question with its own answer, however many are open", async () => {
    const { remote } = connected();
    const [first, second, third, preview, none] = await Promise.all([
      remote.ask({ kind: "study.show", study: null }),
      remote.ask({ kind: "runs.show", study: null }),
      remote.ask({ call: 1, preview: "report-1" }),
      remote.preview("report-1"),
      remote.preview("report-2"),
    ]);
    expect(first).toMatchObject({ ok: true, value: { name: "Skirt trial" } });
    expect(second).toMatchObject({ ok: false, message: "runs.show is not kept here" });
    expect(third).toMatchObject({ ok: false, message: "not a request" });
    expect(preview).toMatchObject({ contentSecurityPolicy: previewPolicy });
    expect(none).toBeNull();
  });

  it("opens a file and closes for its host, and for nobody else", async () => {
    const { door, remote } = connected();
    expect(await remote.openFile("/a/stove.boilstudy")).toEqual({ ok: true, study: "study-1" });
    expect(await remote.openFile("/a/damaged.boilstudy")).toMatchObject({ ok: false });
    // Whatever a page sends as its message, it is a message.
    for (const message of [
      { call: 1, what: "openFile", with: "/etc/x.boilstudy" },
      { what: "close" },
      { what: "openFile" },
      { kind: "openFile", path: "/etc/x.boilstudy" },
      ["openFile", "/etc/x.boilstudy"],
      { ask: { what: "close" } },
      { __proto__: { what: "close" } },
    ]) {
      expect(await remote.ask(message)).toMatchObject({ ok: false, message: "not a request" });
    }
    expect(door.openedFiles).toEqual(["/a/stove.boilstudy", "/a/damaged.boilstudy"]);
    expect(door.closed()).toBe(false);
    await remote.close();
    expect(door.closed()).toBe(true);
  });

  it("hands on no message above the size or shape of any other", async () => {
    const { door, remote } = connected();
    const refused = wordsFor("en").hosts.refused;
    const nested = JSON.parse(`${"[".repeat(5_000)}${"]".repeat(5_000)}`);
    const many: unknown[] = [];
    many.length = 2 ** 31;
    expect(await passOn("x".repeat(requestByteLimit + 1), remote, refused)).toMatchObject({
      ok: false,
      message: refused.tooLarge(24),
    });
    for (const message of [{ kind: "x".repeat(requestByteLimit) }, many]) {
      expect(await passOn(message, remote, refused)).toMatchObject({ ok: false, message: refused.tooLarge(24) });
    }
    for (const message of [nested, new Map(), new Uint8Array(8)]) {
      expect(await passOn(message, remote, refused)).toMatchObject({ ok: false, message: refused.notPlain });
    }
    expect(door.asked).toEqual([]);
    expect(await passOn({ kind: "study.show", study: null }, remote, refused)).toMatchObject({ ok: true });
  });

  it("says that it failed where the service fails, and goes on", async () => {
    const { remote } = connected();
    const file = { name: "a.csv", contentBase64: "" };
    expect(await remote.ask({ kind: "import.check", readings: file, settings: null })).toEqual(failed);
    expect(await remote.ask({ kind: "study.show", study: null })).toMatchObject({ ok: true });
  });

  it("leaves nobody waiting where the other process has ended", async () => {
    const { remote } = connected();
    const open = [
      remote.ask({ kind: "study.show", study: null }),
      remote.preview("report-1"),
      remote.openFile("/a/stove.boilstudy"),
      remote.close(),
    ];
    remote.lost();
    expect(await Promise.all(open)).toEqual([ended, null, ended, undefined]);
    expect(await remote.ask({ kind: "study.show", study: null })).toEqual(ended);
  });
});

describe("the page's scheme", () => {
  const page = new Map([["/", { body: Buffer.from("page"), mediaType: "text/html; charset=utf-8" }]]);
  const get = (path: string, method = "GET") => {
    const door = smallDoor();
    const later = { preview: async (id: string) => door.preview(id) };
    return answerPageRequest({ method, url: `boilbench://app${path}` }, page, later);
  };

  it("serves the page under the page's policy and a preview under its own", async () => {
    const own = await get("/");
    expect([own.status, await own.text()]).toEqual([200, "page"]);
    expect(own.headers.get("content-security-policy")).toBe(pageContentSecurityPolicy);
    const preview = await get("/preview/report-1");
    expect([preview.status, await preview.text()]).toEqual([200, "<!doctype html><p>secret finding"]);
    expect(preview.headers.get("content-security-policy")).toBe(previewPolicy);
    expect(preview.headers.get("x-content-type-options")).toBe("nosniff");
  });

  it.each(["/preview/other", "/../package.json", "/package.json", "/?x", "/%2e%2e/package.json", "/__proto__"])(
    "has nothing at %s",
    async (path) => {
      const answer = await get(path);
      expect([answer.status, await answer.text()]).toEqual([404, ""]);
      // In every answer, also where there is nothing.
      expect(answer.headers.get("content-security-policy")).toContain("default-src 'none'");
      expect(answer.headers.get("content-security-policy")).not.toContain("unsafe");
    },
  );

  it("takes no writes", async () => {
    expect((await get("/", "POST")).status).toBe(404);
  });
});

describe("the page's policy", () => {
  it("has no inline or evaluated script or style, and nothing from elsewhere", () => {
    expect(pageContentSecurityPolicy).not.toMatch(/unsafe|http|\*|blob:/);
    expect(pageContentSecurityPolicy).toContain("default-src 'none'");
    expect(pageContentSecurityPolicy).toContain("worker-src 'self'");
    expect(pageContentSecurityPolicy).toContain("frame-ancestors 'none'");
  });
});
