import { describe, expect, it } from "vitest";
import { request } from "../../app/contract/index.ts";
import { cookieName } from "../../app/server/guard.ts";
import { askingFor, newSecret, openingFor } from "../../app/server/secret.ts";
import {
  ask,
  canary,
  canaryFile,
  cookie,
  entering,
  expectAllRefused,
  expectServing,
  freshToken,
  headOf,
  hostLine,
  lengthOf,
  look,
  origin,
  ownerSecret,
  port,
  question,
  withHostileHost,
  written,
} from "./hostile-host.ts";
import { examplesOf, hostileTexts, jsonWithKey, placesIn, withValue } from "./hostile-values.ts";
import { requestBytes, sendRaw } from "./raw-request.ts";

// Attacks on the running host over plain sockets. Shapes of HTTP: RFC 9112, sections 2.2, 3.2, 5, 6, 7 and 11.2; names that are re-bound and
// other sites: the classes of test/hosts/guard.test.ts. What each must hold: no data of the study, nothing at the door, and service after it.

withHostileHost();

const challenge = newSecret();

/** Every kind of request that there is, each proper but for its head's first lines. */
function everyRequest(
  token: string,
  hostLines: readonly string[],
  target = (path: string) => path,
): Map<string, string> {
  const rest = headOf().slice(1);
  const file = JSON.stringify({ path: "/home/a/stove.boilstudy" });
  const exchange = JSON.stringify({ token });
  const read = ["Sec-Fetch-Site: same-origin", `Cookie: ${cookie}`, "Connection: close"];
  const make = (method: string, path: string, lines: readonly string[], body = "") =>
    requestBytes(`${method} ${target(path)} HTTP/1.1`, [...hostLines, ...lines], body);
  return new Map([
    ["the page", make("GET", "/", ["Sec-Fetch-Site: none", "Connection: close"])],
    ["a preview", make("GET", "/preview/report-1", read)],
    ["a message", make("POST", "/ask", [...rest, lengthOf(question), "Connection: close"], question)],
    ["an entrance", make("POST", "/enter", [...rest, lengthOf(exchange), "Connection: close"], exchange)],
    [
      "a fresh address",
      make("POST", "/fresh-address", [`Authorization: ${askingFor(ownerSecret, challenge)}`, "Content-Length: 0"]),
    ],
    [
      "a file to open",
      make(
        "POST",
        "/open-file",
        [
          `Authorization: ${openingFor(ownerSecret, challenge, file)}`,
          "Content-Type: application/json",
          lengthOf(file),
          "Connection: close",
        ],
        file,
      ),
    ],
  ]);
}

/** As many attacks as there are kinds of request and ways to spoil one. */
function spoilt(token: string, ways: ReadonlyMap<string, readonly string[]>, target?: (path: string) => string) {
  return new Map(
    [...ways].flatMap(([way, lines]) =>
      [...everyRequest(token, lines, target)].map(([what, bytes]) => [`${what}, ${way}`, bytes] as const),
    ),
  );
}

