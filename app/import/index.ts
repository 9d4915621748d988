/** Files of readings and settings, in and out: pure functions on bytes and text. */

export { type Entered, type EnteredKind, enteredDate, enteredNumber, numberEntry } from "./entered-setting.ts";
export { isLayoutColumn, layoutColumns } from "./layout.ts";
export { badRows, isWholeFileProblem, type ReadingsLeavingOut, readLeavingOutBadRows } from "./leave-out-rows.ts";
export { largestFile, longestCell, mostColumns, mostRows } from "./limits.ts";
export { nearestName } from "./nearest-name.ts";
export { inLayoutOrder, type PhaseCell, phaseCells, runColumns } from "./phase-cells.ts";
export {
  type ComparedColumns,
  type ComparisonTableRead,
  readComparisonTable,
} from "./read-comparison-table.ts";
export { fuelColumnNames } from "./read-fuels.ts";
export { potColumnNames } from "./read-pots.ts";
export { type LeftOutRow, type ReadingsInput, type ReadingsRead, readReadings } from "./read-readings.ts";
export { factorOf, isOtherHeading, type PhaseRow, type RunCellsRead, readRunCells } from "./read-run-cells.ts";
export { readSettings, type SettingsRead } from "./read-settings.ts";
export { type Delimiter, mendTable, type ReadTable, readTable } from "./read-table.ts";
export { readDate } from "./read-time.ts";
export { emptySettingsFile, type SettingsFile, settingsFor } from "./settings-file.ts";
export { instrumentRoles } from "./settings-schema.ts";
export { writeReadings } from "./write-readings.ts";
export { writeSettings } from "./write-settings.ts";
export { timeOfMinutes } from "./write-times.ts";
