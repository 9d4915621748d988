import { type ChildProcess, fork } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { Agent, request as httpRequest } from "node:http";
import { connect, type Socket } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect } from "vitest";
import { newSecret } from "../../app/server/secret.ts";
import { type RawAnswer, requestBytes, sendRaw } from "./raw-request.ts";

/** The host under attack, in a process of its own, with one browser let in. */

export interface Reached {
  readonly calls: number;
  /** Most memory since `calm`, in bytes. */
  readonly peak: number;
  readonly clean: boolean;
  readonly address: string;
}

export let port: number;
export let ownerSecret: string;
export let cookie: string;
/** Name of the open study: in no answer to who is not let in. */
let studyName: string;
let child: ChildProcess;
let folder: string;
let errors = "";

/** What is in no answer and no reply, wherever a path might lead. */
export const canary = newSecret();
export let canaryFile: string;

const tell = (wanted: "calm" | "look" | "address") =>
  new Promise<Reached>((done) => {
    child.once("message", (message) => done(message as Reached));
    child.send(wanted);
  });
export const calm = () => tell("calm");
export const look = () => tell("look");
export const freshToken = async () => (await tell("address")).address.split("#token=")[1] ?? "";

export const hostLine = () => `Host: 127.0.0.1:${port}`;
export const origin = () => `http://127.0.0.1:${port}`;
/** All that a proper question has, but for how its body is delimited. */
export const headOf = (held: string | null = cookie) => [
  hostLine(),
  `Origin: ${origin()}`,
  "Sec-Fetch-Site: same-origin",
  "Content-Type: application/json",
  ...(held === null ? [] : [`Cookie: ${held}`]),
];
export const question = JSON.stringify({ kind: "study.show", study: null });
export const lengthOf = (body: string) => `Content-Length: ${Buffer.byteLength(body)}`;
export const properQuestion = () =>
  requestBytes("POST /ask HTTP/1.1", [...headOf(), lengthOf(question), "Connection: close"], question);
export const entering = (token: string, head = headOf(null)) => {
  const body = JSON.stringify({ token });
  return requestBytes("POST /enter HTTP/1.1", [...head, lengthOf(body), "Connection: close"], body);
};

/** The host still answers its own page, soon. */
export async function expectServing(): Promise<void> {
  const answer = await sendRaw(port, properQuestion());
  expect(answer.status, answer.text.slice(0, 200)).toBe(200);
  expect(answer.text).toContain('"ok":true');
  expect(answer.milliseconds).toBeLessThan(1_000);
}

/** No part of an answer is the study's, or a way in. */
export function expectNothing(answer: RawAnswer, what: string): void {
  for (const secret of ['"ok":true', studyName, canary, cookie.split("=")[1] ?? "", ownerSecret, "set-cookie"]) {
    expect(answer.text.toLowerCase().includes(secret.toLowerCase()), `${what}: ${answer.text.slice(0, 300)}`).toBe(
      false,
    );
  }
}

/** Sends each, some at a time; nothing is given, nothing reaches the door, and the host goes on. */
export async function expectAllRefused(attacks: ReadonlyMap<string, string | Buffer>, atOnce = 24): Promise<void> {
  await calm();
  const waiting = [...attacks];
  const work = async () => {
    for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
      const [what, bytes] = next;
      const answer = await sendRaw(port, bytes, { waitFor: 4_000 });
      expect(answer.status === 0 || answer.status >= 400, `${what}: ${answer.text.slice(0, 300)}`).toBe(true);
      expect(answer.text.split("HTTP/1.1 ").length, `${what}: more than one answer`).toBeLessThanOrEqual(2);
      expectNothing(answer, what);
    }
  };
  await Promise.all(Array.from({ length: atOnce }, work));
  const reached = await look();
  expect({ calls: reached.calls, clean: reached.clean }).toEqual({ calls: 0, clean: true });
  await expectServing();
}

/** Opens a connection whose failure is no failure of the test. */
export function open(): Socket {
  return connect(port, "127.0.0.1").on("error", () => undefined);
}

