/**
 * The loopback host: Boilbench in an ordinary browser, on this machine alone.
 *
 * What the page does (renderer/api.ts):
 *   1. It is opened at `http://127.0.0.1:PORT/#token=TOKEN`. A fragment is never sent to a server and lands in no log.
 *   2. Where `location.hash` holds `#token=…`, it sends `POST /enter` with `Content-Type: application/json` and the body
 *      `{"token":"…"}`, and then drops the fragment with `history.replaceState`. 204: the browser now holds an HttpOnly cookie.
 *      401: the token was used before; a reload within the same browser still works, by the cookie it has.
 *      Where a study was named at the start, the fragment is `#token=TOKEN&study=ID` and is replaced by `#/study?study=ID`.
 *   3. Each message is `POST /ask` with `Content-Type: application/json`; the answer's body is a `Reply`, also when the guard
 *      refuses it (then the status is not 200, and the reply is `{ ok: false, reason: "refused", message }`).
 *   4. A report's preview is a frame whose `src` is the reply's `previewPath`, relative to the page: `preview/ID`.
 * Under Electron steps 1 to 3 are `window.boilbench.ask(message)`; step 4 is the same.
 */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import type { AddressInfo, Socket } from "node:net";
import { defaultLocale, type Locale, wordsFor } from "../../core/index.ts";
import { type Door, type Refusal, requestByteLimit } from "../contract/index.ts";
import type { BuiltPage } from "../host/built-page.ts";
import { jsonFits } from "../host/message-shape.ts";
import { commonHeaders, pageHeaders, previewHeaders } from "../host/page-policy.ts";
import { isStudyPath } from "../host/study-path.ts";
import { Connections } from "./connections.ts";
import { cookieName, type Decision, decide, type GuardKeys, ownOrigin, type RefusalReason } from "./guard.ts";
import { connectionTable, peerOf } from "./peer.ts";
import { answerProof, digestOf, newSecret, tokenProof } from "./secret.ts";
import { OneTimeTokens } from "./tokens.ts";

/** How long, in milliseconds, and how much. Tests shorten the times. */
export interface ListenerLimits {
  readonly headersTimeout: number;
  /** From the first byte of a request to its last. */
  readonly requestTimeout: number;
  /** Without a byte in either direction while nothing is being computed. */
  readonly idleTimeout: number;
  /** How often the first two are looked at. */
  readonly checkingInterval: number;
  readonly maxConnections: number;
  /** Largest body, in bytes. */
  readonly askBytes: number;
}

export const usualLimits: ListenerLimits = {
  headersTimeout: 10_000,
  requestTimeout: 60_000,
  idleTimeout: 60_000,
  checkingInterval: 5_000,
  maxConnections: 64,
  askBytes: requestByteLimit,
};

export interface ListenerOptions {
  readonly door: Door;
  readonly page: BuiltPage;
  readonly locale?: Locale;
  readonly limits?: Partial<ListenerLimits>;
}

export interface Listener {
  readonly port: number;
  /** "http://127.0.0.1:PORT" */
  readonly origin: string;
  /** Lets its holder ask for a fresh address; belongs in a file that only the owner can read. */
  readonly ownerSecret: string;
  /** An address that lets one browser in, once; to that study where one is named. */
  freshAddress(study?: string): string;
  close(): Promise<void>;
}

