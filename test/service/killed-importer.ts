/** Takes readings in as new studies, one after the other, until it is killed. Arguments: folder of studies, folder of data. */
import { createDoor } from "../../app/service/index.ts";
import { taken } from "./requests.ts";

const [studies = "", data = ""] = process.argv.slice(2);
const door = createDoor({ folders: { studies, data } });
for (let count = 1; ; count += 1) {
  await taken(door, `Week ${count}`);
  process.stdout.write(`${count}\n`);
}
