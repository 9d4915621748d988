import { connect } from "node:net";
import { networkInterfaces } from "node:os";
import { describe, expect, it } from "vitest";
import { pageContentSecurityPolicy } from "../../app/host/page-policy.ts";
import { cookieName } from "../../app/server/guard.ts";
import { askingFor, newSecret } from "../../app/server/secret.ts";
import { requestBytes, sendRaw } from "./raw-request.ts";
import {
  ask,
  cookie,
  enter,
  expectNothingGiven,
  expectStillServing,
  host,
  hostLine,
  readLines,
  showStudy,
  tokenOf,
  withRunningHost,
  writeLines,
} from "./running-host.ts";
import { previewPolicy } from "./small-door.ts";

// Bytes on real sockets against the running listener.

withRunningHost();

describe("our own page is served", () => {
  it("with the page, its files and its headers", async () => {
    const answer = await sendRaw(
      host.port,
      requestBytes("GET / HTTP/1.1", [hostLine(), "Sec-Fetch-Site: none", "Connection: close"]),
    );
    expect(answer.status).toBe(200);
    expect(answer.text).toContain("<title>page</title>");
    expect(answer.headers.get("content-security-policy")).toBe(pageContentSecurityPolicy);
    expect(answer.headers.get("x-content-type-options")).toBe("nosniff");
    expect(answer.headers.get("referrer-policy")).toBe("no-referrer");
    expect(answer.headers.get("cross-origin-opener-policy")).toBe("same-origin");
    expect(answer.headers.get("cross-origin-resource-policy")).toBe("same-origin");
    expect(answer.headers.get("set-cookie")).toBeUndefined();
    const script = await sendRaw(host.port, requestBytes("GET /assets/a.js HTTP/1.1", readLines()));
    expect(script.headers.get("content-type")).toBe("text/javascript; charset=utf-8");
    const headOnly = await sendRaw(host.port, requestBytes("HEAD /assets/a.js HTTP/1.1", readLines()));
    expect(headOnly.text).not.toContain("export");
  });

  it("with answers of the door, as they are", async () => {
    const answer = await ask(showStudy);
    expect(JSON.parse(answer.text.split("\r\n\r\n")[1] ?? "")).toMatchObject({
      ok: true,
      value: { name: "Skirt trial" },
    });
    const refused = await ask(JSON.stringify({ kind: "no such thing" }));
    expect(refused.status).toBe(200);
    expect(refused.text).toContain('"ok":false');
  });

  it("with the preview under its own policy", async () => {
    const answer = await sendRaw(host.port, requestBytes("GET /preview/report-1 HTTP/1.1", readLines()));
    expect(answer.status).toBe(200);
    expect(answer.headers.get("content-security-policy")).toBe(previewPolicy);
    expect(answer.headers.get("content-type")).toBe("text/html; charset=utf-8");
    const none = await sendRaw(host.port, requestBytes("GET /preview/report-2 HTTP/1.1", readLines()));
    expect(none.status).toBe(404);
  });

  it("with a cookie that scripts and other sites do not get, named by the port", async () => {
    const answer = await enter(JSON.stringify({ token: tokenOf(host.freshAddress()) }));
    const set = answer.headers.get("set-cookie") ?? "";
    expect(set.startsWith(`${cookieName(host.port)}=`)).toBe(true);
    expect(set).toContain("; HttpOnly");
    expect(set).toContain("; SameSite=Strict");
    expect(set).not.toContain("Domain");
  });

  it("says that it failed without saying how, and goes on", async () => {
    const file = { name: "a.csv", contentBase64: "" };
    const answer = await ask(JSON.stringify({ kind: "import.check", readings: file, settings: null }));
    expect(answer.status).toBe(500);
    expect(answer.text).toContain('"reason":"failed"');
    expect(answer.text).not.toContain("secret detail");
    await expectStillServing();
  });
});

