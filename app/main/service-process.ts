/** The service's own process under Electron: the door, answering over the port to the main process. */
import { setFlagsFromString } from "node:v8";
import { defaultLocale, wordsFor } from "../../core/index.ts";
import { serviceFlags } from "../host/service-flags.ts";
import { createDoor, userFolders } from "../service/index.ts";
import { serveDoor } from "./door-over-port.ts";

// Before anything is read: a flag that comes too late for this process is passed over.
for (const flag of serviceFlags) setFlagsFromString(flag);

const port = process.parentPort;
serveDoor(
  {
    postMessage: (message) => port.postMessage(message),
    onMessage: (listener) => port.on("message", (event) => listener(event.data)),
  },
  createDoor({ folders: userFolders(process.platform, process.env) }),
  { ok: false, reason: "failed", message: wordsFor(defaultLocale).hosts.serviceFailed },
);
