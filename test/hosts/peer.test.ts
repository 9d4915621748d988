import { execFile } from "node:child_process";
import { once } from "node:events";
import { connect } from "node:net";
import { promisify } from "node:util";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { connectionToDrop } from "../../app/server/connections.ts";
import { type Listener, startListener } from "../../app/server/index.ts";
import { connectionTable, ownerOf, type Peer, peerOf } from "../../app/server/peer.ts";
import { smallDoor } from "./small-door.ts";

// Lines as in the Linux kernel's Documentation/networking/proc_net_tcp.rst: ports and addresses in hexadecimal, the address in the
// machine's own byte order; states of include/net/tcp_states.h (01 established, 04 and 05 FIN_WAIT, 06 TIME_WAIT, 0A listening).

const ports = { clientPort: 0xc350, hostPort: 0xa112 };
const line = (local: string, remote: string, state = "01", user = "1000") =>
  `   4: ${local} ${remote} ${state} 00000000:00000000 00:00000000 00000000  ${user}        0 4242 1 0000000000000000 20 4 30 10 -1`;
const head = "  sl  local_address rem_address   st tx_queue rx_queue tr tm->when retrnsmt   uid  timeout inode";
const table = (...lines: string[]) => [head, ...lines, ""].join("\n");
const client = "0100007F:C350";
const host = "0100007F:A112";

describe("whose the other end of a connection is", () => {
  it.each<[string, string | null, number | null, Peer]>([
    ["the user's own", table(line(client, host)), 1000, "ours"],
    ["another user's", table(line(client, host, "01", "1001")), 1000, "anothers"],
    ["nobody's (the user 65534)", table(line(client, host, "01", "65534")), 1000, "anothers"],
    ["root's", table(line(client, host, "01", "0")), 1000, "ours"],
    ["another user's, seen by root", table(line(client, host)), 0, "anothers"],
    ["another user's that will send no more", table(line(client, host, "04", "1001")), 1000, "anothers"],
    ["one that nobody holds any more, listed as root's", table(line(client, host, "06", "0")), 1000, "unknown"],
    ["the host's own end, not the client's", table(line(host, client)), 1000, "unknown"],
    ["a listening port", table(line(client, "00000000:0000", "0A")), 1000, "unknown"],
    ["another client's port", table(line("0100007F:C351", host, "01", "1001")), 1000, "unknown"],
    ["another service's port", table(line(client, "0100007F:0050", "01", "1001")), 1000, "unknown"],
    ["the same ports of another address", table(line("0200007F:C350", host, "01", "1001")), 1000, "unknown"],
    [
      "the user's own behind another's with like ports",
      table(line("0200007F:C350", host, "01", "1001"), line(client, host)),
      1000,
      "ours",
    ],
    [
      "a socket of IPv6 with an address of IPv4",
      table(line("0000000000000000FFFF00000100007F:C350", "0000000000000000FFFF00000100007F:A112", "01", "7")),
      1000,
      "anothers",
    ],
    ["a machine of the other byte order", table(line("7F000001:C350", "7F000001:A112", "01", "7")), 1000, "anothers"],
    ["no table", null, 1000, "unknown"],
    ["an empty table", "", 1000, "unknown"],
    ["a system without users' numbers", table(line(client, host)), null, "unknown"],
    ["a damaged line", `${head}\n 4: ${client} ${host}`, 1000, "unknown"],
    ["a user that is no number", table(line(client, host, "01", "-1")), 1000, "unknown"],
  ])("%s", (_name, text, user, wanted) => {
    expect(peerOf(text, ports, user)).toBe(wanted);
  });

  it("is read from this machine's own table, where it is Linux", async () => {
    const listener = await startListener({ door: smallDoor(), page: new Map() });
    const socket = connect(listener.port, "127.0.0.1");
    await once(socket, "connect");
    const found = connectionTable(process.platform);
    const connection = { clientPort: socket.localPort ?? 0, hostPort: listener.port };
    expect(found === null ? null : ownerOf(found, connection)).toBe(
      process.platform === "linux" ? process.getuid?.() : null,
    );
    expect(connectionTable("darwin")).toBeNull();
    socket.destroy();
    await listener.close();
  });
});

describe("a token read from the list of processes", () => {
  let listener: Listener;
  beforeAll(async () => {
    listener = await startListener({ door: smallDoor(), page: new Map() });
  });
  afterAll(() => listener.close());

  /** Exchanges a token as any program could, from a process of its own under a user's number; the answer's status. */
  async function enterAs(user: number | undefined, token: string): Promise<string> {
    const script = `
      fetch("${listener.origin}/enter", {
        method: "POST",
        headers: { Origin: "${listener.origin}", "Sec-Fetch-Site": "same-origin", "Content-Type": "application/json" },
        body: JSON.stringify({ token: "${token}" }),
      }).then((answer) => console.log(answer.status + " " + (answer.headers.get("set-cookie") ?? "no cookie")));`;
    const identity = user === undefined ? {} : { uid: user, gid: user };
    const ran = await promisify(execFile)(process.execPath, ["--eval", script], { ...identity, cwd: "/", env: {} });
    return ran.stdout.trim();
  }

  // Only root can start a program as another user; elsewhere the table above has to do.
  const asRoot = process.platform === "linux" && process.getuid?.() === 0;
  it(asRoot ? "lets no other user in, and is not used up by the attempt" : "lets its own user in", async () => {
    const token = listener.freshAddress().split("#token=")[1] ?? "";
    if (asRoot) expect(await enterAs(1_234, token)).toBe("403 no cookie");
    expect(await enterAs(undefined, token)).toMatch(/^204 boilbench-\d+=/);
  });
});

describe("which connection goes when there are too many", () => {
  const [page, other] = [{ trusted: true }, { trusted: false }];
  it.each<[string, { trusted: boolean }[], number | null]>([
    ["none while there is room", [other, other, other], null],
    ["the oldest that is not our page's", [page, other, other, other], 1],
    ["the oldest of all strangers, not the one that has just come", [other, other, other, other], 0],
    ["the newest where all are our page's", [page, page, page, page], 3],
    ["a stranger who comes to a page's full house", [page, page, page, other], 3],
  ])("%s", (_name, open, wanted) => {
    expect(connectionToDrop(open, 3)).toBe(wanted);
  });
});
