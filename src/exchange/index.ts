export { planText } from "./planfile.ts";
export { heightsAmong, openHeights, takeHeights, takenWords } from "./heightgrid/index.ts";
export type { GivenFile, HeightAnswers } from "./heightgrid/index.ts";
export { debriefCsv } from "./debriefcsv.ts";
export {
  barredPages,
  beforePrint,
  booklets,
  daySheet,
  fileMs,
  changesBody,
  impose,
  pageChanges,
  pageWords,
  printingRun,
  SHEET_KINDS,
  sheetPaper,
  sheetsOf,
  stampOf,
  toPdf,
} from "./paper/index.ts";
export type { Page, Rehearsed, Revision, SheetFacts, SheetKindId, SheetNeed } from "./paper/index.ts";
