import { request } from "node:http";
import { ownOrigin } from "./guard.ts";
import { entranceAddress } from "./listener.ts";
import { answerProof, askingFor, newSecret, openingFor, sameSecret, secretPattern, tokenProof } from "./secret.ts";
import { type RunningHost, readStateFile } from "./state-file.ts";

/** True for a process of ours: one that may not be asked (EPERM) is somebody else's, who got the number later. */
function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}

interface Post {
  readonly target: string;
  readonly authorization: string;
  readonly body?: string;
  readonly timeLimit: number;
}

/** The answer as the other end wrote it, or whatever it wrote, up to a limit. Throws where none came in time. */
function post(host: RunningHost, { target, authorization, body = "", timeLimit }: Post): Promise<unknown> {
  return new Promise<string>((done, fail) => {
    const asking = request(
      `${ownOrigin(host.port)}${target}`,
      {
        method: "POST",
        agent: false,
        headers: {
          Authorization: authorization,
          "Content-Length": Buffer.byteLength(body),
          ...(body === "" ? {} : { "Content-Type": "application/json" }),
        },
        signal: AbortSignal.timeout(timeLimit),
      },
      (response) => {
        let text = "";
        response.setEncoding("utf8");
        response.on("data", (chunk: string) => {
          text += chunk;
          if (text.length > 10_000) asking.destroy(new Error("too long"));
        });
        response.on("end", () => done(text));
        response.on("error", fail);
      },
    );
    asking.on("error", fail);
    asking.end(body);
  }).then((text) => JSON.parse(text) as unknown);
}

const fields = (said: unknown): Record<string, unknown> =>
  typeof said === "object" && said !== null ? (said as Record<string, unknown>) : {};

/**
 * A fresh address of the host that is running already, or null where none is: a stale file is passed over. Whoever listens on the
 * port now, perhaps another user's program, is not told the secret, and its answer counts only with the proof that it holds it.
 */
export async function addressOfRunningHost(folder: string, timeLimit = 2_000): Promise<string | null> {
  const host = readStateFile(folder);
  if (host === null || !isAlive(host.pid)) return null;
  const challenge = newSecret();
  try {
    const authorization = askingFor(host.ownerSecret, challenge);
    const { token, proof } = fields(await post(host, { target: "/fresh-address", authorization, timeLimit }));
    if (typeof token !== "string" || !secretPattern.test(token) || typeof proof !== "string") return null;
    if (!sameSecret(proof, tokenProof(host.ownerSecret, challenge, token))) return null;
    return entranceAddress(ownOrigin(host.port), token, null);
  } catch {
    return null;
  }
}

export type OpenedInRunningHost =
  | { readonly address: string }
  /** The running host could not open it, and says why. */
  | { readonly message: string };

/**
 * Has the host that is running already open a study; null where none is running. To be called once `addressOfRunningHost` gave an
 * address: the path is told to nobody else than who has just proved to be that host.
 */
export async function openInRunningHost(
  folder: string,
  path: string,
  timeLimit = 60_000,
): Promise<OpenedInRunningHost | null> {
  const host = readStateFile(folder);
  if (host === null || !isAlive(host.pid)) return null;
  const challenge = newSecret();
  const body = JSON.stringify({ path });
  try {
    const authorization = openingFor(host.ownerSecret, challenge, body);
    const { said, proof } = fields(await post(host, { target: "/open-file", authorization, body, timeLimit }));
    if (typeof said !== "string" || typeof proof !== "string") return null;
    if (!sameSecret(proof, answerProof(host.ownerSecret, challenge, said))) return null;
    const { token, study, message } = fields(JSON.parse(said));
    if (typeof message === "string") return { message };
    if (typeof token !== "string" || !secretPattern.test(token) || typeof study !== "string") return null;
    return { address: entranceAddress(ownOrigin(host.port), token, study) };
  } catch {
    return null;
  }
}
