export { createDoor, type DoorOptions } from "./door.ts";
export {
  type FilesRequest,
  type OpenStudy,
  openFiles,
  type Program,
  type SourceFile,
  type StudyRead,
} from "./open-study.ts";
export { firstReportChoice, type OutputFile, outputFile } from "./output-files.ts";
export { program } from "./program.ts";
export { studyEnding } from "./shelf/file-name.ts";
export { type UserFolders, userFolders } from "./shelf/user-folders.ts";
export { waterFile, waterText } from "./water.ts";
