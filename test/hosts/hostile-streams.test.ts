import { describe, expect, it } from "vitest";
import { requestByteLimit } from "../../app/contract/index.ts";
import {
  calm,
  cookie,
  expectAllRefused,
  expectNothing,
  expectServing,
  headOf,
  hostLine,
  lengthOf,
  look,
  open,
  port,
  properQuestion,
  question,
  stream,
  withHostileHost,
} from "./hostile-host.ts";
import { requestBytes, sendRaw } from "./raw-request.ts";

// Bodies without end, connections without number, and bytes that two readers of HTTP would read in two ways, against the running host. Shapes:
// RFC 9112, sections 2.2, 3, 5, 6, 7 and 11; RFC 9113, 3.4; RFC 8446, 4.1.2. Every one of them has the session's cookie, Host and Origin: it is
// the shape alone that has to be refused.

withHostileHost();

const megabyte = 1024 * 1024;
const end = "\r\n\r\n";
const asking = (lines: readonly string[], body = "") =>
  requestBytes("POST /ask HTTP/1.1", [...headOf(), ...lines], body);
const chunk = (text: string, extension = "") => `${text.length.toString(16)}${extension}\r\n${text}\r\n`;

describe("what two readers would read in two ways is read by none", () => {
  const inner = () => properQuestion();
  const chunked = `${chunk(question)}0${end}`;

  it("in lengths and codings of the body", async () => {
    const n = question.length;
    const sameLength = [
      ...[
        `+${n}`,
        `-${n}`,
        `${n} 0`,
        `${n},${n}`,
        `${n}, 0`,
        `0x${n.toString(16)}`,
        `${n}.0`,
        `${n}e0`,
        `"${n}"`,
        `${n};`,
      ],
      ...[`${n}\t0`, `\v${n}`, `${n}\0`, "", " ", "18446744073709551650", "-0", "NaN", "١٢", `${n}_0`],
    ];
    const codings = [
      ...[
        "chunked",
        "Chunked",
        "CHUNKED",
        "chunked, identity",
        "identity, chunked",
        "identity",
        "gzip, chunked",
        "xchunked",
      ],
      ...[
        "chunked;q=1",
        '"chunked"',
        "chunked,",
        ",chunked",
        "\vchunked",
        "chunked\v",
        "chunked\0",
        "chunke d",
        "",
        "deflate",
      ],
      ...["trailers", "chunked, chunked", "\tchunked"],
    ];
    const names = [
      ...[
        "Transfer-Encoding ",
        "Transfer_Encoding",
        "Transfer-Encoding\0",
        "Transfer\0-Encoding",
        " Transfer-Encoding",
      ],
      ...[
        "\tTransfer-Encoding",
        "Transfer Encoding",
        "Transfer-Encoding\v",
        "X: y\rTransfer-Encoding",
        "X: y\nTransfer-Encoding",
      ],
      ...[
        "Content-Length ",
        "Content-Length\0",
        "Content Length",
        "Content\0-Length",
        "(Content-Length)",
        "Cöntent-Length",
      ],
    ];
    const attacks = new Map<string, string>();
    for (const length of sameLength) {
      attacks.set(`length ${JSON.stringify(length)}`, asking([`Content-Length: ${length}`], question + inner()));
    }
    for (const coding of codings) {
      const line = `Transfer-Encoding: ${coding}`;
      attacks.set(`coding ${JSON.stringify(coding)}`, asking([line], chunked + inner()));
      attacks.set(
        `coding ${JSON.stringify(coding)}, length first`,
        asking([lengthOf(question), line], chunked + inner()),
      );
      attacks.set(
        `coding ${JSON.stringify(coding)}, length last`,
        asking([line, lengthOf(question)], question + inner()),
      );
    }
    for (const name of names) {
      attacks.set(`the name ${JSON.stringify(name)}`, asking([`${name}: chunked`, lengthOf("0")], `0${inner()}`));
    }
    attacks.set("a folded coding", asking(["Transfer-Encoding:", " chunked", lengthOf(question)], question + inner()));
    attacks.set("a folded length", asking(["Content-Length: 3", " 4"], question + inner()));
    attacks.set("extensions of a chunk", asking(["Transfer-Encoding: chunked"], `${chunk(question, ";a=b")}0${end}`));
    attacks.set("an extension with a line feed", asking(["Transfer-Encoding: chunked"], `2;\nxx\r\n0${end}${inner()}`));
    attacks.set("a trailer", asking(["Transfer-Encoding: chunked"], `${chunk(question)}0\r\nCookie: ${cookie}${end}`));
    attacks.set("a chunk of another size", asking(["Transfer-Encoding: chunked"], `1\r\n${question}\r\n0${end}`));
    attacks.set("a chunk of a huge size", asking(["Transfer-Encoding: chunked"], `fffffffffffffffff\r\n${question}`));
    attacks.set("a negative chunk", asking(["Transfer-Encoding: chunked"], `-1\r\n${question}\r\n0${end}`));
    await expectAllRefused(attacks);
  });

  it("in lines and their ends, versions, methods and targets", async () => {
    const proper = properQuestion();
    const [head = ""] = proper.split(end);
    const first = "POST /ask HTTP/1.1";
    const attacks = new Map<string, string | Buffer>([
      ["line feeds alone", `${head.replaceAll("\r\n", "\n")}\n\n${question}`],
      ["carriage returns alone", `${head.replaceAll("\r\n", "\r")}\r\r${question}`],
      ["a line feed alone in the middle", proper.replace("\r\nSec-Fetch-Site", "\nSec-Fetch-Site")],
      ["a line feed alone at the head's end", `${head}\n\n${question}`],
      ["a carriage return in a value", proper.replace("Sec-Fetch-Site: ", "X: a\rSec-Fetch-Site: ")],
      ["a blank before a header", proper.replace("Sec-Fetch-Site", " Sec-Fetch-Site")],
      ["a NUL in a name", proper.replace("Sec-Fetch-Site", "Sec-Fetch\0-Site")],
      ["a header without a name", proper.replace("Sec-Fetch-Site", ": x\r\nSec-Fetch-Site")],
      ["a header without a colon", proper.replace("Sec-Fetch-Site", "x\r\nSec-Fetch-Site")],
    ]);
    const lines = [
      "HTTP/1.0",
      "HTTP/0.9",
      "HTTP/1.2",
      "HTTP/2.0",
      "HTTP/3",
      "HTTP/1.1x",
      "http/1.1",
      "HTTP/1.10",
      "HTTPS/1.1",
      "",
    ];
    for (const version of lines) attacks.set(`the version ${version}`, proper.replace("HTTP/1.1", version));
    for (const method of [
      "TRACE",
      "OPTIONS",
      "CONNECT",
      "PUT",
      "DELETE",
      "PATCH",
      "post",
      "PROPFIND",
      "M-SEARCH",
      "PRI",
      "P\0ST",
    ]) {
      attacks.set(`the method ${method}`, proper.replace("POST", method));
    }
    // Not more blanks between the words: RFC 9112, section 3, lets a server take them, and they can be read in one way alone.
    for (const line of [
      ...["POST\t/ask\tHTTP/1.1", " POST /ask HTTP/1.1", "POST /ask HTTP/1.1 ", "/ask"],
      ...[
        "POST /ask?x HTTP/1.1",
        "POST /ask#x HTTP/1.1",
        "POST /ask/ HTTP/1.1",
        "POST //ask HTTP/1.1",
        "POST /%61sk HTTP/1.1",
      ],
      ...[
        "POST /./ask HTTP/1.1",
        "POST /enter/../ask HTTP/1.1",
        "POST /ask\0 HTTP/1.1",
        "POST \\ask HTTP/1.1",
        "POST * HTTP/1.1",
      ],
    ]) {
      if (line !== first) attacks.set(JSON.stringify(line), proper.replace(first, line));
    }
    for (const extra of [
      ...[
        "Upgrade: h2c\r\nHTTP2-Settings: AAMAAABkAAQCAAAAAAIAAAAA",
        "Upgrade: websocket",
        "Upgrade: TLS/1.0",
        "Upgrade:",
      ],
      ...["Expect: 100-continue", "Expect: 100-Continue, x", "Expect: anything", "Expect:", "Expect: \0"],
    ]) {
      attacks.set(extra, proper.replace("Connection: close", extra));
      attacks.set(
        `${extra}, announced`,
        proper.replace("Connection: close", `${extra}\r\nConnection: Upgrade, HTTP2-Settings`),
      );
    }
    // A greeting of TLS, of HTTP/2, and of others that speak first.
    const hello = `160301${"00fc".padStart(4, "0")}010000f80303${"ab".repeat(32)}20${"cd".repeat(32)}003e1302130313010000`;
    attacks.set("TLS", Buffer.from(hello, "hex"));
    attacks.set("SSL 2", Buffer.from("802e010002001500000010010080", "hex"));
    attacks.set("HTTP/2", Buffer.from("PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n\0\0\0\x04\0\0\0\0\0"));
    attacks.set("a proxy's introduction", `PROXY TCP4 127.0.0.1 127.0.0.1 1 ${port}\r\n${proper}`);
    attacks.set("mail", "EHLO x\r\n");
    attacks.set("SSH", "SSH-2.0-x\r\n");
    attacks.set("a database", Buffer.from("0000000804d2162f", "hex"));
    await expectAllRefused(attacks);
  });

  it("in a second request behind one that was refused, or within its body", async () => {
    const proper = properQuestion();
    const kept = proper.replace("Connection: close", "Connection: keep-alive");
    const nowhere = requestBytes("GET /nowhere HTTP/1.1", [hostLine(), "Sec-Fetch-Site: same-origin"]);
    const within = asking([`Content-Length: ${proper.length}`, "Connection: close"], proper);
    const stranger = kept.replace(`Cookie: ${cookie}`, "X: y");
    await expectAllRefused(
      new Map([
        ["behind a page that is not there", nowhere + proper],
        ["behind a stranger's question", stranger + proper],
        ["behind a stranger's, many times", stranger + proper.repeat(50)],
        ["behind what is no request", `x${end}${proper}`],
        ["behind a question of another Host", kept.replace(hostLine(), "Host: rebound.example") + proper],
        ["behind a read with a body", requestBytes("GET / HTTP/1.1", [hostLine(), "Content-Length: 2"], "{}") + proper],
        ["behind a preflight", requestBytes("OPTIONS /ask HTTP/1.1", [hostLine()]) + proper],
        ["behind a tunnel", requestBytes(`CONNECT 127.0.0.1:${port} HTTP/1.1`, [hostLine()]) + proper],
        ["behind an upgrade", kept.replace("Connection: keep-alive", "Connection: Upgrade\r\nUpgrade: h2c") + proper],
        ["within a body that is no JSON", within],
        [
          "in a head that is too long",
          requestBytes("GET / HTTP/1.1", [hostLine(), `X: ${"a".repeat(20_000)}`]) + proper,
        ],
      ]),
    );
  });
});

