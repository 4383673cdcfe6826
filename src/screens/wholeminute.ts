/** The whole minute nearest to a moment, seconds: whatever points at a moment, or shows one that is pointed at, tells of the same one. */
export function wholeMinute(atS: number): number {
  return Math.round(atS / 60) * 60;
}
