import type { Migration } from "./migration.ts";
import { migration1 } from "./migration-1.ts";
import { migration2 } from "./migration-2.ts";

/** All steps of the schema, in order. Their checksums are pinned: a step that is edited no longer fits its own. */
export const migrations: readonly Migration[] = [
  { number: 1, sql: migration1, checksum: "c178ba276ca28c8cb32568bf63ae0630b3109209a7b9537504739119bea698c7" },
  { number: 2, sql: migration2, checksum: "0b53ff9651de4b7f3b4c667f37c36b2a6a2c13e50ee251c3143d32d76f6efb16" },
];
