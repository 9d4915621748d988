import { connect } from "node:net";
import { networkInterfaces } from "node:os";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import type { BuiltPage } from "../../app/host/built-page.ts";
import { pageContentSecurityPolicy } from "../../app/host/page-policy.ts";
import { cookieName } from "../../app/server/guard.ts";
import { type Listener, startListener } from "../../app/server/index.ts";
import { requestBytes, sendRaw } from "./raw-request.ts";
import { previewPolicy, type SmallDoor, smallDoor } from "./small-door.ts";

// Bytes on real sockets against the running listener. HTTP shapes after RFC 9112, sections 6 and 11.2.

const index = { body: Buffer.from("<!doctype html><title>page</title>"), mediaType: "text/html; charset=utf-8" };
/** More than the system keeps for a connection whose other end does not read. */
const largeBytes = 48 * 1024 * 1024;
const page: BuiltPage = new Map([
  ["/", index],
  ["/index.html", index],
  ["/assets/large.js", { body: Buffer.alloc(largeBytes, " "), mediaType: "text/javascript; charset=utf-8" }],
  ["/assets/a.js", { body: Buffer.from("export {};"), mediaType: "text/javascript; charset=utf-8" }],
]);
const askBytes = 64 * 1024;
const slow = { headersTimeout: 1_000, requestTimeout: 1_500, idleTimeout: 2_000, checkingInterval: 50 };

let door: SmallDoor;
let host: Listener;
let cookie: string;

const tokenOf = (address: string) => new URL(address).hash.slice("#token=".length);
const hostLine = () => `Host: 127.0.0.1:${host.port}`;
const writeLines = (body: string, held: string | null = cookie) => [
  hostLine(),
  `Origin: ${host.origin}`,
  "Sec-Fetch-Site: same-origin",
  "Content-Type: application/json",
  `Content-Length: ${Buffer.byteLength(body)}`,
  ...(held === null ? [] : [`Cookie: ${held}`]),
  "Connection: close",
];
const readLines = () => [hostLine(), "Sec-Fetch-Site: same-origin", `Cookie: ${cookie}`, "Connection: close"];
const enter = (body: string) => sendRaw(host.port, requestBytes("POST /enter HTTP/1.1", writeLines(body, null), body));
const ask = (body: string, held: string | null = cookie) =>
  sendRaw(host.port, requestBytes("POST /ask HTTP/1.1", writeLines(body, held), body));
const showStudy = JSON.stringify({ kind: "study.show" });

/** The service still answers its own page: nothing that came before has stopped it. */
async function expectStillServing(): Promise<void> {
  const answer = await ask(showStudy);
  expect(answer.status).toBe(200);
  expect(answer.text).toContain("Skirt trial");
}

/** No answer held data of the study, and nothing reached the door. */
function expectNothingGiven(answer: { status: number; text: string }): void {
  expect(answer.status === 0 || answer.status >= 400, `status ${answer.status}`).toBe(true);
  for (const secret of ["Skirt trial", "secret finding", cookie.split("=")[1] ?? "", host.ownerSecret]) {
    expect(answer.text).not.toContain(secret);
  }
  expect(door.asked).toEqual([]);
}

beforeAll(async () => {
  door = smallDoor();
  host = await startListener({ door, page, limits: { ...slow, askBytes, maxConnections: 20 } });
  const answer = await enter(JSON.stringify({ token: tokenOf(host.freshAddress()) }));
  expect(answer.status).toBe(204);
  cookie = (answer.headers.get("set-cookie") ?? "").split(";")[0] ?? "";
});
beforeEach(() => {
  door.asked.length = 0;
});
afterAll(() => host.close());

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
    const lines = [hostLine(), `Authorization: Bearer ${"A".repeat(43)}`, "Content-Length: 0", "Connection: close"];
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

