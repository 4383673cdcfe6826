import { keysOf } from "../../kernel/index.ts";
import type { Verdict } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { type NumberGroup, RULE_NUMBERS, rulesLimitedBy, type RuleNumber } from "../../rules/index.ts";
import { choice, type Entry, longText, percent, quantity } from "./entry.ts";
import { spareWords } from "./sparewords.ts";
import { type SheetLine, sheetTable } from "./sheettable.ts";
import type { Beside, Field } from "./table.ts";
import { span } from "./timeentry.ts";

/** The flight rules' numbers, a line each; what breaking a rule counts as and its source stand on its first line. */

const standing = choice([
  { value: "breach", words: "breach" },
  { value: "warning", words: "warning" },
]);

/** How each kind of number is entered. */
const ENTRIES: Readonly<Record<RuleNumber["written"], Entry>> = {
  m: quantity("m"),
  "m/s": quantity("m/s"),
  W: quantity("W"),
  "°": quantity("°"),
  "kJ/kg": quantity("kJ/kg"),
  "kg/h": quantity("kg/h"),
  N: quantity("N"),
  kg: quantity("kg"),
  "": quantity(""),
  "%": percent,
  "h:mm": span,
};

function linesOf(group: NumberGroup): SheetLine[] {
  const { name, numbers } = RULE_NUMBERS[group];
  return Object.entries<RuleNumber>(numbers).map(([number, { words, written: unit }], index): SheetLine => {
    const value: Field<Plan> = {
      label: `${name}: ${words}`,
      path: `rules.${group}.${number}`,
      entry: ENTRIES[unit],
      unit,
      width: 9,
    };
    const level: Field<Plan> = {
      label: `${name}: what breaking it is`,
      path: `rules.${group}.level`,
      entry: standing,
      width: 10,
    };
    const source: Field<Plan> = {
      label: `${name}: where the number comes from`,
      path: `rules.${group}.source`,
      entry: longText,
      width: 46,
    };
    return {
      name: lineName(group, number),
      fields: index === 0 ? [value, level, source] : [value, null, null],
    };
  });
}

/** What the line of a number is called. */
function lineName(group: NumberGroup, number: string): string {
  const { name, numbers } = RULE_NUMBERS[group];
  const { words, written } = (numbers as Readonly<Record<string, RuleNumber>>)[number]!;
  return `${name}: ${words}${written === "" ? "" : `, ${written}`}`;
}

/** What the rules that are held to each number leave to spare, by line. */
function sparesByLine(plan: Plan, verdict: Verdict): ReadonlyMap<string, Beside> {
  return new Map(
    keysOf(RULE_NUMBERS).flatMap((group) =>
      Object.keys(RULE_NUMBERS[group].numbers).flatMap((number) => {
        const words = spareWords(plan, verdict, rulesLimitedBy(group, number));
        return words ? [[lineName(group, number), words] as const] : [];
      }),
    ),
  );
}

export const rulesSheet = sheetTable({
  id: "rules",
  title: "Flight rules",
  intro:
    "A rule that is a warning makes no breach, but for what physics forbids, and the packer does not bind itself to it.",
  beside: { label: "Least to spare on this day", of: sparesByLine },
  columns: [
    { label: "Value", unit: "", width: 9, group: "", align: "end" },
    { label: "Breaking it is a", unit: "", width: 10, group: "", align: "start" },
    { label: "Where the number comes from", unit: "", width: 32, group: "", align: "start" },
  ],
  lines: [
    ...keysOf(RULE_NUMBERS).flatMap(linesOf),
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
