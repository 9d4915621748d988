import { describe, expect, it } from "vitest";
import { cookieName, type Decision, decide, type GuardKeys } from "../../app/server/guard.ts";
import { askingFor, secretPattern } from "../../app/server/secret.ts";
import { OneTimeTokens } from "../../app/server/tokens.ts";

// The shapes are those of the published attack classes: DNS rebinding, cross-site request forgery (Fetch Metadata,
// W3C Working Draft; RFC 6265bis on cookies and ports), request smuggling (RFC 9112, section 11.2) and path traversal (CWE-22).

const keys: GuardKeys = { port: 41_234, session: "S".repeat(43), ownerSecret: "O".repeat(43) };
/** What a second start made up. */
const challenge = "C".repeat(43);
const limits = { askBytes: 1_000 };

interface Shape {
  method?: string;
  target?: string;
  httpVersion?: string;
  headers: Record<string, string | readonly string[] | null>;
}

function decision(shape: Shape): Decision {
  const rawHeaders = Object.entries(shape.headers).flatMap(([name, value]) =>
    value === null ? [] : [value].flat().flatMap((one) => [name, one]),
  );
  const { method = "GET", target = "/", httpVersion = "1.1" } = shape;
  return decide({ method, target, httpVersion, rawHeaders }, keys, limits);
}

const cookie = `${cookieName(keys.port)}=${keys.session}`;
const open = { Host: "127.0.0.1:41234", "Sec-Fetch-Site": "none" };
const read = { Host: "127.0.0.1:41234", "Sec-Fetch-Site": "same-origin", Cookie: cookie };
const write = {
  ...read,
  Origin: "http://127.0.0.1:41234",
  "Content-Type": "application/json",
  "Content-Length": "2",
};

describe("what our own page sends is let through", () => {
  it.each<[string, Shape, Decision]>([
    ["the page opened from nowhere", { headers: open }, { action: "page", path: "/" }],
    ["the page reloaded", { headers: read }, { action: "page", path: "/" }],
    ["a file of the page", { target: "/assets/a.js", headers: read }, { action: "page", path: "/assets/a.js" }],
    ["a preview", { target: "/preview/aB3-_", headers: read }, { action: "preview", id: "aB3-_" }],
    ["a message", { method: "POST", target: "/ask", headers: write }, { action: "ask", bytes: 2 }],
    [
      "a message that names its encoding",
      { method: "POST", target: "/ask", headers: { ...write, "Content-Type": "application/json; charset=UTF-8" } },
      { action: "ask", bytes: 2 },
    ],
    [
      "a message beside cookies of other ports",
      { method: "POST", target: "/ask", headers: { ...write, Cookie: `boilbench-1=x; ${cookie}; other=1` } },
      { action: "ask", bytes: 2 },
    ],
    [
      "the token's exchange, without a cookie",
      { method: "POST", target: "/enter", headers: { ...write, Cookie: null } },
      { action: "enter", bytes: 2 },
    ],
    [
      "a second start",
      {
        method: "POST",
        target: "/fresh-address",
        headers: { Host: open.Host, Authorization: askingFor(keys.ownerSecret, challenge), "Content-Length": "0" },
      },
      { action: "freshAddress", challenge },
    ],
  ])("%s", (_name, shape, wanted) => {
    expect(decision(shape)).toEqual(wanted);
  });
});