describe("whose request it is", () => {
  it("is asked of every request: a name that is not ours, in any spelling, gets nothing and uses up no token", async () => {
    const hosts = [
      ...["rebound.example", "rebound.example.", "127.0.0.1.rebound.example", "localhost", "localhost.", "LOCALHOST"],
      ...["127.0.0.1.", "127.1", "127.0.1", "0.0.0.0", "0", "127.0.0.2", "2130706433", "017700000001", "0x7f000001"],
      ...["0177.0.0.1", "0x7f.0.0.1", "127.0.0.01", "[::1]", "[::]", "[::ffff:127.0.0.1]", "[::ffff:7f00:1]", "::1"],
      ...[
        "user@127.0.0.1",
        "127.0.0.1@rebound.example",
        "127.0.0.1#",
        "127.0.0.1/",
        "127.0.0.1%00",
        "*",
        "１２７.0.0.1",
      ],
    ];
    const wrong = [
      ...hosts.flatMap((name) => [`${name}:${port}`, name]),
      ...["127.0.0.1", "127.0.0.1:", "127.0.0.1:80", `127.0.0.1:0${port}`, `127.0.0.1:${port + 65_536}`, ""],
      ...[`127.0.0.1:${port},rebound.example`, `http://127.0.0.1:${port}`, `127.0.0.1 :${port}`],
    ];
    const ways = new Map<string, readonly string[]>(wrong.map((host) => [`Host: ${host}`, [`Host: ${host}`]]));
    ways.set("no Host", []);
    ways.set("two Hosts", [hostLine(), hostLine()]);
    ways.set("two Hosts in other letters", [hostLine(), "hOST: rebound.example"]);
    ways.set("another Host first", ["Host: rebound.example", hostLine()]);
    ways.set("a Host beside one that was forwarded", ["Host: rebound.example", `X-Forwarded-Host: 127.0.0.1:${port}`]);
    const token = await freshToken();
    await expectAllRefused(spoilt(token, ways));
    expect((await sendRaw(port, entering(token))).status).toBe(204);
  });

  it("is not what the target says: targets with an authority are not answered, whatever Host says", async () => {
    const token = await freshToken();
    const ours = new Map([["a whole address as target", [hostLine()]]]);
    for (const start of [
      `http://rebound.example:${port}`,
      origin(),
      `https://127.0.0.1:${port}`,
      `//rebound.example`,
    ]) {
      await expectAllRefused(spoilt(token, ours, (path) => `${start}${path === "/" ? "/index.html" : path}`));
    }
    expect((await sendRaw(port, entering(token))).status).toBe(204);
  });

  it("is told by Origin and Sec-Fetch-Site, once each, and by no half of them", async () => {
    const origins = [
      ...["null", "", "*", "http://rebound.example", `http://rebound.example:${port}`, `http://127.0.0.1:${port + 1}`],
      ...["http://127.0.0.1", `https://127.0.0.1:${port}`, `http://localhost:${port}`, `${origin()}/`, `${origin()}.x`],
      ...[`${origin()}, ${origin()}`, `${origin()} http://rebound.example`, `ws://127.0.0.1:${port}`, "file://"],
    ];
    const sites = [
      "cross-site",
      "same-site",
      "none",
      "",
      "SAME-ORIGIN",
      "same-origin,cross-site",
      "?1",
      "same-origin;x",
    ];
    const change = (name: string, lines: readonly string[]) => [
      ...headOf().filter((line) => !line.startsWith(`${name}:`)),
      ...lines,
    ];
    const heads = [
      ...origins.map((one) => change("Origin", [`Origin: ${one}`])),
      change("Origin", []),
      change("Origin", [`Origin: ${origin()}`, "origin: http://rebound.example"]),
      change("Origin", [`Referer: ${origin()}/`]),
      ...sites.map((one) => change("Sec-Fetch-Site", [`Sec-Fetch-Site: ${one}`])),
      change("Sec-Fetch-Site", []),
      change("Sec-Fetch-Site", ["Sec-Fetch-Site: same-origin", "sec-fetch-site: cross-site"]),
    ];
    const token = await freshToken();
    const exchange = JSON.stringify({ token });
    const attacks = new Map<string, string>();
    for (const head of heads) {
      for (const [path, body] of [
        ["/ask", question],
        ["/enter", exchange],
      ] as const) {
        const lines = [...head, lengthOf(body), "Connection: close"];
        attacks.set(`${path} ${lines.join(" | ")}`, requestBytes(`POST ${path} HTTP/1.1`, lines, body));
      }
    }
    await expectAllRefused(attacks);
    expect((await sendRaw(port, entering(token))).status).toBe(204);
  });

  it("is proved by the cookie and by nothing that can be guessed, replayed or planted", async () => {
    const [name, value = ""] = cookie.split("=");
    const used = await freshToken();
    expect((await sendRaw(port, entering(used))).status).toBe(204);
    const held = [
      ...[
        `${name}=${newSecret()}`,
        `${name}=${value.slice(0, -1)}`,
        `${name}=${value}x`,
        `${name}=${value.toLowerCase()}`,
      ],
      ...[
        `${cookieName(port + 1)}=${value}`,
        `${name}=${newSecret()}; ${cookie}`,
        `${cookie}; ${cookie}`,
        `x${cookie}`,
      ],
      ...[
        `${name}="${value}"`,
        `${name} =${value}`,
        `${name}=${used}`,
        `${name}=${ownerSecret}`,
        `$Version=1, ${cookie}`,
      ],
      ...[`${name}=`, name ?? "", `other="; ${cookie}"`, `${name}=${encodeURIComponent(`${value}\0`)}`],
    ];
    const asking = (lines: readonly string[], target = "/ask") =>
      requestBytes(
        `POST ${target} HTTP/1.1`,
        [...headOf(null), ...lines, lengthOf(question), "Connection: close"],
        question,
      );
    const attacks = new Map<string, string>(held.map((one) => [`Cookie: ${one}`, asking([`Cookie: ${one}`])]));
    attacks.set("two cookie headers", asking([`Cookie: ${cookie}`, `Cookie: ${cookie}`]));
    attacks.set("the cookie under another name", asking([`Cookie2: ${cookie}`, `Set-Cookie: ${cookie}`]));
    attacks.set("the session as a bearer", asking([`Authorization: Bearer ${value}`]));
    attacks.set("the session in the target", asking([], `/ask?${cookie}`));
    attacks.set("a token in the target", asking([], `/ask?token=${await freshToken()}`));
    attacks.set("a token as the cookie", asking([`Cookie: ${name}=${await freshToken()}`]));
    attacks.set("a replayed token", entering(used));
    for (const made of [ownerSecret, value, "", "null", "__proto__", "0", used.toUpperCase(), `${used}\0`]) {
      attacks.set(`the token ${made}`, entering(made));
    }
    for (let guess = 0; guess < 200; guess += 1) attacks.set(`guess ${guess}`, entering(newSecret()));
    await expectAllRefused(attacks);
  });
});

