import { chmodSync, lstatSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { homedir } from "node:os";
import { join } from "node:path";
import { askingFor, newSecret, sameSecret, secretPattern, tokenProof } from "./secret.ts";

/** How a second start finds the first. Whoever can read it can open the study, so only its owner can. */
export interface RunningHost {
  readonly port: number;
  readonly pid: number;
  readonly ownerSecret: string;
}

/** The user's own folder for what lasts as long as the session, or the nearest thing to it. */
export function stateFolder(platform: string, environment: Readonly<Record<string, string | undefined>>): string {
  const wanted = environment.BOILBENCH_STATE_FOLDER;
  if (wanted) return wanted;
  const home = environment.HOME || homedir();
  if (platform === "win32") return join(environment.LOCALAPPDATA || join(home, "AppData", "Local"), "Boilbench");
  if (platform === "darwin") return join(home, "Library", "Application Support", "Boilbench");
  if (environment.XDG_RUNTIME_DIR) return join(environment.XDG_RUNTIME_DIR, "boilbench");
  return join(environment.XDG_STATE_HOME || join(home, ".local", "state"), "boilbench");
}

const fileName = "browser-host.json";

/** Written beside and renamed, so that nobody ever reads half of it. */
export function writeStateFile(folder: string, host: RunningHost): void {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  chmodSync(folder, 0o700);
  const beside = join(folder, `${fileName}.${newSecret()}`);
  writeFileSync(beside, JSON.stringify(host), { mode: 0o600, flag: "wx" });
  renameSync(beside, join(folder, fileName));
}

/** Removes the file if it still speaks of this host. */
export function removeStateFile(folder: string, host: RunningHost): void {
  if (readStateFile(folder)?.ownerSecret === host.ownerSecret) rmSync(join(folder, fileName), { force: true });
}

/** What the file says, or null where it is missing, damaged, or could have been read or written by somebody else. */
export function readStateFile(folder: string): RunningHost | null {
  const file = join(folder, fileName);
  try {
    const facts = lstatSync(file);
    if (!facts.isFile()) return null;
    if (process.getuid !== undefined && (facts.uid !== process.getuid() || (facts.mode & 0o077) !== 0)) return null;
    const said: unknown = JSON.parse(readFileSync(file, "utf8"));
    if (typeof said !== "object" || said === null) return null;
    const { port, pid, ownerSecret } = said as Record<string, unknown>;
    if (typeof port !== "number" || !Number.isInteger(port) || port < 1 || port > 65_535) return null;
    if (typeof pid !== "number" || !Number.isInteger(pid) || pid < 1) return null;
    if (typeof ownerSecret !== "string" || !secretPattern.test(ownerSecret)) return null;
    return { port, pid, ownerSecret };
  } catch {
    return null;
  }
}

/** True for a process of ours: one that may not be asked (EPERM) is somebody else's, who got the number later. */
function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}

/**
 * A fresh address of the host that is running already, or null where none is: a stale file is passed over. Whoever listens on the
 * port now, perhaps another user's program, is not told the secret, and its answer counts only with the proof that it holds it.
 */
export async function addressOfRunningHost(folder: string, timeLimit = 2_000): Promise<string | null> {
  const host = readStateFile(folder);
  if (host === null || !isAlive(host.pid)) return null;
  const origin = `http://127.0.0.1:${host.port}`;
  const challenge = newSecret();
  try {
    const body = await new Promise<string>((done, fail) => {
      const asking = request(
        `${origin}/fresh-address`,
        {
          method: "POST",
          agent: false,
          headers: { Authorization: askingFor(host.ownerSecret, challenge), "Content-Length": 0 },
          signal: AbortSignal.timeout(timeLimit),
        },
        (response) => {
          let text = "";
          response.setEncoding("utf8");
          response.on("data", (chunk: string) => {
            text += chunk;
            if (text.length > 1_000) asking.destroy(new Error("too long"));
          });
          response.on("end", () => done(text));
          response.on("error", fail);
        },
      );
      asking.on("error", fail);
      asking.end();
    });
    const said: unknown = JSON.parse(body);
    const { token, proof } = (said ?? {}) as Record<string, unknown>;
    if (typeof token !== "string" || !secretPattern.test(token) || typeof proof !== "string") return null;
    return sameSecret(proof, tokenProof(host.ownerSecret, challenge, token)) ? `${origin}/#token=${token}` : null;
  } catch {
    return null;
  }
}