describe("bodies that are too large, too slow, or of two lengths", () => {
  it("takes a message of the limit and none above it", async () => {
    const padded = (bytes: number) => `${showStudy.slice(0, -1)}${" ".repeat(bytes - showStudy.length)}}`;
    expect((await ask(padded(askBytes))).status).toBe(200);
    door.asked.length = 0;
    const answer = await ask(padded(askBytes + 1));
    expectNothingGiven(answer);
    await expectStillServing();
  });

  it("refuses a huge announcement before its body comes", async () => {
    const lines = writeLines("").map((line) =>
      line.startsWith("Content-Length") ? "Content-Length: 99999999999" : line,
    );
    const answer = await sendRaw(host.port, requestBytes("POST /ask HTTP/1.1", lines, "{}"));
    expectNothingGiven(answer);
    expect(answer.status).toBe(413);
    await expectStillServing();
  });

  it.each([
    ["two lengths", ["Content-Length: 21", "Content-Length: 0"]],
    ["the same length twice", [`Content-Length: ${showStudy.length}`, `Content-Length: ${showStudy.length}`]],
    ["a length and chunks", [`Content-Length: ${showStudy.length}`, "Transfer-Encoding: chunked"]],
    ["chunks and a length", ["Transfer-Encoding: chunked", `Content-Length: ${showStudy.length}`]],
    ["chunks", ["Transfer-Encoding: chunked"]],
    ["an odd coding", ["Transfer-Encoding: xchunked"]],
    ["a hidden coding", ["Transfer-Encoding:\tchunked", "Content-Length: 4"]],
    ["a negative length", ["Content-Length: -5"]],
    ["a length in hexadecimal", ["Content-Length: 0x15"]],
    ["a space before the colon", ["Content-Length : 21"]],
    ["no length", []],
  ])("%s: nothing smuggled behind it is answered", async (_name, lengths) => {
    const lines = writeLines("").filter((line) => !line.startsWith("Content-Length") && !line.startsWith("Connection"));
    const smuggled = requestBytes("POST /ask HTTP/1.1", writeLines(showStudy), showStudy);
    const bytes = requestBytes("POST /ask HTTP/1.1", [...lines, ...lengths], `0\r\n\r\n${smuggled}`);
    expectNothingGiven(await sendRaw(host.port, bytes));
    await expectStillServing();
  });

  it("answers an upgrade and an expectation with a refusal", async () => {
    const upgrade = [
      "Connection: Upgrade",
      "Upgrade: websocket",
      "Sec-WebSocket-Version: 13",
      "Sec-WebSocket-Key: AAAA",
    ];
    expectNothingGiven(
      await sendRaw(host.port, requestBytes("GET / HTTP/1.1", [hostLine(), "Sec-Fetch-Site: same-origin", ...upgrade])),
    );
    const expecting = [...writeLines(showStudy), "Expect: 100-continue"];
    expectNothingGiven(await sendRaw(host.port, requestBytes("POST /ask HTTP/1.1", expecting, showStudy)));
    expectNothingGiven(await sendRaw(host.port, requestBytes(`CONNECT 127.0.0.1:${host.port} HTTP/1.1`, readLines())));
    await expectStillServing();
  });

  it.each([
    ["noise", "\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03"],
    ["line feeds alone", "GET / HTTP/1.1\nHost: x\n\n"],
    ["HTTP/0.9", "GET /\r\n\r\n"],
    ["HTTP/2's preface", "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n"],
    ["a head of 100 kB", `GET / HTTP/1.1\r\nX: ${"a".repeat(100_000)}\r\n\r\n`],
    ["a thousand headers", `GET / HTTP/1.1\r\n${"A: b\r\n".repeat(3_000)}\r\n`],
    ["a null byte in a header", "GET / HTTP/1.1\r\nHost: a\0b\r\n\r\n"],
  ])("%s gets nothing", async (_name, bytes) => {
    expectNothingGiven(await sendRaw(host.port, bytes));
    await expectStillServing();
  });

  it("cuts off a head that comes a byte at a time", async () => {
    const bytes = requestBytes("GET / HTTP/1.1", [hostLine(), "Sec-Fetch-Site: none", `X-Long: ${"a".repeat(400)}`]);
    const answer = await sendRaw(host.port, bytes, { dripEvery: 20 });
    expectNothingGiven(answer);
    expect(answer.milliseconds).toBeLessThan(4_500);
    await expectStillServing();
  });

  it("cuts off a body that comes a byte at a time, and one that never comes", async () => {
    const body = `${showStudy}${" ".repeat(500)}`;
    const bytes = requestBytes("POST /ask HTTP/1.1", writeLines(body), body);
    const dripping = await sendRaw(host.port, bytes, { dripEvery: 10 });
    expectNothingGiven(dripping);
    const silent = await sendRaw(host.port, requestBytes("POST /ask HTTP/1.1", writeLines(body)));
    expectNothingGiven(silent);
    expect(Math.max(dripping.milliseconds, silent.milliseconds)).toBeLessThan(4_500);
    await expectStillServing();
  });

  it("cuts off who asks for much and reads nothing, and nobody who reads", async () => {
    const bytes = requestBytes("GET /assets/large.js HTTP/1.1", readLines());
    const take = (pause: number) =>
      new Promise<number>((done) => {
        const socket = connect(host.port, "127.0.0.1", () => socket.write(bytes));
        let taken = 0;
        setTimeout(() => socket.on("data", (chunk) => (taken += chunk.length)), pause);
        socket.on("error", () => undefined).on("close", () => done(taken));
      });
    const [eager, idle] = await Promise.all([take(0), take(3 * slow.idleTimeout)]);
    expect(eager).toBeGreaterThan(largeBytes);
    expect(idle).toBeLessThan(largeBytes);
    await expectStillServing();
  });

  it("lets silent connections go, and still serves with all of them open", async () => {
    const sockets = Array.from({ length: 15 }, () => connect(host.port, "127.0.0.1"));
    const closed = sockets.map((socket) => {
      socket.on("error", () => undefined);
      socket.resume();
      return new Promise((done) => socket.on("close", done));
    });
    await expectStillServing();
    await Promise.all(closed);
  });

  it("turns connections above its number away and recovers", async () => {
    const sockets = Array.from({ length: 60 }, () => connect(host.port, "127.0.0.1").on("error", () => undefined));
    const closed = sockets.map((socket) => {
      socket.resume();
      return new Promise((done) => socket.on("close", done));
    });
    await Promise.all(closed);
    await expectStillServing();
  });

  it("survives those who hang up in the middle", async () => {
    for (let i = 0; i < 10; i++) {
      const socket = connect(host.port, "127.0.0.1").on("error", () => undefined);
      await new Promise((done) => socket.on("connect", done));
      socket.write(requestBytes("POST /ask HTTP/1.1", writeLines(showStudy), showStudy.slice(0, i)));
      socket.resetAndDestroy();
    }
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
