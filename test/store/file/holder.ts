import { createInterface } from "node:readline";
import { openStudyFile, StoreFault } from "../../../app/store/index.ts";

/**
 * Another program that has a study open: `holder.ts PATH DATA_FOLDER WHO PLACE [UID]`. Says in lines of JSON what came of it, and does what
 * it is told in lines: `edit NAME`, `read`, `refresh`, `write-back`, `back-up`, `copy PATH`, `close`.
 */
const [path = "", dataFolder = "", who = "", place = "local", uid] = process.argv.slice(2);
if (uid !== undefined) {
  process.setgid?.(Number(uid));
  process.setuid?.(Number(uid));
}

const say = (what: unknown) => process.stdout.write(`${JSON.stringify(what)}\n`);
const tell = async (what: () => unknown) => {
  try {
    say({ done: (await what()) ?? null });
  } catch (error) {
    say({ fault: error instanceof StoreFault ? error.code : String(error) });
  }
};

const places = { dataFolder, program: "boilbench test", who, placeOf: () => place as "local" | "network" };
const file = await openStudyFile(path, places).catch((error: unknown) => {
  say({ fault: error instanceof StoreFault ? error.code : String(error) });
  process.exit(1);
});
say({ readOnly: file.readOnly, notes: file.notes.map(({ note }) => note), name: file.database.head().name });

for await (const line of createInterface({ input: process.stdin })) {
  const [what, ...rest] = line.split(" ");
  const told = rest.join(" ");
  if (what === "edit") {
    await tell(() => {
      file.beforeEdit();
      file.database.edit({ who, what: "rename", about: {}, why: null }, [
        { subject: "study", field: "name", after: told },
      ]);
    });
  }
  if (what === "read") await tell(() => file.database.head().name);
  if (what === "refresh") await tell(() => file.refresh());
  if (what === "write-back") await tell(() => file.writeBack());
  if (what === "back-up") await tell(() => file.backUp());
  if (what === "copy") await tell(() => file.saveCopy(told));
  if (what === "close") {
    await tell(() => file.close());
    break;
  }
}