describe("what is large is not kept", () => {
  /** What the host may take for a while above what it had: buffers on their way, not a body. */
  const room = 96 * megabyte;
  const piece = Buffer.alloc(megabyte, " ");
  const gigabyte = 1024 * megabyte;

  it.each<[string, () => string, number]>([
    ["that is announced", () => asking([`Content-Length: ${gigabyte}`]), 413],
    ["that is announced as longer than any number", () => asking([`Content-Length: ${"9".repeat(400)}`]), 400],
    [
      "that is sent in chunks without an announcement",
      () => asking(["Transfer-Encoding: chunked"], "40000000\r\n"),
      411,
    ],
    ["that is sent without a word", () => asking([]), 411],
    ["that is sent by a stranger", () => asking([`Content-Length: ${gigabyte}`]).replace(cookie, "x=y"), 401],
    ["behind an entrance", () => asking(["Content-Length: 2"], "{}").replace("/ask", "/enter"), 401],
  ])("a body of 1 GB %s", async (_name, head, status) => {
    const before = (await calm()).peak;
    const { sent, text } = await stream(head(), piece, gigabyte);
    const reached = await look();
    // Where its answer was lost among what was still coming, there was none; blanks behind a request may be refused first.
    expect(text === "" || [status, 400].some((one) => text.startsWith(`HTTP/1.1 ${one}`)), text.slice(0, 300)).toBe(
      true,
    );
    expect(reached.calls).toBe(0);
    expect(sent).toBeLessThan(gigabyte / 4);
    expect(reached.peak - before).toBeLessThan(room);
    await expectServing();
  });

  it("a body of 1 GB that is announced as a small question: the question is answered, the rest is not read", async () => {
    const before = (await calm()).peak;
    const { sent, text } = await stream(asking([lengthOf(question)], question), piece, gigabyte);
    const reached = await look();
    expect(text === "" || text.startsWith("HTTP/1.1 200") || text.startsWith("HTTP/1.1 400")).toBe(true);
    expect(reached.calls).toBeLessThanOrEqual(1);
    expect(sent).toBeLessThan(gigabyte / 4);
    expect(reached.peak - before).toBeLessThan(room);
    await expectServing();
  });

  it("a body of the size that is allowed, of nothing but brackets, commas, or keys", async () => {
    const size = requestByteLimit;
    const fill = (text: string) => Buffer.alloc(size, text);
    const bodies = new Map<string, Buffer>([
      ["lists within lists", fill("[")],
      ["lists within lists, closed again", Buffer.concat([fill("[").subarray(size / 2), fill("]").subarray(size / 2)])],
      ["objects within objects", fill('{"a":')],
      [
        "lists in an object's value",
        Buffer.concat([Buffer.from('{"kind":"study.show","study":'), fill("[").subarray(100)]),
      ],
      ["empty lists in number", Buffer.concat([Buffer.from("["), fill("[],").subarray(3), Buffer.from("1]")])],
      ["numbers in number", Buffer.concat([Buffer.from("["), fill("1,").subarray(3), Buffer.from("1]")])],
    ]);
    const before = (await calm()).peak;
    for (const [what, body] of bodies) {
      const bytes = Buffer.concat([Buffer.from(asking([`Content-Length: ${body.length}`, "Connection: close"])), body]);
      const answer = await sendRaw(port, bytes);
      expect([what, answer.status]).toEqual([what, 400]);
      expectNothing(answer, what);
    }
    const reached = await look();
    expect(reached.calls).toBe(0);
    // Two bodies at most at a time: the one that came, and the one before it until it is swept away.
    expect(reached.peak - before).toBeLessThan(room + 2 * size);
    await expectServing();
  });

  it("heads and addresses without end", async () => {
    const before = (await calm()).peak;
    const lines = [hostLine(), "Sec-Fetch-Site: same-origin", `Cookie: ${cookie}`];
    const endless: [string, Buffer][] = [
      [`${requestBytes("GET / HTTP/1.1", lines).slice(0, -2)}`, Buffer.from("A: b\r\n".repeat(100_000))],
      [`GET / HTTP/1.1\r\n${hostLine()}\r\nX: `, Buffer.alloc(megabyte, "a")],
      ["GET /", Buffer.alloc(megabyte, "a")],
      ["GET /preview/", Buffer.alloc(megabyte, "%2e%2e%2f")],
      ["", Buffer.alloc(megabyte, "A")],
      ["", Buffer.alloc(megabyte, "\r\n")],
    ];
    for (const [head, more] of endless) {
      const { text, sent } = await stream(head, more, 256 * megabyte);
      expect(text === "" || /^HTTP\/1\.1 4\d\d /.test(text), text.slice(0, 200)).toBe(true);
      expect(sent, JSON.stringify([head.slice(0, 40), more.toString("latin1", 0, 8)])).toBeLessThan(256 * megabyte);
    }
    const long = "a".repeat(megabyte);
    await expectAllRefused(
      new Map([
        ["an address of 1 MB", requestBytes(`GET /${long} HTTP/1.1`, lines)],
        ["a query of 1 MB", requestBytes(`GET /?${long} HTTP/1.1`, lines)],
        ["a cookie of 1 MB", requestBytes("GET /preview/a HTTP/1.1", [...lines, `Cookie: ${long}`])],
        ["a method of 1 MB", requestBytes(`${long} / HTTP/1.1`, lines)],
        ["a name of 1 MB", requestBytes("GET / HTTP/1.1", [...lines, `${long}: a`])],
        [
          "50 000 headers",
          requestBytes("GET / HTTP/1.1", [...lines, ...Array.from({ length: 50_000 }, (_, i) => `A${i}: b`)]),
        ],
      ]),
    );
    expect((await look()).peak - before).toBeLessThan(room);
  });
});