/** Writes a piece again and again until so many bytes are sent or the other side closes; how many were sent. */
export function stream(head: string, piece: Buffer, bytes: number): Promise<{ sent: number; text: string }> {
  return new Promise((done) => {
    const socket = open();
    let sent = 0;
    let text = "";
    let ended = false;
    const finish = () => {
      if (!ended) done({ sent, text });
      ended = true;
      socket.destroy();
    };
    const pump = () => {
      while (!ended && sent < bytes) {
        sent += piece.length;
        if (!socket.write(piece)) {
          socket.once("drain", pump);
          return;
        }
      }
      if (sent >= bytes) setTimeout(finish, 200);
    };
    socket.on("data", (chunk) => {
      text += chunk;
    });
    socket.on("close", finish);
    socket.on("connect", () => {
      socket.write(head);
      pump();
    });
  });
}

const agent = new Agent({ keepAlive: true, maxSockets: 16 });

/** Sends a message as the page does, over connections that are kept. */
export function ask(body: string): Promise<{ status: number; text: string }> {
  return new Promise((done, fail) => {
    const headers = Object.fromEntries(headOf().map((line) => line.split(": ") as [string, string]));
    const asking = httpRequest(
      `${origin()}/ask`,
      { method: "POST", agent, headers: { ...headers, "Content-Length": Buffer.byteLength(body) } },
      (response) => {
        let text = "";
        response.setEncoding("utf8");
        response.on("data", (more: string) => {
          text += more;
        });
        response.on("end", () => done({ status: response.statusCode ?? 0, text }));
      },
    );
    asking.on("error", fail);
    asking.end(body);
  });
}

/** Files that lie where nothing may be written: beside the host, above it, and where a trick's name would put one. */
export const written = () =>
  [folder, join(folder, "inner")].flatMap((place) => readdirSync(place)).filter((name) => name !== "home");

export function withHostileHost(): void {
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "boilbench-hostile-"));
    canaryFile = join(folder, "canary.csv");
    writeFileSync(canaryFile, canary);
    const inner = join(folder, "inner");
    mkdirSync(inner);
    const home = join(inner, "home");
    child = fork(join(import.meta.dirname, "hostile-target.ts"), {
      cwd: inner,
      stdio: ["ignore", "ignore", "pipe", "ipc"],
      env: {
        ...process.env,
        NODE_OPTIONS: "",
        HOME: home,
        USERPROFILE: home,
        APPDATA: home,
        LOCALAPPDATA: home,
        XDG_DATA_HOME: join(home, "data"),
        XDG_STATE_HOME: join(home, "state"),
        XDG_CONFIG_HOME: join(home, "config"),
        XDG_CACHE_HOME: join(home, "cache"),
        BOILBENCH_STUDIES_FOLDER: join(home, "studies"),
        BOILBENCH_DATA_FOLDER: join(home, "data"),
      },
    });
    child.stderr?.on("data", (chunk) => {
      errors += String(chunk);
    });
    const started = await new Promise<{ port: number; ownerSecret: string; name: string }>((done, fail) => {
      child.once("message", (message) => done(message as { port: number; ownerSecret: string; name: string }));
      child.once("exit", () => fail(new Error(`the host ended: ${errors}`)));
    });
    ({ port, ownerSecret } = started);
    studyName = started.name;
    expect(studyName.length).toBeGreaterThan(5);
    cookie = "";
    const answer = await sendRaw(port, entering(await freshToken()));
    cookie = (answer.headers.get("set-cookie") ?? "").split(";")[0] ?? "";
    expect(cookie).toMatch(/^boilbench-\d+=.{43}$/);
  });
  afterAll(async () => {
    // The same process from first to last, and no word of an error from it.
    expect(child.exitCode).toBeNull();
    agent.destroy();
    child.disconnect();
    await new Promise((done) => child.once("exit", done));
    rmSync(folder, { recursive: true, force: true });
    expect(errors).toBe("");
  });
}
