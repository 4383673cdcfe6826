export { booklets } from "./booklet.ts";
export type { BookletOptions } from "./booklet.ts";
export { CUFF, STANDING } from "./cuff.ts";
export { daySheet } from "./day/sheet.ts";
export { SHEETS } from "./impose.ts";
export type { SheetSize } from "./impose.ts";
export type { Mark, Page, Paper } from "./page.ts";
export { toPdf } from "./pdf.ts";
export { toPrintDocument, toSvgPages } from "./svg.ts";