describe("Host is exactly ours, in every kind of request", () => {
  const hostile: (string | readonly string[] | null)[] = [
    null,
    "",
    "127.0.0.1",
    "127.0.0.1:41235",
    "127.0.0.1:041234",
    "127.0.0.1:41234.",
    "127.0.0.1:41234 ",
    "localhost:41234",
    "LOCALHOST:41234",
    "[::1]:41234",
    "0.0.0.0:41234",
    "127.1:41234",
    "2130706433:41234",
    "0x7f000001:41234",
    "127.0.0.1.nip.example:41234",
    "rebound.example:41234",
    "rebound.example",
    "user@127.0.0.1:41234",
    "127.0.0.1:41234, rebound.example",
    "127.0.0.1:41234@rebound.example",
    ["127.0.0.1:41234", "127.0.0.1:41234"],
    ["127.0.0.1:41234", "rebound.example"],
  ];
  it.each(hostile)("refuses %j", (host) => {
    const wanted = { action: "refuse", status: 421, reason: "wrongHost" };
    expect(decision({ headers: { ...open, Host: host } })).toEqual(wanted);
    expect(decision({ target: "/preview/a", headers: { ...read, Host: host } })).toEqual(wanted);
    expect(decision({ method: "POST", target: "/ask", headers: { ...write, Host: host } })).toEqual(wanted);
    expect(decision({ method: "POST", target: "/enter", headers: { ...write, Host: host } })).toEqual(wanted);
  });
});

describe("a write has exactly our Origin", () => {
  const hostile: (string | readonly string[] | null)[] = [
    null,
    "",
    "null",
    "http://127.0.0.1",
    "http://127.0.0.1:41235",
    "https://127.0.0.1:41234",
    "http://127.0.0.1:41234/",
    "HTTP://127.0.0.1:41234",
    "http://localhost:41234",
    "http://127.0.0.1:41234.rebound.example",
    "http://rebound.example",
    "file://",
    "chrome-extension://abcdef",
    "http://127.0.0.1:41234 http://rebound.example",
    ["http://127.0.0.1:41234", "http://rebound.example"],
    ["http://127.0.0.1:41234", "http://127.0.0.1:41234"],
  ];
  it.each(hostile)("refuses %j", (origin) => {
    const wanted = { action: "refuse", status: 403, reason: "foreign" };
    expect(decision({ method: "POST", target: "/ask", headers: { ...write, Origin: origin } })).toEqual(wanted);
    expect(decision({ method: "POST", target: "/enter", headers: { ...write, Origin: origin } })).toEqual(wanted);
  });

  it("and a read that has one has no other", () => {
    for (const origin of ["null", "http://rebound.example", "http://127.0.0.1:41235"]) {
      expect(decision({ target: "/assets/a.js", headers: { ...read, Origin: origin } }).action).toBe("refuse");
    }
    expect(decision({ target: "/assets/a.js", headers: { ...read, Origin: write.Origin } }).action).toBe("page");
  });
});

describe("Sec-Fetch-Site tells our page from others", () => {
  const hostile: (string | readonly string[] | null)[] = [
    null,
    "",
    "cross-site",
    "same-site",
    "Same-Origin",
    "same-origin, none",
    ["same-origin", "same-origin"],
    ["cross-site", "same-origin"],
  ];
  it.each(hostile)("refuses %j", (site) => {
    const wanted = { action: "refuse", status: 403, reason: "foreign" };
    for (const target of ["/", "/assets/a.js", "/preview/a"]) {
      expect(decision({ target, headers: { ...read, "Sec-Fetch-Site": site } })).toEqual(wanted);
    }
    expect(decision({ method: "POST", target: "/ask", headers: { ...write, "Sec-Fetch-Site": site } })).toEqual(wanted);
  });

  it("takes `none` for opening the page alone", () => {
    for (const target of ["/assets/a.js", "/preview/a", "/index.html"]) {
      expect(decision({ target, headers: { ...read, "Sec-Fetch-Site": "none" } }).action).toBe("refuse");
    }
    expect(decision({ method: "POST", target: "/ask", headers: { ...write, "Sec-Fetch-Site": "none" } }).action).toBe(
      "refuse",
    );
  });
});

