import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import type { BuiltPage } from "../../app/host/built-page.ts";
import type { Listener } from "../../app/server/index.ts";
import { launchBrowser, openPage, startHost } from "../browser/harness.ts";
import { type SmallDoor, smallDoor } from "./small-door.ts";

// What a real browser makes of the host: its cookies, Origin, Fetch Metadata and content policy, and other sites' attempts on it.

const index = {
  body: Buffer.from(
    `<!doctype html><html lang="en"><meta name="referrer" content="no-referrer"><title>page</title><link rel="icon" href="./favicon.ico"><script type="module" crossorigin src="./assets/a.js"></script><p id="said"></p>`,
  ),
  mediaType: "text/html; charset=utf-8",
};
/** The exchange that app/server/listener.ts asks of the page. */
const script = `
  const post = (path, body) =>
    fetch(path, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body) });
  window.post = post;
  const token = /^#token=(.+)$/.exec(location.hash)?.[1];
  if (token) { history.replaceState(null, "", location.pathname); await post("/enter", { token }); }
  const reply = await (await post("/ask", { kind: "study.show", study: null })).json();
  document.querySelector("#said").textContent = reply.ok ? reply.value.name : reply.message;
`;
/** Loaded by one test: text evaluated by the page's own script, as the tools of a debugger are let off the policy. */
const evaluating = `try { window.evaluated = new Function("return true")(); } catch { window.evaluated = false; }`;
const page: BuiltPage = new Map([
  ["/", index],
  ["/index.html", index],
  ["/favicon.ico", { body: Buffer.from(`<svg xmlns="http://www.w3.org/2000/svg"/>`), mediaType: "image/svg+xml" }],
  ["/assets/evaluating.js", { body: Buffer.from(evaluating), mediaType: "text/javascript; charset=utf-8" }],
  ["/assets/a.js", { body: Buffer.from(script), mediaType: "text/javascript; charset=utf-8" }],
]);

let browser: Browser;
let door: SmallDoor;
let host: Listener;
let foreign: Server;
let foreignOrigin: string;

beforeAll(async () => {
  browser = await launchBrowser(["--host-resolver-rules=MAP rebound.example 127.0.0.1"]);
  door = smallDoor();
  host = await startHost({ door, page });
  // Another program's page on this machine: same site, other port.
  foreign = createServer((_request, response) => {
    response.setHeader("Content-Type", "text/html");
    response.end("<!doctype html><title>foreign</title><p>foreign");
  });
  await new Promise<void>((done) => foreign.listen(0, "127.0.0.1", done));
  foreignOrigin = `http://127.0.0.1:${(foreign.address() as AddressInfo).port}`;
});
beforeEach(() => {
  door.asked.length = 0;
});
afterAll(async () => {
  await browser?.close();
  await host?.close();
  foreign?.closeAllConnections();
  foreign?.close();
});

const said = (opened: Page) => opened.locator("#said").textContent();

describe("the page in a browser", () => {
  it("gets in by its address, keeps nothing of it, stays in over a reload, and reports no error", async () => {
    const opened = await openPage(browser, host);
    await opened.page.getByText("Skirt trial").waitFor();
    expect(opened.page.url()).toBe(`${host.origin}/`);
    await opened.page.reload();
    await opened.page.getByText("Skirt trial").waitFor();
    const [cookie] = await opened.page.context().cookies();
    expect(cookie).toMatchObject({ name: `boilbench-${host.port}`, httpOnly: true, sameSite: "Strict" });
    expect(await opened.page.evaluate("document.cookie")).toBe("");
    await opened.close();
  });

  it("does not get in by an address that was used", async () => {
    const address = host.freshAddress();
    const [first, second] = [await browser.newContext(), await browser.newContext()];
    const [one, other] = [await first.newPage(), await second.newPage()];
    await one.goto(address);
    await one.getByText("Skirt trial").waitFor();
    await other.goto(address);
    await other.getByText("not connected").waitFor();
    expect(await said(other)).not.toContain("Skirt trial");
    await first.close();
    await second.close();
  });

  it("runs no inline script, no evaluated text, and asks nobody else", async () => {
    const opened = await openPage(browser, host);
    await opened.page.getByText("Skirt trial").waitFor();
    const tried = await opened.page.evaluate(async (elsewhere) => {
      const inline = document.createElement("script");
      inline.textContent = "window.ran = true";
      document.head.append(inline);
      const button = document.createElement("button");
      button.setAttribute("onclick", "window.ran = true");
      button.click();
      const styled = document.createElement("p");
      styled.setAttribute("style", "color: rgb(1, 2, 3)");
      document.body.append(styled);
      const evaluator = document.createElement("script");
      evaluator.src = "assets/evaluating.js";
      const loaded = new Promise((settle) => evaluator.addEventListener("load", settle));
      document.head.append(evaluator);
      await loaded;
      const evaluated = (window as { evaluated?: boolean }).evaluated;
      const fetched = await fetch(elsewhere, { mode: "no-cors" }).then(
        () => true,
        () => false,
      );
      return { ran: "ran" in window, evaluated, fetched, colour: getComputedStyle(styled).color };
    }, foreignOrigin);
    expect(tried).toEqual({ ran: false, evaluated: false, fetched: false, colour: "rgb(0, 0, 0)" });
    await opened.page.context().close();
  });

  it("shows a preview in a frame, shut off by its own policy", async () => {
    const opened = await openPage(browser, host);
    await opened.page.getByText("Skirt trial").waitFor();
    await opened.page.evaluate(() => {
      const frame = document.createElement("iframe");
      frame.src = "preview/report-1";
      document.body.append(frame);
    });
    const frame = opened.page.frameLocator("iframe");
    await frame.getByText("secret finding").waitFor();
    // Sandboxed: an origin of its own, which reaches neither the page nor the host.
    expect(await opened.page.evaluate("document.querySelector('iframe').contentDocument")).toBeNull();
    await opened.close();
  });
});

