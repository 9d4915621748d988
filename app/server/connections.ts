import type { Socket } from "node:net";

export interface OpenConnection {
  /** True once it sent a message, or asked for a preview, with the session's cookie. */
  readonly trusted: boolean;
}

/**
 * Which of the open connections, oldest first, has to go when there are too many: the oldest that has not shown to be our page's. So
 * whoever holds many open shuts nobody out. Null where there is room.
 */
export function connectionToDrop(open: readonly OpenConnection[], most: number): number | null {
  if (open.length <= most) return null;
  const oldest = open.findIndex((connection) => !connection.trusted);
  return oldest < 0 ? open.length - 1 : oldest;
}

/**
 * Bytes that may come before a request or between two: a head has a limit of its own, but blank lines before it are passed over
 * without end (RFC 9112, 2.2).
 */
export const mostBetween = 64 * 1024;
/** How often that is looked at, in milliseconds. */
const lookEvery = 100;

interface Connection {
  trusted: boolean;
  /** Bytes that had been read when the last request was over; null while one is answered. */
  quietSince: number | null;
}

/** The connections of a listener, oldest first. */
export class Connections {
  readonly #open = new Map<Socket, Connection>();
  readonly #most: number;
  readonly #looking: NodeJS.Timeout;

  constructor(most: number) {
    this.#most = most;
    this.#looking = setInterval(() => this.#dropChatter(), lookEvery);
    this.#looking.unref();
  }

  /** Connections on which bytes come that lead to no request. */
  #dropChatter(): void {
    for (const [socket, { quietSince }] of this.#open) {
      if (quietSince !== null && socket.bytesRead - quietSince > mostBetween) socket.destroy();
    }
  }

  /** A request has come; `over` is to be called when it is answered. */
  request(socket: Socket): { over(): void } {
    const known = this.#open.get(socket);
    if (known !== undefined) known.quietSince = null;
    return {
      over: () => {
        if (known !== undefined) known.quietSince = socket.bytesRead;
      },
    };
  }

  close(): void {
    clearInterval(this.#looking);
  }

  add(socket: Socket): void {
    this.#open.set(socket, { trusted: false, quietSince: 0 });
    socket.once("close", () => this.#open.delete(socket));
    const sockets = [...this.#open.keys()];
    const drop = connectionToDrop([...this.#open.values()], this.#most);
    const dropped = drop === null ? undefined : sockets[drop];
    if (dropped === undefined) return;
    this.#open.delete(dropped);
    dropped.destroy();
  }

  trust(socket: Socket): void {
    const known = this.#open.get(socket);
    if (known !== undefined) known.trusted = true;
  }
}
