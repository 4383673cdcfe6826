export { planText } from "./planfile.ts";
export { planGeoJson, readGeoJson } from "./geojson.ts";
export { heightsAmong, openHeights, takeHeights, takenWords } from "./heightgrid/index.ts";
export type { GivenFile, HeightAnswers, HeightSource, SiteOnBody } from "./heightgrid/index.ts";
export { debriefCsv } from "./debriefcsv.ts";
export { scheduleCsv } from "./schedulecsv.ts";
export {
  barredPages,
  beforePrint,
  booklets,
  CUFF,
  daySheet,
  fileMs,
  changesBody,
  impose,
  pageChanges,
  pageWords,
  printedDay,
  printingRun,
  SHEET_KINDS,
  sheetPaper,
  sheetsOf,
  stampOf,
  STANDING,
  toPdf,
  toSvgPages,
} from "./paper/index.ts";
export type {
  Page,
  Paper,
  Rehearsed,
  Revision,
  SheetFacts,
  SheetKindId,
  SheetNeed,
  SheetStamp,
} from "./paper/index.ts";
