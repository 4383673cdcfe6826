/** The whole minute of a moment that is pointed at, seconds: ruler, foot of the line, strips and map tell of the same one. */
export function wholeMinute(atS: number): number {
  return Math.round(atS / 60) * 60;
}
