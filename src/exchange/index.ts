export { planText } from "./planfile.ts";
export { planGeoJson, readGeoJson } from "./geojson.ts";
export type { GeoJsonSite, NamedLine } from "./geojson.ts";
export {
  asciiGrid,
  heightsAmong,
  layingOf,
  openHeights,
  takeHeights,
  takenWords,
} from "./heightgrid/index.ts";
export type {
  GivenFile,
  HeightAnswers,
  HeightQuestion,
  Heights,
  HeightsTaken,
  HeightSource,
  Laying,
  SiteOnBody,
} from "./heightgrid/index.ts";
export { debriefCsv } from "./debriefcsv.ts";
export { scheduleCsv } from "./schedulecsv.ts";
export {
  barredPages,
  beforePrint,
  booklets,
  CUFF,
  daySheet,
  changesBody,
  impose,
  pageChanges,
  pageWords,
  printedDay,
  printingRun,
  SHEET_KINDS,
  sheetPaper,
  sheetsOf,
  SHEETS,
  sidesOf,
  stampOf,
  STANDING,
  toPdf,
  toPrintDocument,
  toSvgPages,
} from "./paper/index.ts";
export type {
  BookletOptions,
  Doubt,
  Imposing,
  Mark,
  Page,
  PageChange,
  Paper,
  Rehearsed,
  Revision,
  ShedTables,
  SheetFormat,
  SheetFacts,
  SheetKind,
  SheetKindId,
  SheetNeed,
  SheetPaper,
  SheetSize,
  SheetStamp,
  Side,
} from "./paper/index.ts";
