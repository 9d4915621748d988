import { createDoor } from "../../app/service/index.ts";
import { startHost } from "./harness.ts";

/**
 * Another program of the same user: `other-host.ts STUDIES_FOLDER DATA_FOLDER`. Says the address at which a browser can open it, and
 * goes on until it is killed.
 */
const [studies = "", data = ""] = process.argv.slice(2);
const host = await startHost({ door: createDoor({ folders: { studies, data } }) });
console.log(host.freshAddress());