describe("the session's cookie is held, once and whole", () => {
  const hostile: (string | readonly string[] | null)[] = [
    null,
    "",
    `${cookieName(keys.port)}=`,
    `${cookieName(keys.port)}=${"S".repeat(42)}`,
    `${cookieName(keys.port)}=${"S".repeat(44)}`,
    `${cookieName(keys.port)}="${keys.session}"`,
    `${cookieName(keys.port + 1)}=${keys.session}`,
    `Boilbench-41234=${keys.session}`,
    `boilbench=${keys.session}`,
    `x${cookie}`,
    `${cookie}; ${cookieName(keys.port)}=planted`,
    `${cookieName(keys.port)}=planted; ${cookie}`,
    [cookie, cookie],
    `${cookieName(keys.port)}=${keys.ownerSecret}`,
  ];
  it.each(hostile)("refuses %j", (held) => {
    const wanted = { action: "refuse", status: 401, reason: "notEntered" };
    expect(decision({ target: "/preview/a", headers: { ...read, Cookie: held } })).toEqual(wanted);
    expect(decision({ method: "POST", target: "/ask", headers: { ...write, Cookie: held } })).toEqual(wanted);
  });

  it("and an empty session is nobody's", () => {
    const empty = { ...keys, session: "" };
    const rawHeaders = ["Host", open.Host, "Sec-Fetch-Site", "same-origin", "Cookie", `${cookieName(keys.port)}=`];
    expect(decide({ method: "GET", target: "/preview/a", httpVersion: "1.1", rawHeaders }, empty, limits)).toEqual({
      action: "refuse",
      status: 401,
      reason: "notEntered",
    });
  });
});

describe("a message is JSON of an announced and bounded length", () => {
  const post = (headers: Shape["headers"]) =>
    decision({ method: "POST", target: "/ask", headers: { ...write, ...headers } });
  it.each([
    [null],
    [""],
    ["text/plain"],
    ["application/x-www-form-urlencoded"],
    ["multipart/form-data; boundary=x"],
    ["application/json; charset=utf-16"],
    ["application/json, text/plain"],
    ["text/plain; application/json"],
  ])("refuses the type %j", (type) => {
    expect(post({ "Content-Type": type })).toEqual({ action: "refuse", status: 415, reason: "notJson" });
  });

  it("refuses more than the limit, and takes the limit itself", () => {
    expect(post({ "Content-Length": "1000" })).toEqual({ action: "ask", bytes: 1000 });
    expect(post({ "Content-Length": "1001" })).toEqual({ action: "refuse", status: 413, reason: "tooLarge" });
    expect(post({ "Content-Length": "999999999999999" })).toMatchObject({ status: 413 });
  });

  it.each<[Shape["headers"]]>([
    [{ "Content-Length": null }],
    [{ "Content-Length": "-1" }],
    [{ "Content-Length": "+2" }],
    [{ "Content-Length": "0x2" }],
    [{ "Content-Length": "2, 2" }],
    [{ "Content-Length": "1e3" }],
    [{ "Content-Length": ["2", "2"] }],
    [{ "Content-Length": ["2", "3"] }],
    [{ "Transfer-Encoding": "chunked" }],
    [{ "Content-Length": null, "Transfer-Encoding": "chunked" }],
    [{ "Content-Length": null, "Transfer-Encoding": ["identity", "chunked"] }],
  ])("refuses a length that can be read in two ways: %j", (headers) => {
    expect(post(headers)).toEqual({ action: "refuse", status: 411, reason: "malformed" });
  });

  it("lets nobody announce a large token", () => {
    const headers = { ...write, "Content-Length": "1025" };
    expect(decision({ method: "POST", target: "/enter", headers })).toMatchObject({ status: 413 });
  });
});