/** Starts listening on 127.0.0.1, on a port that the system picks. */
export async function startListener(options: ListenerOptions): Promise<Listener> {
  const limits = { ...usualLimits, ...options.limits };
  const server = createServer({
    headersTimeout: limits.headersTimeout,
    requestTimeout: limits.requestTimeout,
    connectionsCheckingInterval: limits.checkingInterval,
    keepAliveTimeout: 5_000,
    maxHeaderSize: 16 * 1024,
    requireHostHeader: true,
    insecureHTTPParser: false,
  });
  server.timeout = limits.idleTimeout;
  // Above its own number the listener chooses whom to drop; this holds while what it dropped is being closed.
  server.maxConnections = 4 * limits.maxConnections;
  server.maxHeadersCount = 100;
  await new Promise<void>((done, fail) => {
    server.once("error", fail);
    server.listen({ host: "127.0.0.1", port: 0, exclusive: true }, () => {
      server.off("error", fail);
      done();
    });
  });
  const port = (server.address() as AddressInfo).port;
  const keys: GuardKeys = { port, session: newSecret(), ownerSecret: newSecret() };
  const tokens = new OneTimeTokens();
  serve(server, options, limits, keys, tokens);
  return {
    port,
    origin: ownOrigin(port),
    ownerSecret: keys.ownerSecret,
    freshAddress: (study) => entranceAddress(ownOrigin(port), tokens.issue(), study ?? null),
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}

/** The address that a browser is let in by, once. */
export function entranceAddress(origin: string, token: string, study: string | null): string {
  return `${origin}/#token=${token}${study === null ? "" : `&study=${encodeURIComponent(study)}`}`;
}

function serve(
  server: Server,
  options: ListenerOptions,
  limits: ListenerLimits,
  keys: GuardKeys,
  tokens: OneTimeTokens,
): void {
  const words = wordsFor(options.locale ?? defaultLocale).hosts;

  const refusalText = (reason: RefusalReason | "tokenSpent" | "tooSlow"): string =>
    reason === "tooLarge" ? words.refused.tooLarge(Math.floor(limits.askBytes / 1024 / 1024)) : words.refused[reason];

  const connections = new Connections(limits.maxConnections);

  /** True where the other end is a program of another user, who can have read the token in a list of processes. */
  const isAnotherUsers = (socket: Socket): boolean => {
    const ports = { clientPort: socket.remotePort ?? 0, hostPort: keys.port };
    return peerOf(connectionTable(process.platform), ports, process.getuid?.() ?? null) === "anothers";
  };

  /** Connections that are being closed: whatever was sent behind a refused request is not looked at. */
  const closing = new WeakSet<Socket>();

  const refuse = (request: IncomingMessage, response: ServerResponse, status: number, message: string): void => {
    // What is left of the body is not read, so the connection cannot be used again.
    closing.add(request.socket);
    response.setHeader("Connection", "close");
    if (request.method === "POST") {
      const refusal: Refusal = { ok: false, reason: status >= 500 ? "failed" : "refused", message };
      sendJson(response, status, refusal);
    } else {
      send(response, status, { ...commonHeaders, "Content-Type": "text/plain; charset=utf-8" }, `${message}\n`);
    }
  };

  const carryOut = async (request: IncomingMessage, response: ServerResponse, decision: Decision): Promise<void> => {
    switch (decision.action) {
      case "refuse":
        refuse(request, response, decision.status, refusalText(decision.reason));
        return;
      case "page": {
        const file = options.page.get(decision.path);
        if (file === undefined) refuse(request, response, 404, refusalText("notFound"));
        else send(response, 200, { ...pageHeaders, "Content-Type": file.mediaType }, file.body);
        return;
      }
      case "preview": {
        connections.trust(request.socket);
        const preview = options.door.preview(decision.id);
        if (preview === null) refuse(request, response, 404, refusalText("notFound"));
        else send(response, 200, previewHeaders(preview.contentSecurityPolicy), preview.html);
        return;
      }
      case "freshAddress": {
        const token = tokens.issue();
        sendJson(response, 200, { token, proof: tokenProof(keys.ownerSecret, decision.challenge, token) });
        return;
      }
      case "openFile": {
        const body = await readBody(request);
        const named = digestOf(body) === decision.digest ? parseJson(body) : null;
        const path = typeof named === "object" && named !== null && "path" in named ? named.path : null;
        if (!isStudyPath(path, process.platform)) {
          refuse(request, response, 400, refusalText("malformed"));
          return;
        }
        request.socket.setTimeout(0);
        const opened = await options.door.openFile(path);
        const said = JSON.stringify(
          opened.ok ? { token: tokens.issue(), study: opened.study } : { message: opened.message },
        );
        sendJson(response, 200, { said, proof: answerProof(keys.ownerSecret, decision.challenge, said) });
        return;
      }
      case "enter": {
        const message = parseJson(await readBody(request));
        const token = typeof message === "object" && message !== null && "token" in message ? message.token : null;
        // Looked up only for who holds a token: the kernel's table is long, and guesses are to be cheap.
        if (tokens.isOpen(token) && isAnotherUsers(request.socket)) {
          refuse(request, response, 403, refusalText("anotherUser"));
          return;
        }
        if (!tokens.redeem(token)) {
          refuse(request, response, 401, refusalText("tokenSpent"));
          return;
        }
        const cookie = `${cookieName(keys.port)}=${keys.session}; Path=/; HttpOnly; SameSite=Strict`;
        send(response, 204, { ...commonHeaders, "Set-Cookie": cookie }, null);
        return;
      }
      case "ask": {
        connections.trust(request.socket);
        const body = await readBody(request);
        if (!jsonFits(body)) {
          refuse(request, response, 400, refusalText("tooDeep"));
          return;
        }
        const message = parseJson(body);
        if (message === notJson) {
          refuse(request, response, 400, refusalText("notJson"));
          return;
        }
        // An answer may take longer to work out than a silent connection is kept.
        request.socket.setTimeout(0);
        const reply = await options.door.ask(message);
        request.socket.setTimeout(limits.idleTimeout);
        sendJson(response, 200, reply);
      }
    }
  };

  const answer = (request: IncomingMessage, response: ServerResponse): void => {
    if (closing.has(request.socket)) return;
    request.on("error", () => request.socket.destroy());
    response.on("error", () => request.socket.destroy());
    const asking = connections.request(request.socket);
    response.once("close", () => asking.over());
    const head = {
      method: request.method ?? "",
      target: request.url ?? "",
      httpVersion: request.httpVersion,
      rawHeaders: request.rawHeaders,
    };
    carryOut(request, response, decide(head, keys, { askBytes: limits.askBytes })).catch(() => {
      if (response.headersSent || request.socket.destroyed) request.socket.destroy();
      else refuse(request, response, 500, words.serviceFailed);
    });
  };

  // A connection that could not be taken (too many open files) is one that is not served, and no reason to stop.
  server.on("error", () => undefined);
  server.on("connection", (socket: Socket) => connections.add(socket));
  server.once("close", () => connections.close());
  server.on("request", answer);
  server.on("checkContinue", answer);
  server.on("checkExpectation", answer);
  server.on("connect", (_request, socket) => socket.destroy());
  server.on("clientError", (error: NodeJS.ErrnoException, socket) => {
    const slow = error.code === "ERR_HTTP_REQUEST_TIMEOUT";
    if (socket.writable && (socket as Socket).bytesWritten === 0) {
      const message = slow ? words.refused.tooSlow : words.refused.malformed;
      const body = Buffer.from(`${message}\n`);
      const headers = {
        ...commonHeaders,
        Connection: "close",
        "Content-Type": "text/plain; charset=utf-8",
        "Content-Length": body.length,
      };
      const lines = Object.entries(headers).map(([name, value]) => `${name}: ${value}\r\n`);
      const head = `HTTP/1.1 ${slow ? "408 Request Timeout" : "400 Bad Request"}\r\n${lines.join("")}\r\n`;
      socket.end(Buffer.concat([Buffer.from(head), body]), () => socket.destroy());
    } else {
      socket.destroy();
    }
  });
}

function send(
  response: ServerResponse,
  status: number,
  headers: Readonly<Record<string, string>>,
  body: Buffer | string | null,
): void {
  response.writeHead(status, {
    ...headers,
    ...(body === null ? {} : { "Content-Length": Buffer.byteLength(body) }),
  });
  response.end(body ?? undefined);
}

function sendJson(response: ServerResponse, status: number, value: unknown): void {
  send(
    response,
    status,
    { ...commonHeaders, "Content-Type": "application/json; charset=utf-8" },
    JSON.stringify(value),
  );
}

/** The guard has already refused what announces too much; the parser of HTTP reads no more than was announced. */
async function readBody(request: IncomingMessage): Promise<Buffer> {
  const chunks: Buffer[] = [];
  for await (const chunk of request) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks);
}

const notJson = Symbol("not JSON");

function parseJson(body: Buffer): unknown {
  try {
    return JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(body));
  } catch {
    return notJson;
  }
}
