import type { Plan } from "../../../plan/index.ts";
import { choice, type Entry, longText, percent, quantity } from "../entry.ts";
import { type Field, type SheetLine, sheetTable } from "../table.ts";
import { span } from "../timeentry.ts";

/** The flight rules' numbers, a line each; what breaking a rule counts as and its source stand on its first line. */

const standing = choice([
  { value: "breach", words: "breach" },
  { value: "warning", words: "warning" },
]);

/** Numbers of one rule: its name, where it lies, and for each number what it is, its field and its entry. */
type Group = readonly [
  name: string,
  key: string,
  numbers: readonly (readonly [words: string, key: string, entry: Entry, unit: string])[],
];

const m = quantity("m");
const GROUPS: readonly Group[] = [
  [
    "Walking",
    "walking",
    [
      ["planned speed", "speedMs", quantity("m/s"), "m/s"],
      ["metabolic rate", "metabolicW", quantity("W"), "W"],
      ["speed that this rate belongs to", "rateAtMs", quantity("m/s"), "m/s"],
      ["way over straight line", "detour", quantity(""), ""],
      ["steepest way", "greatestSlopeDeg", quantity("°"), "°"],
      ["steepest way down on a height grid", "greatestDownDeg", quantity("°"), "°"],
      ["steepest ground across on a height grid", "greatestAcrossDeg", quantity("°"), "°"],
    ],
  ],
  ["Reserves", "reserve", [["tight below", "tight", percent, "%"]]],
  [
    "Walk-back",
    "walkback",
    [
      ["speed", "speedMs", quantity("m/s"), "m/s"],
      ["metabolic rate", "metabolicW", quantity("W"), "W"],
      ["emergency oxygen left", "emergencyReserveS", span, "h:mm"],
    ],
  ],
  ["Crew separation", "separation", [["at most", "greatestM", m, "m"]]],
  [
    "Distance walked",
    "distance",
    [
      ["in one EVA", "evaM", m, "m"],
      ["in the stay", "stayM", m, "m"],
    ],
  ],
  ["Ascent blast", "blast", [["instruments clear of it by", "leastM", m, "m"]]],
  [
    "Work and rest",
    "work",
    [
      ["longest stretch", "longestS", span, "h:mm"],
      ["rest of at least", "restS", span, "h:mm"],
    ],
  ],
  ["EVA time in the stay", "duty", [["at most", "stayS", span, "h:mm"]]],
  ["Stored heat", "heat", [["at most for each kg of body", "mostKjKg", quantity("kJ/kg"), "kJ/kg"]]],
  ["Drinking water", "drinking", [["for each hour outside", "kgH", quantity("kg/h"), "kg/h"]]],
  ["Carried by hand", "carry", [["weight for each crew member", "greatestN", quantity("N"), "N"]]],
  ["Recharge", "recharge", [["between EVAs at least", "leastS", span, "h:mm"]]],
  ["Return mass", "returnMass", [["at most", "greatestKg", quantity("kg"), "kg"]]],
];

function linesOf([name, key, numbers]: Group): SheetLine[] {
  return numbers.map(([words, number, entry, unit], index): SheetLine => {
    const value: Field<Plan> = {
      label: `${name}: ${words}`,
      path: `rules.${key}.${number}`,
      entry,
      unit,
      width: 9,
    };
    const level: Field<Plan> = {
      label: `${name}: what breaking it is`,
      path: `rules.${key}.level`,
      entry: standing,
      width: 10,
    };
    const source: Field<Plan> = {
      label: `${name}: where the number comes from`,
      path: `rules.${key}.source`,
      entry: longText,
      width: 46,
    };
    const unitWords = unit === "" ? "" : `, ${unit}`;
    return {
      name: `${name}: ${words}${unitWords}`,
      fields: index === 0 ? [value, level, source] : [value, null, null],
    };
  });
}

export const rulesSheet = sheetTable({
  id: "rules",
  title: "Flight rules",
  intro:
    "A rule that is a warning makes no breach, but for what physics forbids, and the packer does not bind itself to it.",
  columns: [
    { label: "Value", unit: "", width: 9, group: "", align: "end" },
    { label: "Breaking it is a", unit: "", width: 10, group: "", align: "start" },
    { label: "Where the number comes from", unit: "", width: 46, group: "", align: "start" },
  ],
  lines: [
    ...GROUPS.flatMap(linesOf),
    {
      name: "Times: tight below, h:mm",
      fields: [
        { label: "Times: tight below", path: "rules.tightS", entry: span, unit: "h:mm", width: 9 },
        null,
        null,
      ],
    },
    {
      name: "Starts that the packer chooses: whole multiples of, s",
      fields: [
        {
          label: "Starts that the packer chooses: whole multiples of",
          path: "rules.startGridS",
          entry: quantity("s"),
          unit: "s",
          width: 9,
        },
        null,
        null,
      ],
    },
  ],
});
