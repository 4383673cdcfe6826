/** The starts on a grid of `gridS` seconds in words: `whole minutes`, `whole multiples of 5 min`, `whole multiples of 30 s`. */
export function gridName(gridS: number): string {
  if (gridS === 60) return "whole minutes";
  return `whole multiples of ${gridS % 60 === 0 ? `${gridS / 60} min` : `${gridS} s`}`;
}
