import { mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { decide, type GuardKeys } from "../../app/server/guard.ts";
import { type Listener, openInRunningHost, startListener, writeStateFile } from "../../app/server/index.ts";
import { answerProof, askingFor, newSecret, openingFor, tokenProof } from "../../app/server/secret.ts";
import { requestBytes, sendRaw } from "./raw-request.ts";
import { type SmallDoor, smallDoor } from "./small-door.ts";

// A second start names a study to the first. HMAC-SHA-256 (RFC 2104) shows that it, and the answer, come from the owner's programs.

const keys: GuardKeys = { port: 41_234, session: "S".repeat(43), ownerSecret: "O".repeat(43) };
const challenge = "C".repeat(43);
const body = JSON.stringify({ path: "/home/a/stove.boilstudy" });
const good = {
  Host: "127.0.0.1:41234",
  Authorization: openingFor(keys.ownerSecret, challenge, body),
  "Content-Type": "application/json",
  "Content-Length": String(body.length),
};
type Headers = Record<string, string | readonly string[] | null>;
const decision = (headers: Headers, method = "POST") =>
  decide(
    {
      method,
      target: "/open-file",
      httpVersion: "1.1",
      rawHeaders: Object.entries(headers).flatMap(([name, value]) =>
        value === null ? [] : [value].flat().flatMap((one) => [name, one]),
      ),
    },
    keys,
    { askBytes: 1_000 },
  );

describe("a file to open is taken from the owner's second start alone", () => {
  it("with its proof, for this body", () => {
    const [, , digest] = /^Boilbench (.{43})\.(.{43})\./.exec(good.Authorization) ?? [];
    expect(decision(good)).toEqual({ action: "openFile", challenge, digest, bytes: body.length });
  });

  it.each<[string, Headers]>([
    ["no proof", { Authorization: null }],
    ["the proof of another secret", { Authorization: openingFor("o".repeat(43), challenge, body) }],
    ["the proof of the page's session", { Authorization: openingFor(keys.session, challenge, body) }],
    ["the proof for a fresh address", { Authorization: askingFor(keys.ownerSecret, challenge) }],
    ["another challenge", { Authorization: good.Authorization.replace(challenge, "c".repeat(43)) }],
    ["another body's digest", { Authorization: good.Authorization.replace(/\..{43}\./, `.${"D".repeat(43)}.`) }],
    ["the secret itself", { Authorization: `Boilbench ${challenge}.${"D".repeat(43)}.${keys.ownerSecret}` }],
    ["two proofs", { Authorization: [good.Authorization, good.Authorization] }],
    ["the page, with its cookie", { Authorization: null, Cookie: `boilbench-41234=${keys.session}` }],
    ["a page that has the proof", { Origin: "http://127.0.0.1:41234" }],
    ["a page of nowhere that has it", { Origin: "null" }],
    ["a browser that has it", { "Sec-Fetch-Site": "same-origin" }],
    ["another Host", { Host: "rebound.example:41234" }],
    ["a form", { "Content-Type": "text/plain" }],
    ["no length", { "Content-Length": null }],
    ["two lengths", { "Content-Length": ["2", "2"] }],
    ["chunks", { "Transfer-Encoding": "chunked" }],
    ["a length above any path's", { "Content-Length": String(256 * 1024 + 1) }],
  ])("and not with %s", (_name, headers) => {
    expect(decision({ ...good, ...headers }).action).toBe("refuse");
  });

  it("and by no other method", () => {
    const { "Content-Length": _length, ...read } = good;
    for (const method of ["GET", "HEAD"]) {
      expect(decision({ ...read, "Sec-Fetch-Site": "same-origin" }, method)).toEqual({
        action: "page",
        path: "/open-file",
      });
    }
    for (const method of ["PUT", "OPTIONS", "post"]) expect(decision(good, method).action).toBe("refuse");
  });
});

describe("a second start with a study", () => {
  let folder: string;
  let door: SmallDoor;
  let host: Listener;
  beforeEach(async () => {
    folder = mkdtempSync(join(tmpdir(), "boilbench-second-"));
    door = smallDoor();
    host = await startListener({ door, page: new Map() });
    writeStateFile(folder, { port: host.port, pid: process.pid, ownerSecret: host.ownerSecret });
  });
  afterEach(async () => {
    await host.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it("has the first open it, and gets an address that lets one browser in, to that study", async () => {
    const opened = await openInRunningHost(folder, "/home/a/Öfen.boilstudy");
    expect(door.openedFiles).toEqual(["/home/a/Öfen.boilstudy"]);
    const address = opened !== null && "address" in opened ? opened.address : "";
    expect(address).toMatch(new RegExp(`^${host.origin}/#token=[A-Za-z0-9_-]{43}&study=study-1$`));
    const token = /token=([^&]+)/.exec(address)?.[1];
    const enter = () =>
      fetch(`${host.origin}/enter`, {
        method: "POST",
        headers: { Origin: host.origin, "Sec-Fetch-Site": "same-origin", "Content-Type": "application/json" },
        body: JSON.stringify({ token }),
      });
    expect([(await enter()).status, (await enter()).status]).toEqual([204, 401]);
  });

  it("is told why a study was not opened", async () => {
    expect(await openInRunningHost(folder, "/home/a/damaged.boilstudy")).toEqual({
      message: "/home/a/damaged.boilstudy is damaged",
    });
  });

  it("gives nothing but a study's whole path", async () => {
    for (const path of ["/etc/passwd", "stove.boilstudy", "/a/../b.boilstudy", "/a\0.boilstudy", ""]) {
      expect(await openInRunningHost(folder, path)).toBeNull();
    }
    for (const text of ["{}", "null", "[]", '{"path":7}', '{"path":["/a.boilstudy"]}', "/a.boilstudy", ""]) {
      const sent = [
        `Host: 127.0.0.1:${host.port}`,
        `Authorization: ${openingFor(host.ownerSecret, challenge, text)}`,
        "Content-Type: application/json",
        `Content-Length: ${text.length}`,
        "Connection: close",
      ];
      expect((await sendRaw(host.port, requestBytes("POST /open-file HTTP/1.1", sent, text))).status).toBe(400);
    }
    expect(door.openedFiles).toEqual([]);
  });

  it("is not made to open another file by who changes its body", async () => {
    const sent = [
      `Host: 127.0.0.1:${host.port}`,
      `Authorization: ${openingFor(host.ownerSecret, challenge, body)}`,
      "Content-Type: application/json",
      `Content-Length: ${body.length}`,
      "Connection: close",
    ];
    const changed = body.replace("stove", "other");
    expect((await sendRaw(host.port, requestBytes("POST /open-file HTTP/1.1", sent, changed))).status).toBe(400);
    expect(door.openedFiles).toEqual([]);
  });

  it("believes no program that took over the port", async () => {
    const token = "T".repeat(43);
    const said = JSON.stringify({ token, study: "study-1" });
    const answers = [
      said,
      JSON.stringify({ said }),
      JSON.stringify({ said, proof: token }),
      // Proofs of another secret, and of another purpose, which this start asked for elsewhere.
      JSON.stringify({ said, proof: answerProof(newSecret(), challenge, said) }),
      JSON.stringify({ said, proof: tokenProof(host.ownerSecret, challenge, token) }),
      JSON.stringify({ said, proof: answerProof(host.ownerSecret, challenge, said) }),
      "x".repeat(20_000),
      "null",
    ];
    for (const answer of answers) {
      const other = createServer((request, response) => request.resume().on("end", () => response.end(answer)));
      await new Promise<void>((done) => other.listen(0, "127.0.0.1", done));
      const port = (other.address() as AddressInfo).port;
      writeStateFile(folder, { port, pid: process.pid, ownerSecret: host.ownerSecret });
      expect(await openInRunningHost(folder, "/home/a/stove.boilstudy", 300)).toBeNull();
      other.closeAllConnections();
      await new Promise((done) => other.close(done));
    }
  });
});
