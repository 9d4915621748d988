import { chmodSync, lstatSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { homedir } from "node:os";
import { join } from "node:path";
import { newSecret, secretPattern } from "./secret.ts";

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