describe("whatever stands in a parameter is a name and never a path", () => {
  const examples = examplesOf(request) as { readonly kind: string }[];
  it("in every text of every kind of request", async () => {
    const bodies = examples.flatMap((example) => {
      const places = placesIn(example).texts;
      // Each place has a third of the texts, and they take turns; where a study is named, it is the open one, too, for a few of them.
      const shallow = places.flatMap((place, at) =>
        hostileTexts.filter((_, which) => which % 3 === at % 3).map((text) => withValue(example, place, text)),
      );
      const open = "study" in example ? { ...example, study: null } : example;
      const telling = ["../escaped.boilstudy", "..\\..\\escaped", canaryFile, `../${canaryFile}`, "__proto__"];
      const deep = places.flatMap((place) =>
        place.at(-1) === "study" ? [] : telling.map((text) => withValue(open, place, text)),
      );
      return [...shallow, ...deep].map((message) => JSON.stringify(message));
    });
    // One example a kind at least, and no kind left out.
    expect(new Set(examples.map((example) => example.kind)).size).toBe(request.options.length);
    const before = written();
    const waiting = [...bodies];
    const work = async () => {
      for (let body = waiting.pop(); body !== undefined; body = waiting.pop()) {
        const answer = await ask(body);
        expect(answer.status, body.slice(0, 300)).toBe(200);
        expect(answer.text.includes('"reason":"failed"'), `${body.slice(0, 300)}: ${answer.text.slice(0, 300)}`).toBe(
          false,
        );
        for (const secret of [canary, "root:x:0", "root:*:0", "; for 16-bit app support"]) {
          expect(answer.text.includes(secret), body.slice(0, 300)).toBe(false);
        }
      }
    };
    await Promise.all(Array.from({ length: 16 }, work));
    expect(written()).toEqual(before);
    expect(bodies.length).toBeGreaterThan(examples.length * 40);
    await expectServing();
  }, 60_000);

  it("with keys that every object has, at every level", async () => {
    const attacks = examples.flatMap((example) =>
      placesIn(example).objects.flatMap((place) =>
        ["__proto__", "constructor", "prototype", "toString", "hasOwnProperty"].map((key) =>
          jsonWithKey(example, place, key, `{"polluted":1,"prototype":{"polluted":1}}`),
        ),
      ),
    );
    for (const body of attacks) {
      const { text } = await ask(body);
      expect(text.includes('"ok":false'), body).toBe(true);
    }
    expect((await look()).clean).toBe(true);
    await expectServing();
  });

  it("in letters of UTF-8 that are too long, or none at all", async () => {
    const attacks = new Map<string, Buffer>();
    for (const letters of ["c0aec0ae2f", "e080ae2f", "f08080af", "c1bf", "fe", "80", "eda080", "f5808080"]) {
      const body = Buffer.concat([
        Buffer.from('{"kind":"study.show","study":"'),
        Buffer.from(letters, "hex"),
        Buffer.from('"}'),
      ]);
      const lines = [...headOf(), `Content-Length: ${body.length}`, "Connection: close"];
      attacks.set(letters, Buffer.concat([Buffer.from(requestBytes("POST /ask HTTP/1.1", lines)), body]));
      attacks.set(
        `${letters} in the target`,
        Buffer.concat([
          Buffer.from("GET /preview/"),
          Buffer.from(letters, "hex"),
          Buffer.from(requestBytes(" HTTP/1.1", [hostLine(), "Sec-Fetch-Site: same-origin", `Cookie: ${cookie}`])),
        ]),
      );
    }
    // A mark at the beginning is no letter of a message: it is taken off, as the standard has it (RFC 8259, 8.1), or refused.
    const utf16 = Buffer.from(`\ufeff${question}`, "utf16le");
    const lines = [...headOf(), `Content-Length: ${utf16.length}`, "Connection: close"];
    attacks.set("UTF-16", Buffer.concat([Buffer.from(requestBytes("POST /ask HTTP/1.1", lines)), utf16]));
    await expectAllRefused(attacks);
  });

  it("in the address of a page, of a file of the page, and of a preview", async () => {
    const attacks = new Map<string, string>();
    const spellings = [
      ...hostileTexts.slice(0, -1).map((text) => encodeURIComponent(text.toWellFormed())),
      ...hostileTexts.filter((text) => /^[!-~]+$/.test(text)),
      ...["report-1/", "report-1/..", "./report-1", "../preview/report-1", "report-1?", "report-1#", "report-1%00"],
      ...["report-1;x", "%72eport-1", "report-1\\", "a".repeat(9_000)],
    ];
    const wellFormed = /^\/preview\/[A-Za-z0-9_-]{1,200}$/;
    const lines = [hostLine(), "Sec-Fetch-Site: same-origin", `Cookie: ${cookie}`, "Connection: close"];
    for (const start of ["/", "/assets/", "/preview/", "/index.html/", "/ask/"]) {
      for (const text of spellings) {
        const bytes = requestBytes(`GET ${start}${text} HTTP/1.1`, lines);
        // The door is asked for what looks like a preview's name, and has none.
        if (wellFormed.test(`${start}${text}`)) expect((await sendRaw(port, bytes)).status).toBe(404);
        else attacks.set(`${start}${text}`.slice(0, 200), bytes);
      }
    }
    await expectAllRefused(attacks);
  });
});
