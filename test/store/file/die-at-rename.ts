import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";

/**
 * Loaded before a program to make it die, as by SIGKILL, right before or right after it gives a file the name of DIE_AT_PATH: the
 * moment that no clock would hit.
 */
const { DIE_AT_PATH: path, DIE_AT: when } = process.env;
const renameSync = fs.renameSync;
fs.renameSync = (from, to) => {
  if (to === path && when === "before") process.kill(process.pid, "SIGKILL");
  renameSync(from, to);
  if (to === path) process.kill(process.pid, "SIGKILL");
};
syncBuiltinESMExports();