describe("other sites in the same browser, with the cookie in it", () => {
  /** A page of another program or of a site, in the profile that is let in. */
  async function hostile(address: string, options: BrowserContextOptions = {}) {
    const opened = await openPage(browser, host, options);
    await opened.page.getByText("Skirt trial").waitFor();
    door.asked.length = 0;
    const other = await opened.page.context().newPage();
    await other.goto(address);
    return { other, done: () => opened.page.context().close() };
  }

  it("cannot ask, read, frame, or load anything from another port", async () => {
    const { other, done } = await hostile(foreignOrigin);
    const got = await other.evaluate(async (origin) => {
      const attempt = (path: string, options: RequestInit) =>
        fetch(`${origin}${path}`, { credentials: "include", ...options }).then(
          async (response) => (response.type === "opaque" ? "opaque" : await response.text()),
          () => "failed",
        );
      const body = JSON.stringify({ kind: "study.show", study: null });
      const load = (tag: "script" | "img", path: string) =>
        new Promise((settle) => {
          const element = document.createElement(tag);
          element.onload = () => settle("loaded");
          element.onerror = () => settle("failed");
          element.src = `${origin}${path}`;
          document.body.append(element);
        });
      return Promise.all([
        attempt("/ask", { method: "POST", body, headers: { "content-type": "application/json" } }),
        attempt("/preview/report-1", {}),
        attempt("/preview/report-1", { mode: "no-cors" }),
        load("script", "/assets/a.js"),
        load("img", "/favicon.ico"),
      ]);
    }, host.origin);
    expect(got).toEqual(["failed", "failed", "failed", "failed", "failed"]);
    // A form and a beacon are sent without asking; they reach the guard, and no further.
    await other.evaluate((origin) => {
      navigator.sendBeacon(`${origin}/ask`, JSON.stringify({ kind: "study.openExample" }));
      const form = document.createElement("form");
      form.action = `${origin}/ask`;
      form.method = "POST";
      form.enctype = "text/plain";
      form.innerHTML = `<input name='{"kind":"study.openExample","x":"' value='"}'>`;
      document.body.append(form);
      form.submit();
    }, host.origin);
    await other.waitForURL(`${host.origin}/ask`);
    expect(await other.locator("body").textContent()).toContain("Boilbench answers only its own page");
    expect(door.asked).toEqual([]);
    await done();
  });

  it("cannot frame the page or a preview", async () => {
    const { other, done } = await hostile(foreignOrigin);
    for (const path of ["/", "/preview/report-1"]) {
      await other.evaluate((address) => {
        const frame = document.createElement("iframe");
        frame.src = address;
        document.body.append(frame);
      }, `${host.origin}${path}`);
    }
    await other.waitForTimeout(500);
    for (const frame of other.frames().slice(1)) {
      const content = await frame.content().catch(() => "");
      expect(content).not.toContain("secret finding");
      expect(content).not.toContain("Skirt trial");
    }
    expect(door.asked).toEqual([]);
    await done();
  });

  it("cannot reach it by a name that was re-bound to this machine", async () => {
    // The refusal's own policy would let it ask nobody; a page of the attacker's has none.
    const { other, done } = await hostile(`http://rebound.example:${host.port}/`, { bypassCSP: true });
    expect(await other.locator("body").textContent()).toContain("not one that Boilbench answers to");
    const asked = await other.evaluate(async () =>
      fetch("/ask", {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ kind: "study.show", study: null }),
      }).then((response) => response.status),
    );
    expect(asked).toBe(421);
    expect(door.asked).toEqual([]);
    await done();
  });
});