describe("who is slow, or many, shuts nobody out", () => {
  it.each<[string, () => readonly string[]]>([
    [
      "heads that come a letter at a time",
      () => ["GET / HTTP/1.1\r\n", ..."X-Long: aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"],
    ],
    [
      "bodies that come a letter at a time",
      () => [asking(["Content-Length: 900"]).replace(cookie, "x=y"), ..."{".repeat(80)],
    ],
    [
      "entrances that come a letter at a time",
      () => [asking(["Content-Length: 900"]).replace("/ask", "/enter"), ..."{".repeat(80)],
    ],
    ["connections that say nothing", () => []],
  ])(
    "200 connections with %s: a proper question is answered among them, and they are let go",
    async (_name, pieces) => {
      await calm();
      const sockets = Array.from({ length: 200 }, open);
      const closed = sockets.map((socket) => new Promise((done) => socket.resume().once("close", done)));
      const waiting = pieces();
      let at = 0;
      const dripping = setInterval(() => {
        const next = waiting[at];
        at += 1;
        if (next !== undefined) for (const socket of sockets) if (socket.writable) socket.write(next);
      }, 25);
      try {
        await new Promise((done) => setTimeout(done, 200));
        for (let round = 0; round < 5; round += 1) await expectServing();
        const began = performance.now();
        await Promise.all(closed);
        expect(performance.now() - began).toBeLessThan(3_500);
      } finally {
        clearInterval(dripping);
        for (const socket of sockets) socket.destroy();
      }
      expect((await look()).calls).toBe(5);
      await expectServing();
    },
  );
});
