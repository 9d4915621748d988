import {
  chmodSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeEach, describe, expect, it } from "vitest";
import {
  addressOfRunningHost,
  type Listener,
  removeStateFile,
  startListener,
  stateFolder,
  writeStateFile,
} from "../../app/server/index.ts";
import { newSecret } from "../../app/server/secret.ts";
import { readStateFile } from "../../app/server/state-file.ts";
import { smallDoor } from "./small-door.ts";

const page = new Map([["/", { body: Buffer.from("page"), mediaType: "text/html" }]]);
const folders: string[] = [];
let folder: string;
let file: string;
let host: Listener | null = null;

beforeEach(() => {
  folder = join(mkdtempSync(join(tmpdir(), "boilbench-state-")), "inner");
  folders.push(folder);
  file = join(folder, "browser-host.json");
});
afterEach(async () => {
  await host?.close();
  host = null;
});
afterAll(() => {
  for (const made of folders) rmSync(join(made, ".."), { recursive: true, force: true });
});

const running = async () => {
  host = await startListener({ door: smallDoor(), page });
  return { port: host.port, pid: process.pid, ownerSecret: host.ownerSecret };
};

describe("a second start finds the first", () => {
  it("and gets an address that lets a browser in, once", async () => {
    const mine = await running();
    writeStateFile(folder, mine);
    const address = await addressOfRunningHost(folder);
    const { origin, hash } = new URL(address ?? "");
    expect(origin).toBe(`http://127.0.0.1:${mine.port}`);
    const enter = () =>
      fetch(`${origin}/enter`, {
        method: "POST",
        headers: { Origin: origin, "Sec-Fetch-Site": "same-origin", "Content-Type": "application/json" },
        body: JSON.stringify({ token: hash.slice("#token=".length) }),
      });
    expect((await enter()).status).toBe(204);
    expect((await enter()).status).toBe(401);
    expect(await addressOfRunningHost(folder)).not.toBe(address);
  });

  it("through a file that only its owner can read, of which nothing is left over", async () => {
    const mine = await running();
    writeStateFile(folder, mine);
    expect(statSync(file).mode & 0o777).toBe(0o600);
    expect(statSync(folder).mode & 0o777).toBe(0o700);
    expect(readdirSync(folder)).toEqual(["browser-host.json"]);
    removeStateFile(folder, { ...mine, ownerSecret: newSecret() });
    expect(readStateFile(folder)).toEqual(mine);
    removeStateFile(folder, mine);
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe("what is no running host of ours is passed over", () => {
  it("a missing, damaged, or foreign file", async () => {
    expect(await addressOfRunningHost(folder)).toBeNull();
    const mine = await running();
    writeStateFile(folder, mine);
    const good = readFileSync(file, "utf8");
    for (const bad of [
      "",
      "null",
      "[]",
      "{",
      good.slice(0, -1),
      JSON.stringify({ ...mine, port: 0 }),
      JSON.stringify({ ...mine, port: "80" }),
      JSON.stringify({ ...mine, pid: -1 }),
      JSON.stringify({ ...mine, ownerSecret: "a b\r\nX: y" }),
    ]) {
      writeFileSync(file, bad);
      expect(readStateFile(folder)).toBeNull();
    }
  });

  it("a file that others can read or write, or that is a link", async () => {
    writeStateFile(folder, await running());
    for (const mode of [0o644, 0o640, 0o604, 0o620, 0o602]) {
      chmodSync(file, mode);
      expect(await addressOfRunningHost(folder)).toBeNull();
    }
    chmodSync(file, 0o600);
    expect(await addressOfRunningHost(folder)).not.toBeNull();
    writeFileSync(join(folder, "elsewhere"), readFileSync(file), { mode: 0o600 });
    rmSync(file);
    symlinkSync(join(folder, "elsewhere"), file);
    expect(await addressOfRunningHost(folder)).toBeNull();
  });

  it("a process that is gone, or a port that nobody listens on", async () => {
    const mine = await running();
    // Above the largest process number that Linux gives (kernel/pid.c: 2^22).
    writeStateFile(folder, { ...mine, pid: 2 ** 22 + 1 });
    expect(await addressOfRunningHost(folder)).toBeNull();
    writeStateFile(folder, mine);
    await host?.close();
    expect(await addressOfRunningHost(folder)).toBeNull();
  });

  it("a program that took over the port: its answer is never opened, however it answers", async () => {
    const token = "T".repeat(43);
    const answers = [
      ...['{"token":"https://elsewhere.example/"}', '{"token":"x"}', "x".repeat(5_000), "{}", "null", null],
      // All that can be had without the secret: a well-formed token, with no proof, a made-up one, or what was sent.
      ...[{ token }, { token, proof: token }, { token, proof: "sent" }].map((one) => JSON.stringify(one)),
    ];
    for (const answer of answers) {
      const heard: string[] = [];
      const other = createServer((request, response) => {
        heard.push(request.headers.authorization ?? "");
        const sent = /[^.]*$/.exec(request.headers.authorization ?? "")?.[0] ?? "";
        if (answer !== null) response.end(answer.replace('"sent"', JSON.stringify(sent)));
      });
      await new Promise<void>((done) => other.listen(0, "127.0.0.1", done));
      const ownerSecret = newSecret();
      writeStateFile(folder, { port: (other.address() as AddressInfo).port, pid: process.pid, ownerSecret });
      expect(await addressOfRunningHost(folder, 300)).toBeNull();
      expect(heard).toHaveLength(1);
      expect(heard[0]).not.toContain(ownerSecret);
      other.closeAllConnections();
      await new Promise((done) => other.close(done));
    }
  });

  it("the host of another secret", async () => {
    writeStateFile(folder, { ...(await running()), ownerSecret: newSecret() });
    expect(await addressOfRunningHost(folder)).toBeNull();
  });
});

describe("the folder is the user's own", () => {
  it.each([
    ["linux", { HOME: "/home/a", XDG_RUNTIME_DIR: "/run/user/1" }, "/run/user/1/boilbench"],
    ["linux", { HOME: "/home/a", XDG_STATE_HOME: "/s" }, "/s/boilbench"],
    ["linux", { HOME: "/home/a" }, "/home/a/.local/state/boilbench"],
    ["darwin", { HOME: "/Users/a" }, "/Users/a/Library/Application Support/Boilbench"],
    ["linux", { HOME: "/home/a", BOILBENCH_STATE_FOLDER: "/elsewhere" }, "/elsewhere"],
  ])("%s %j", (platform, environment, wanted) => {
    expect(stateFolder(platform, environment)).toBe(wanted);
  });
});
