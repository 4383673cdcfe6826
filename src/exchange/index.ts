export { planText } from "./planfile.ts";
export { scheduleCsv } from "./schedulecsv.ts";
export {
  booklets,
  CUFF,
  daySheet,
  SHEETS,
  STANDING,
  toPdf,
  toPrintDocument,
  toSvgPages,
} from "./paper/index.ts";
export type { BookletOptions, Mark, Page, Paper, SheetSize } from "./paper/index.ts";
