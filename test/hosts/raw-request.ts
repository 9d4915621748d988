import { connect } from "node:net";

export interface RawAnswer {
  /** 0 where the connection ended without an answer. */
  readonly status: number;
  readonly text: string;
  readonly headers: ReadonlyMap<string, string>;
  readonly milliseconds: number;
}

/** Sends bytes as they are, and collects what comes back until the other side closes or `waitFor` milliseconds pass. */
export function sendRaw(
  port: number,
  bytes: string | Buffer,
  options: { waitFor?: number; dripEvery?: number } = {},
): Promise<RawAnswer> {
  return new Promise((done) => {
    const start = performance.now();
    const socket = connect(port, "127.0.0.1");
    const chunks: Buffer[] = [];
    let drip: NodeJS.Timeout | undefined;
    const finish = () => {
      clearTimeout(limit);
      clearInterval(drip);
      socket.destroy();
      const text = Buffer.concat(chunks).toString("utf8");
      const lines = (text.split("\r\n\r\n")[0] ?? "").split("\r\n");
      const headers = new Map(
        lines.slice(1).map((line) => {
          const colon = line.indexOf(":");
          return [line.slice(0, colon).toLowerCase(), line.slice(colon + 1).trim()];
        }),
      );
      const status = Number(/^HTTP\/1\.1 (\d{3})/.exec(lines[0] ?? "")?.[1] ?? 0);
      done({ status, text, headers, milliseconds: performance.now() - start });
    };
    const limit = setTimeout(finish, options.waitFor ?? 5_000);
    socket.on("data", (chunk) => chunks.push(chunk));
    socket.on("error", () => undefined);
    socket.on("close", finish);
    socket.on("connect", () => {
      if (options.dripEvery === undefined) {
        socket.write(bytes);
        return;
      }
      const whole = Buffer.from(bytes);
      let sent = 0;
      drip = setInterval(() => {
        if (sent < whole.length && socket.writable) socket.write(whole.subarray(sent, ++sent));
      }, options.dripEvery);
    });
  });
}

/** A request's bytes from its lines. */
export function requestBytes(first: string, headers: readonly string[], body = ""): string {
  return `${[first, ...headers].join("\r\n")}\r\n\r\n${body}`;
}
