/** The kinds of export, which are fetched with the dialog that offers them. */
export { EXPORTS, everything, type Exported } from "../exchange/export/index.ts";
