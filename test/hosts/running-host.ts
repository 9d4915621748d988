import { afterAll, beforeAll, beforeEach, expect } from "vitest";
import type { BuiltPage } from "../../app/host/built-page.ts";
import { type Listener, startListener } from "../../app/server/index.ts";
import { requestBytes, sendRaw } from "./raw-request.ts";
import { type SmallDoor, smallDoor } from "./small-door.ts";

const index = { body: Buffer.from("<!doctype html><title>page</title>"), mediaType: "text/html; charset=utf-8" };
/** More than the system keeps for a connection whose other end does not read. */
export const largeBytes = 48 * 1024 * 1024;
const page: BuiltPage = new Map([
  ["/", index],
  ["/index.html", index],
  ["/assets/large.js", { body: Buffer.alloc(largeBytes, " "), mediaType: "text/javascript; charset=utf-8" }],
  ["/assets/a.js", { body: Buffer.from("export {};"), mediaType: "text/javascript; charset=utf-8" }],
]);
export const askBytes = 64 * 1024;
export const slow = { headersTimeout: 1_000, requestTimeout: 1_500, idleTimeout: 2_000, checkingInterval: 50 };

export let door: SmallDoor;
export let host: Listener;
export let cookie: string;

export const tokenOf = (address: string) => new URL(address).hash.slice("#token=".length);
export const hostLine = () => `Host: 127.0.0.1:${host.port}`;
export const writeLines = (body: string, held: string | null = cookie) => [
  hostLine(),
  `Origin: ${host.origin}`,
  "Sec-Fetch-Site: same-origin",
  "Content-Type: application/json",
  `Content-Length: ${Buffer.byteLength(body)}`,
  ...(held === null ? [] : [`Cookie: ${held}`]),
  "Connection: close",
];
export const readLines = () => [hostLine(), "Sec-Fetch-Site: same-origin", `Cookie: ${cookie}`, "Connection: close"];
export const enter = (body: string) =>
  sendRaw(host.port, requestBytes("POST /enter HTTP/1.1", writeLines(body, null), body));
export const ask = (body: string, held: string | null = cookie) =>
  sendRaw(host.port, requestBytes("POST /ask HTTP/1.1", writeLines(body, held), body));
export const showStudy = JSON.stringify({ kind: "study.show", study: null });

/** The service still answers its own page: nothing that came before has stopped it. */
export async function expectStillServing(): Promise<void> {
  const answer = await ask(showStudy);
  expect(answer.status).toBe(200);
  expect(answer.text).toContain("Skirt trial");
}

/** No answer held data of the study, and nothing reached the door. */
export function expectNothingGiven(answer: { status: number; text: string }): void {
  expect(answer.status === 0 || answer.status >= 400, `status ${answer.status}`).toBe(true);
  for (const secret of ["Skirt trial", "secret finding", cookie.split("=")[1] ?? "", host.ownerSecret]) {
    expect(answer.text).not.toContain(secret);
  }
  expect(door.asked).toEqual([]);
}

/** Starts the listener for a file of tests, with one browser let in; `door`, `host` and `cookie` are its own. */
export function withRunningHost(): void {
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
}
