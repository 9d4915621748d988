import { previewIdOf } from "../host/page-policy.ts";
import { challengeOf, openingOf, sameSecret } from "./secret.ts";

/**
 * Decides, and does nothing: what is to be done with a request, from its head alone. The program keeps somebody's
 * readings and listens where every program and every web page on the machine can knock, so nothing is taken on trust:
 * Host (against names re-bound to 127.0.0.1), Origin and Sec-Fetch-Site (against other sites and other ports), the
 * session's cookie (against other programs), and the exact path.
 */
export interface RequestHead {
  readonly method: string;
  /** As sent, undecoded. */
  readonly target: string;
  readonly httpVersion: string;
  /** Name, value, name, value, … as sent: repeated headers stay visible. */
  readonly rawHeaders: readonly string[];
}

export interface GuardKeys {
  readonly port: number;
  /** Value of the cookie that a page which exchanged its token holds. */
  readonly session: string;
  /** What only the owner's state file holds: lets a second start ask for a fresh address. */
  readonly ownerSecret: string;
}

export interface GuardLimits {
  /** Largest body of an ask, in bytes. */
  readonly askBytes: number;
}

export type RefusalReason =
  | "wrongHost"
  | "foreign"
  | "notEntered"
  | "notFound"
  | "method"
  | "notJson"
  | "tooLarge"
  | "malformed"
  | "tooDeep"
  | "anotherUser";

export type Decision =
  | { readonly action: "page"; readonly path: string }
  | { readonly action: "preview"; readonly id: string }
  | { readonly action: "enter"; readonly bytes: number }
  | { readonly action: "ask"; readonly bytes: number }
  | { readonly action: "freshAddress"; readonly challenge: string }
  | { readonly action: "openFile"; readonly challenge: string; readonly digest: string; readonly bytes: number }
  | { readonly action: "refuse"; readonly status: number; readonly reason: RefusalReason };

/** Largest body of a token exchange, in bytes. */
const enterBytes = 1024;

/** Largest body of a second start that names a file, in bytes: the longest path of any system, however it is written in JSON. */
const openFileBytes = 256 * 1024;

/** The cookie's name holds the port, as cookies do not tell ports apart. */
export function cookieName(port: number): string {
  return `boilbench-${port}`;
}

export function ownOrigin(port: number): string {
  return `http://127.0.0.1:${port}`;
}

/** All values of a header, however often it was sent. */
export function headerValues(rawHeaders: readonly string[], name: string): readonly string[] {
  const values: string[] = [];
  for (let i = 0; i + 1 < rawHeaders.length; i += 2) {
    if (rawHeaders[i]?.toLowerCase() === name) values.push(rawHeaders[i + 1] ?? "");
  }
  return values;
}

/** True for exactly the one name and port that is ours: no localhost, no other spelling of 127.0.0.1, no trailing dot. */
export function isOwnHost(values: readonly string[], port: number): boolean {
  return values.length === 1 && values[0] === `127.0.0.1:${port}`;
}

/** Exactly one Origin, and exactly ours. "null" and absence are refused. */
export function isOwnOrigin(values: readonly string[], port: number): boolean {
  return values.length === 1 && values[0] === ownOrigin(port);
}

/**
 * Whether a browser says that the request comes from our own page. The page itself may also be opened from nowhere: an address
 * typed, or handed over by the system. `same-site` is another port of this machine, and foreign.
 */
export function isOwnFetch(values: readonly string[], opensPage: boolean): boolean {
  return values.length === 1 && (values[0] === "same-origin" || (opensPage && values[0] === "none"));
}

/** Exactly one cookie of our name, with the session's value. */
export function holdsSession(cookieHeaders: readonly string[], keys: GuardKeys): boolean {
  const name = cookieName(keys.port);
  const ours = cookieHeaders
    .flatMap((header) => header.split(";"))
    .map((pair) => pair.trim())
    .filter((pair) => pair.startsWith(`${name}=`))
    .map((pair) => pair.slice(name.length + 1));
  return ours.length === 1 && sameSecret(ours[0] ?? "", keys.session);
}

/** JSON, in UTF-8 if it says in what. A form or plain text, which any page could send without asking first, is not. */
export function isJson(values: readonly string[]): boolean {
  return values.length === 1 && /^application\/json(?:;\s*charset=utf-8)?$/i.test(values[0] ?? "");
}

