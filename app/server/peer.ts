import { readFileSync } from "node:fs";

/**
 * Whose program is at the other end of a connection. On Linux every user of a machine can read every command line, that of the opened
 * browser too, and with it the one-time token until it is used; the kernel's table of connections says to whom each belongs.
 */
export type Peer = "ours" | "anothers" | "unknown";

export interface Connection {
  /** Ports of both ends, on 127.0.0.1. */
  readonly clientPort: number;
  readonly hostPort: number;
}

/** 127.0.0.1 as the tables write it, on machines of either byte order, and within IPv6 (::ffff:127.0.0.1). */
const loopback = new Set([
  "0100007F",
  "7F000001",
  "0000000000000000FFFF00000100007F",
  "00000000000000000000FFFF7F000001",
]);

const portIn = (address: string): number | null => {
  const [host = "", port = ""] = address.split(":");
  return loopback.has(host) && /^[0-9A-F]{4}$/.test(port) ? Number.parseInt(port, 16) : null;
};

/**
 * The user who holds the client's end of a connection, from the text of /proc/net/tcp and tcp6 (Linux, Documentation/networking/
 * proc_net_tcp.rst: local address, remote address, state, queues, timer, retransmissions, user); null where none is listed.
 */
export function ownerOf(table: string, connection: Connection): number | null {
  for (const line of table.split("\n")) {
    const [, local = "", remote = "", state, , , , user = ""] = line.trim().split(/\s+/);
    if (portIn(local) !== connection.clientPort || portIn(remote) !== connection.hostPort) continue;
    // Established (01), or only its sending half closed (04, 05): the others, which nobody holds any more, are listed as root's.
    if (state !== "01" && state !== "04" && state !== "05") continue;
    return /^\d+$/.test(user) ? Number(user) : null;
  }
  return null;
}

/** Root may do everything anyway, and forwards connections for others. Where nothing is known, the token alone decides. */
export function peerOf(table: string | null, connection: Connection, ownUser: number | null): Peer {
  const owner = table === null || ownUser === null ? null : ownerOf(table, connection);
  if (owner === null) return "unknown";
  return owner === ownUser || owner === 0 ? "ours" : "anothers";
}

/** The kernel's tables, or null where it has none (other systems than Linux). */
export function connectionTable(platform: string): string | null {
  if (platform !== "linux") return null;
  const read = (file: string) => {
    try {
      return readFileSync(file, "latin1");
    } catch {
      return "";
    }
  };
  return read("/proc/net/tcp") + read("/proc/net/tcp6");
}
