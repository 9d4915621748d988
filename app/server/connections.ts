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

/** The connections of a listener, oldest first. */
export class Connections {
  readonly #open = new Map<Socket, { trusted: boolean }>();
  readonly #most: number;

  constructor(most: number) {
    this.#most = most;
  }

  add(socket: Socket): void {
    this.#open.set(socket, { trusted: false });
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