/** The announced length, or why there is none that can be relied on. No chunked bodies: no page of ours sends one. */
function bodyLength(rawHeaders: readonly string[], limit: number): number | "malformed" | "tooLarge" {
  const lengths = headerValues(rawHeaders, "content-length");
  if (headerValues(rawHeaders, "transfer-encoding").length > 0 || lengths.length !== 1) return "malformed";
  const text = lengths[0] ?? "";
  if (!/^\d{1,15}$/.test(text)) return "malformed";
  const length = Number(text);
  return length > limit ? "tooLarge" : length;
}

/** Letters of the names that browsers send: others (`Transfer_Encoding`) are read as another name by some readers. */
const plainName = /^[A-Za-z0-9-]{1,100}$/;

const refuse = (status: number, reason: RefusalReason): Decision => ({ action: "refuse", status, reason });

/** What to do with a request. */
export function decide(head: RequestHead, keys: GuardKeys, limits: GuardLimits): Decision {
  const header = (name: string) => headerValues(head.rawHeaders, name);
  if (head.httpVersion !== "1.1" || !head.target.startsWith("/")) return refuse(400, "malformed");
  if (!head.rawHeaders.every((name, at) => at % 2 === 1 || plainName.test(name))) return refuse(400, "malformed");
  if (header("upgrade").length > 0 || header("expect").length > 0) return refuse(400, "malformed");
  if (!isOwnHost(header("host"), keys.port)) return refuse(421, "wrongHost");

  if (head.method === "GET" || head.method === "HEAD") {
    if (header("content-length").length + header("transfer-encoding").length > 0) return refuse(400, "malformed");
    if (!isOwnFetch(header("sec-fetch-site"), head.target === "/")) return refuse(403, "foreign");
    const origins = header("origin");
    if (origins.length > 0 && !isOwnOrigin(origins, keys.port)) return refuse(403, "foreign");
    if (!head.target.startsWith("/preview/")) return { action: "page", path: head.target };
    if (!holdsSession(header("cookie"), keys)) return refuse(401, "notEntered");
    const id = previewIdOf(head.target);
    return id === null ? refuse(404, "notFound") : { action: "preview", id };
  }
  if (head.method !== "POST") return refuse(405, "method");

  if (head.target === "/fresh-address") {
    // From a second start, which is no browser: a browser always says where it comes from.
    if (header("origin").length + header("sec-fetch-site").length > 0) return refuse(403, "foreign");
    const given = header("authorization");
    const length = bodyLength(head.rawHeaders, 0);
    const challenge = given.length === 1 ? challengeOf(given[0] ?? "", keys.ownerSecret) : null;
    if (challenge === null) return refuse(401, "foreign");
    return length === 0 ? { action: "freshAddress", challenge } : refuse(400, "malformed");
  }

  if (head.target === "/open-file") {
    if (header("origin").length + header("sec-fetch-site").length > 0) return refuse(403, "foreign");
    const given = header("authorization");
    const opening = given.length === 1 ? openingOf(given[0] ?? "", keys.ownerSecret) : null;
    if (opening === null) return refuse(401, "foreign");
    if (!isJson(header("content-type"))) return refuse(415, "notJson");
    const length = bodyLength(head.rawHeaders, openFileBytes);
    if (length === "tooLarge") return refuse(413, "tooLarge");
    return length === "malformed" ? refuse(411, "malformed") : { action: "openFile", ...opening, bytes: length };
  }

  if (head.target !== "/enter" && head.target !== "/ask") return refuse(404, "notFound");
  if (!isOwnOrigin(header("origin"), keys.port)) return refuse(403, "foreign");
  if (!isOwnFetch(header("sec-fetch-site"), false)) return refuse(403, "foreign");
  if (head.target === "/ask" && !holdsSession(header("cookie"), keys)) return refuse(401, "notEntered");
  if (!isJson(header("content-type"))) return refuse(415, "notJson");
  const bytes = bodyLength(head.rawHeaders, head.target === "/ask" ? limits.askBytes : enterBytes);
  if (bytes === "tooLarge") return refuse(413, "tooLarge");
  if (bytes === "malformed") return refuse(411, "malformed");
  return { action: head.target === "/ask" ? "ask" : "enter", bytes };
}