describe("who is not our page gets nothing", () => {
  it.each([
    ["no Host", () => []],
    ["a name re-bound to this machine", () => [`Host: rebound.example:${host.port}`]],
    ["localhost", () => [`Host: localhost:${host.port}`]],
    ["another port's Host", () => [`Host: 127.0.0.1:${host.port + 1}`]],
    ["two Hosts", () => [hostLine(), hostLine()]],
    ["two different Hosts", () => [hostLine(), "Host: rebound.example"]],
    ["a Host with spaces", () => [`Host: 127.0.0.1 :${host.port}`]],
    ["a folded Host", () => ["Host: rebound.example", ` 127.0.0.1:${host.port}`]],
  ])("%s", async (_name, hostLines) => {
    const rest = writeLines(showStudy).slice(1);
    expectNothingGiven(
      await sendRaw(host.port, requestBytes("POST /ask HTTP/1.1", [...hostLines(), ...rest], showStudy)),
    );
    expectNothingGiven(
      await sendRaw(
        host.port,
        requestBytes("GET /preview/report-1 HTTP/1.1", [...hostLines(), ...readLines().slice(1)]),
      ),
    );
    await expectStillServing();
  });

  it("a foreign site or another port of this machine, even with the cookie", async () => {
    for (const origin of [
      "http://rebound.example",
      "null",
      `http://127.0.0.1:${host.port + 1}`,
      `http://localhost:${host.port}`,
    ]) {
      const lines = writeLines(showStudy).map((line) => (line.startsWith("Origin:") ? `Origin: ${origin}` : line));
      expectNothingGiven(await sendRaw(host.port, requestBytes("POST /ask HTTP/1.1", lines, showStudy)));
    }
    for (const site of ["cross-site", "same-site"]) {
      const lines = readLines().map((line) => (line.startsWith("Sec-") ? `Sec-Fetch-Site: ${site}` : line));
      expectNothingGiven(await sendRaw(host.port, requestBytes("GET /preview/report-1 HTTP/1.1", lines)));
      expectNothingGiven(await sendRaw(host.port, requestBytes("GET / HTTP/1.1", lines)));
    }
    await expectStillServing();
  });

  it("a cross-origin question beforehand (preflight)", async () => {
    const lines = [
      hostLine(),
      "Origin: http://rebound.example",
      "Access-Control-Request-Method: POST",
      "Connection: close",
    ];
    const answer = await sendRaw(host.port, requestBytes("OPTIONS /ask HTTP/1.1", lines));
    expectNothingGiven(answer);
    expect(answer.headers.get("access-control-allow-origin")).toBeUndefined();
  });

  it("no cookie, a wrong one, or a planted second one", async () => {
    for (const held of [null, `${cookieName(host.port)}=${"A".repeat(43)}`, `${cookie}; ${cookieName(host.port)}=x`]) {
      const answer = await ask(showStudy, held);
      expectNothingGiven(answer);
      expect(answer.status).toBe(401);
    }
    await expectStillServing();
  });

  it("a token that was used, or was never issued", async () => {
    const body = JSON.stringify({ token: tokenOf(host.freshAddress()) });
    expect((await enter(body)).status).toBe(204);
    for (const again of [body, "{}", "null", "[]", '{"token":null}', `{"token":"${"A".repeat(43)}"}`, "not JSON"]) {
      const answer = await enter(again);
      expect(answer.status).toBe(401);
      expect(answer.headers.get("set-cookie")).toBeUndefined();
    }
    await expectStillServing();
  });

  it("a token used twice at the same moment lets one in", async () => {
    const body = JSON.stringify({ token: tokenOf(host.freshAddress()) });
    const statuses = (await Promise.all([enter(body), enter(body), enter(body)])).map((answer) => answer.status);
    expect(statuses.sort()).toEqual([204, 401, 401]);
  });

  it("the wrong secret for a fresh address", async () => {
    const lines = [
      hostLine(),
      `Authorization: ${askingFor("A".repeat(43), newSecret())}`,
      "Content-Length: 0",
      "Connection: close",
    ];
    expectNothingGiven(await sendRaw(host.port, requestBytes("POST /fresh-address HTTP/1.1", lines)));
  });
});

describe("no path leads out of the page", () => {
  it.each([
    "/../package.json",
    "/assets/../../package.json",
    "/%2e%2e/package.json",
    "/..%2fpackage.json",
    "/..%5cpackage.json",
    "/..\\package.json",
    "/assets/%00a.js",
    "/etc/passwd",
    "//etc/passwd",
    "/index.html/..",
    "/assets",
    "/assets/",
    "/assets/a.js?x",
    "/__proto__",
    "/constructor",
    "/C:/Windows/win.ini",
    "file:///etc/passwd",
    "http://rebound.example/",
    "*",
  ])("%s", async (target) => {
    const answer = await sendRaw(host.port, requestBytes(`GET ${target} HTTP/1.1`, readLines()));
    expectNothingGiven(answer);
    expect(answer.text).not.toContain('"devDependencies"');
    expect(answer.text).not.toContain("root:");
    await expectStillServing();
  });
});

it("listens on this machine's own address and on no other", async () => {
  const others = Object.values(networkInterfaces())
    .flatMap((addresses) => addresses ?? [])
    .filter((address) => !address.internal && address.family === "IPv4");
  const reached = await Promise.all(
    ["::1", ...others.map((address) => address.address)].map(
      (address) =>
        new Promise<boolean>((done) => {
          const socket = connect({ host: address, port: host.port, timeout: 1_000 });
          socket
            .on("connect", () => done(true))
            .on("error", () => done(false))
            .on("timeout", () => done(false));
          socket.on("connect", () => socket.destroy());
        }),
    ),
  );
  expect(reached).not.toContain(true);
});
