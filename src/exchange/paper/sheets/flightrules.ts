import { ruleSource, type Suit } from "../../../plan/index.ts";
import { FLIGHT_RULES, givenNumbers, RULE_IDS, type RuleId, type RuleNumber } from "../../../rules/index.ts";
import {
  aboutWords,
  clock,
  digits,
  unlessToGive,
  lasting,
  mass,
  metres,
  minutes,
  percent,
  signoffWords,
  stock,
} from "../../../words/index.ts";
import { nameOf } from "../crewday.ts";
import type { Body, Row, Section } from "./body.ts";
import type { SheetGiven } from "./given.ts";

/** The flight rules that the plan is judged by: value, where it comes from, who decides. */

export interface RuleRow {
  readonly rule: RuleId;
  readonly words: string;
  readonly value: string;
  /** What breaking it counts as. */
  readonly counts: string;
  readonly source: string;
  readonly owner: string;
}

/** Every rule in the order of reading. */
export function ruleRows({ plan }: Pick<SheetGiven, "plan">): RuleRow[] {
  return RULE_IDS.map((rule): RuleRow => {
    const { words, decides, numbers } = FLIGHT_RULES[rule];
    const given = numbers ? givenNumbers(plan, rule) : [];
    const standing = numbers ? plan.rules[numbers.group] : null;
    return {
      rule,
      words,
      value:
        given.map((one) => `${one.words} ${numberWords(one, one.value)}`).join("; ") ||
        "said by tasks, links, EVAs and site",
      counts: standing?.level ?? (rule === "must-do" || rule === "group-least" ? "open" : "breach"),
      source: numbers ? ruleSource(plan, numbers.group) : "the plan",
      owner: decides ?? "the planner",
    };
  });
}

/** A number of a rule as people write it, as it stands. */
function numberWords({ written }: Pick<RuleNumber, "written">, value: number): string {
  switch (written) {
    case "m":
      return metres(value, "given");
    case "kg":
      return mass(value, "given");
    case "%":
      return percent(value, "given");
    case "h:mm":
      return lasting(value, "given");
    case "°":
      return `${digits(value)}°`;
    case "":
      return digits(value);
    default:
      return `${digits(value)} ${written}`;
  }
}

export function flightRulesBody(given: SheetGiven): Body {
  return {
    title: "Flight rules",
    wide: false,
    under: [
      "What this plan was judged by. A rule whose source is a default or an assumption has to be set by its owner before anybody relies on it.",
    ],
    key: [
      "Values as the plan has them. breach: breaking it is a breach. warning: it is told and no more; running out of a stock is a breach all the same. open: told while it is not done. ?: nobody has given it.",
    ],
    sections: [
      {
        kind: "table",
        none: "",
        columns: [
          { head: "RULE", grow: 1.1, bold: true },
          { head: "VALUE", grow: 1.7 },
          { head: "COUNTS AS" },
          { head: "SOURCE", grow: 1.8 },
          { head: "OWNER", grow: 1 },
        ],
        rows: ruleRows(given).map(({ words, value, counts, source, owner }): Row => ({
          cells: [words, value, counts, source, owner].map((text) => ({ text })),
        })),
      },
      suitTable(given),
      evaTable(given),
      ...signedTable(given),
    ],
  };
}

/** Who has signed which rules, and which were changed since; nothing where nobody has. */
function signedTable({ plan }: SheetGiven): Section[] {
  const rows = plan.signoffs
    .filter(({ about }) => about.kind === "rule")
    .map((one): Row => ({
      cells: [{ text: aboutWords(plan, one.about) }, { text: signoffWords(plan, one) }],
    }));
  if (rows.length === 0) return [];
  return [
    {
      kind: "table",
      title: "Sign-offs, under names as they were typed",
      none: "",
      columns: [
        { head: "OF", grow: 1, bold: true },
        { head: "STATE", grow: 3 },
      ],
      rows,
    },
  ];
}

function suitTable({ plan }: SheetGiven): Section {
  const share = ({ reserve }: Suit): string[] =>
    [reserve.oxygen, reserve.co2, reserve.water, reserve.battery].map((value) => percent(value, "given"));
  return {
    kind: "table",
    title: "Suits: stock and reserve",
    none: "No suit.",
    columns: [
      { head: "SUIT", grow: 1 },
      ...["O2", "CO2", "WATER", "BATT"].flatMap((head) => [
        { head, group: "stock", align: "right" } as const,
      ]),
      ...["O2", "CO2", "WATER", "BATT"].map((head) => ({ head, group: "reserve", align: "right" }) as const),
      { head: "EMERGENCY O2", align: "right" },
    ],
    rows: plan.suits.map((suit): Row => ({
      cells: [
        nameOf(plan.suits, suit.id),
        unlessToGive(suit, "oxygenKg", stock(suit.oxygenKg, "kg", "down"), "?"),
        unlessToGive(suit, "co2Kg", stock(suit.co2Kg, "kg", "down"), "?"),
        unlessToGive(suit, "waterKg", stock(suit.waterKg, "kg", "down"), "?"),
        unlessToGive(suit, "batteryWh", stock(suit.batteryWh, "Wh", "down"), "?"),
        ...share(suit),
        unlessToGive(suit, "emergencyOxygenS", minutes(suit.emergencyOxygenS, "down"), "?"),
      ].map((text) => ({ text })),
    })),
  };
}

function evaTable({ plan }: SheetGiven): Section {
  return {
    kind: "table",
    title: "EVAs",
    none: "No EVA.",
    columns: [
      { head: "EVA", grow: 1 },
      { head: "CREW", grow: 1 },
      { head: "NOT BEFORE", align: "right" },
      { head: "NOT AFTER", align: "right" },
      { head: "LONGEST", align: "right" },
      { head: "EGRESS WORK", align: "right" },
      { head: "INGRESS WORK", align: "right" },
    ],
    rows: plan.evas.map((eva): Row => ({
      cells: [
        nameOf(plan.evas, eva.id),
        eva.crew.map((id) => nameOf(plan.crew, id)).join(" "),
        clock(eva.earliestEgressS, "up"),
        clock(eva.latestIngressS, "down"),
        minutes(eva.longestS, "down"),
        minutes(eva.egressWorkS, "up"),
        minutes(eva.ingressWorkS, "up"),
      ].map((text) => ({ text })),
    })),
  };
}
