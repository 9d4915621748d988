import { readFileSync } from "node:fs";
import { uptime } from "node:os";
import type { MachineTime } from "./run-clock.ts";

let boot: string | null | undefined;

/** Linux names each start of the machine; other systems have nothing of the kind that is free to read. */
function bootName(): string | null {
  if (boot === undefined) {
    try {
      boot = readFileSync("/proc/sys/kernel/random/boot_id", "ascii").trim() || null;
    } catch {
      boot = null;
    }
  }
  return boot;
}

/** What this machine's clocks say now. */
export function machineTime(): MachineTime {
  return { wall: Date.now(), uptime: uptime(), boot: bootName() };
}
