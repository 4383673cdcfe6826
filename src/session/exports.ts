/** The kinds of export, which are fetched with the dialog that offers them. */
export { EXPORTS, everything } from "../exchange/export/index.ts";
