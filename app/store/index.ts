/** The study file. */
export type * from "./content.ts";
export { runFields } from "./content.ts";
export { asFault, type FaultCode, StoreFault } from "./fault.ts";
export type { Migration } from "./schema/migration.ts";
export {
  type CreateOptions,
  type NewStudy,
  type Numbered,
  type OpenOptions,
  StudyDatabase,
  type Undone,
} from "./study-database.ts";
