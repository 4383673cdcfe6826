import type { LineUse } from "../../../src/exchange/paper/oneline.ts";

/** True when it stands on one line. */
export function fitsOneLine({ takesMm, roomMm }: LineUse): boolean {
  return takesMm <= roomMm;
}
