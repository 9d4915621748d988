import { MessageChannel } from "node:worker_threads";
import { afterEach, describe, expect, it } from "vitest";
import type { Refusal } from "../../app/contract/index.ts";
import { pageContentSecurityPolicy } from "../../app/host/page-policy.ts";
import { type Port, remoteDoor, serveDoor } from "../../app/main/door-over-port.ts";
import { answerPageRequest } from "../../app/main/page-answer.ts";
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

  it("says that it failed where the service fails, and goes on", async () => {
    const { remote } = connected();
    const file = { name: "a.csv", contentBase64: "" };
    expect(await remote.ask({ kind: "import.check", readings: file, settings: null })).toEqual(failed);
    expect(await remote.ask({ kind: "study.show", study: null })).toMatchObject({ ok: true });
  });

  it("leaves nobody waiting where the other process has ended", async () => {
    const { remote } = connected();
    const open = [remote.ask({ kind: "study.show", study: null }), remote.preview("report-1")];
    remote.lost();
    expect(await Promise.all(open)).toEqual([ended, null]);
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