describe("methods, targets and versions", () => {
  it.each(["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "get", "PROPFIND", ""])("refuses %j", (method) => {
    expect(decision({ method, target: "/ask", headers: write })).toEqual({
      action: "refuse",
      status: 405,
      reason: "method",
    });
  });

  it.each(["*", "http://127.0.0.1:41234/", "//", "", "ask", "\\ask"])("never acts on the target %j", (target) => {
    expect(["refuse", "page"]).toContain(decision({ target, headers: read }).action);
    expect(decision({ method: "POST", target, headers: write }).action).toBe("refuse");
  });

  it.each([
    "/preview/",
    "/preview/../ask",
    "/preview/a/b",
    "/preview/a?x=1",
    "/preview/%2e%2e",
    "/preview/a%00",
    `/preview/${"a".repeat(201)}`,
    "/preview/é",
  ])("knows no preview at %j", (target) => {
    expect(decision({ target, headers: read })).toEqual({ action: "refuse", status: 404, reason: "notFound" });
  });

  it("takes a message by no other door", () => {
    expect(decision({ method: "GET", target: "/ask", headers: read })).toEqual({ action: "page", path: "/ask" });
    for (const target of ["/ask/", "/ask?x", "/Ask", "//ask", "/enter/../ask"]) {
      expect(decision({ method: "POST", target, headers: write }).action).toBe("refuse");
    }
  });

  it.each(["Transfer_Encoding", "Content.Length", "X\0", "", "Ho st", "Cöokie", "x".repeat(101)])(
    "refuses a header named %j, which no browser sends",
    (name) => {
      expect(decision({ headers: { ...open, [name]: "a" } })).toEqual({
        action: "refuse",
        status: 400,
        reason: "malformed",
      });
    },
  );

  it("refuses HTTP/1.0, upgrades, expectations and reads with a body", () => {
    expect(decision({ httpVersion: "1.0", headers: open }).action).toBe("refuse");
    expect(decision({ headers: { ...open, Upgrade: "websocket" } }).action).toBe("refuse");
    expect(decision({ headers: { ...open, Expect: "100-continue" } }).action).toBe("refuse");
    expect(decision({ headers: { ...open, "Content-Length": "0" } }).action).toBe("refuse");
    expect(decision({ headers: { ...open, "Transfer-Encoding": "chunked" } }).action).toBe("refuse");
  });
});

describe("a fresh address is for the owner's second start alone", () => {
  const second = { Host: open.Host, Authorization: askingFor(keys.ownerSecret, challenge), "Content-Length": "0" };
  it.each<[string, Shape["headers"]]>([
    ["no secret", { Authorization: null }],
    ["the proof of another secret", { Authorization: askingFor("o".repeat(43), challenge) }],
    ["the proof of the session's secret", { Authorization: askingFor(keys.session, challenge) }],
    ["the proof of another challenge", { Authorization: second.Authorization.replace(challenge, "c".repeat(43)) }],
    ["a challenge without proof", { Authorization: `Boilbench ${challenge}` }],
    ["the secret itself", { Authorization: `Boilbench ${challenge}.${keys.ownerSecret}` }],
    ["two secrets", { Authorization: [second.Authorization, second.Authorization] }],
    ["a page that asks", { Origin: write.Origin }],
    ["a page that asks, without Origin", { "Sec-Fetch-Site": "same-origin" }],
    ["a body", { "Content-Length": "5" }],
  ])("refuses %s", (_name, headers) => {
    expect(decision({ method: "POST", target: "/fresh-address", headers: { ...second, ...headers } }).action).toBe(
      "refuse",
    );
  });
});

describe("one-time tokens", () => {
  it("are taken once, and only as issued", () => {
    const tokens = new OneTimeTokens();
    const token = tokens.issue();
    expect(token).toMatch(secretPattern);
    for (const wrong of [
      "",
      `${token}x`,
      token.slice(1),
      token.toLowerCase() === token ? "x" : token.toLowerCase(),
      null,
      [token],
      { token },
    ]) {
      expect(tokens.redeem(wrong)).toBe(false);
    }
    expect(tokens.redeem(token)).toBe(true);
    expect(tokens.redeem(token)).toBe(false);
  });

  it("lapse, oldest first, where many are left unused", () => {
    const tokens = new OneTimeTokens(2);
    const [first, second, third] = [tokens.issue(), tokens.issue(), tokens.issue()];
    expect([tokens.redeem(first), tokens.redeem(second), tokens.redeem(third)]).toEqual([false, true, true]);
  });
});
