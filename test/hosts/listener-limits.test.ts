import { connect } from "node:net";
import { describe, expect, it } from "vitest";
import { requestBytes, sendRaw } from "./raw-request.ts";
import {
  ask,
  askBytes,
  door,
  expectNothingGiven,
  expectStillServing,
  host,
  hostLine,
  largeBytes,
  readLines,
  showStudy,
  slow,
  withRunningHost,
  writeLines,
} from "./running-host.ts";

// Bytes on real sockets against the running listener. HTTP shapes after RFC 9112, sections 6 and 11.2.

withRunningHost();

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
    ["two lengths", [`Content-Length: ${showStudy.length}`, "Content-Length: 0"]],
    ["the same length twice", [`Content-Length: ${showStudy.length}`, `Content-Length: ${showStudy.length}`]],
    ["a length and chunks", [`Content-Length: ${showStudy.length}`, "Transfer-Encoding: chunked"]],
    ["chunks and a length", ["Transfer-Encoding: chunked", `Content-Length: ${showStudy.length}`]],
    ["chunks", ["Transfer-Encoding: chunked"]],
    ["an odd coding", ["Transfer-Encoding: xchunked"]],
    ["a hidden coding", ["Transfer-Encoding:\tchunked", "Content-Length: 4"]],
    ["a negative length", ["Content-Length: -5"]],
    ["a length in hexadecimal", ["Content-Length: 0x15"]],
    ["a space before the colon", [`Content-Length : ${showStudy.length}`]],
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
