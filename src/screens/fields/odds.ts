import { longText, percent, tick } from "./entry.ts";
import { sheetTable } from "./sheettable.ts";

/** What the day is packed for, how its crew acts when it runs late, and how lateness hangs together: one field a line. */

const line = (name: string, path: string, entry: typeof percent, unit: string, width = 10) => ({
  name: unit === "" ? name : `${name}, ${unit}`,
  fields: [{ label: name, path, entry, width, ...(unit === "" ? {} : { unit }) }],
});

export const oddsSheet = sheetTable({
  id: "odds",
  title: "The day as it may go",
  intro:
    "The chances that are wanted, and the rules by which simulated days go. How far a duration spreads is said with each task.",
  columns: [{ label: "Value", unit: "", width: 46, group: "", align: "start" }],
  lines: [
    line("Wanted: everybody home inside every limit", "odds.wish.home", percent, "%"),
    line("Wanted: every must-do task done", "odds.wish.must", percent, "%"),
    line("The crew acts when it runs late (else it carries on regardless)", "odds.crew.acts", tick, ""),
    line("Caution: durations ahead between likely (0) and high (100)", "odds.crew.caution", percent, "%"),
    line("Part of the spread that the whole day has in common", "odds.lateness.day", percent, "%"),
    line(
      "Part of the spread that a crew member has in common on an EVA",
      "odds.lateness.outing",
      percent,
      "%",
    ),
    line("Where these parts come from", "odds.lateness.source", longText, "", 46),
  ],
});
