import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { createInterface } from "node:readline";
import { atEnd, type Room } from "./support.ts";

/** A program of its own that has a study open; see holder.ts. */
export class OtherProcess {
  readonly #child: ChildProcess;
  readonly #lines: AsyncIterator<string>;

  constructor(
    room: Room,
    who: string,
    options: { place?: string; uid?: number; shell?: string; dieAtRename?: "before" | "after" } = {},
  ) {
    const script = new URL("./holder.ts", import.meta.url).pathname;
    const given = [script, room.study, room.places.dataFolder, who, options.place ?? "local"];
    if (options.uid !== undefined) given.push(String(options.uid));
    const early =
      options.dieAtRename === undefined ? [] : ["--import", new URL("./die-at-rename.ts", import.meta.url).href];
    const command = ["--disable-warning=ExperimentalWarning", ...early, ...given];
    const env = { ...process.env, DIE_AT: options.dieAtRename ?? "", DIE_AT_PATH: room.study };
    this.#child =
      options.shell === undefined
        ? spawn(process.execPath, command, { env, stdio: ["pipe", "pipe", "inherit"] })
        : spawn("bash", ["-c", `${options.shell}; exec "$0" "$@"`, process.execPath, ...command], {
            env,
            stdio: ["pipe", "pipe", "inherit"],
          });
    if (this.#child.stdout === null) throw new Error("no output");
    this.#lines = createInterface({ input: this.#child.stdout })[Symbol.asyncIterator]();
    atEnd(() => this.dies());
  }

  get id(): number {
    return this.#child.pid ?? 0;
  }

  /** What it says next. */
  async hears(): Promise<unknown> {
    const { value, done } = await this.#lines.next();
    if (done) throw new Error("it ended without a word");
    return JSON.parse(value);
  }

  async told(what: string): Promise<unknown> {
    this.#child.stdin?.write(`${what}\n`);
    return this.hears();
  }

  /** SIGKILL: it can do nothing any more. */
  async dies(): Promise<void> {
    if (this.#child.exitCode !== null || this.#child.signalCode !== null) return;
    const ended = once(this.#child, "exit");
    this.#child.kill("SIGKILL");
    await ended;
  }
}
