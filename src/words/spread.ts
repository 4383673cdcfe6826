import { counted } from "./list.ts";

/** That overruns of so many of the placed tasks are in no chance, since they have no low and high duration; null where all have. */
export function noSpreadWords(many: number, placed: number): string | null {
  if (many === 0) return null;
  const of = `${many} of ${counted(placed, "placed task")}`;
  return many === 1
    ? `${of} has no low and high duration and takes its likely time on every simulated day, rare events apart: an overrun of it is in no chance.`
    : `${of} have no low and high duration and take their likely time on every simulated day, rare events apart: overruns of theirs are in no chance.`;
}
