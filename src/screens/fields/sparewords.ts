import type { RuleSpare, Subject, Verdict } from "../../answers/index.ts";
import { isEmergencyGiven, isSuitGiven, type Plan } from "../../plan/index.ts";
import { FLIGHT_RULES, type RuleId } from "../../rules/index.ts";
import {
  crewName,
  evaName,
  heat,
  lasting,
  listed,
  mass,
  metres,
  nameIn,
  percent,
  type Side,
  taskName,
} from "../../words/index.ts";
import { orAssumed } from "../words.ts";
import type { Beside } from "./table.ts";

/** What flight rules leave to spare on the day in hand, in words: rounded down, what is short rounded up. */

const AMOUNT: Readonly<Record<RuleSpare["unit"], (value: number, side: Side) => string>> = {
  s: lasting,
  m: metres,
  kg: mass,
  kJ: heat,
  share: percent,
};

/** The least that these rules leave to spare; null where the judge says nothing of them. */
export function spareWords(plan: Plan, verdict: Verdict, rules: readonly RuleId[]): Beside | null {
  const spares = verdict.spares.filter(({ rule }) => rules.includes(rule));
  const unknown = spares.find(({ spare }) => spare === "unknown");
  if (unknown) return { text: `not known for ${where(plan, unknown.subjects)}`, state: "unknown" };
  const least = spares.reduce<RuleSpare | null>(
    (low, one) => (one.spare !== "untested" && (low === null || one.spare < low.spare) ? one : low),
    null,
  );
  if (least === null || typeof least.spare === "string")
    return spares.length > 0
      ? { text: "not binding: nothing on this day is tested by it", state: "idle" }
      : null;
  const assumed = isSpareAssumed(plan, verdict, rules);
  const found = verdict.findings.filter(({ rule }) => rules.includes(rule));
  const state = found.some(({ level }) => level === "breach")
    ? "breach"
    : assumed
      ? "unknown"
      : found.length > 0 || least.spare < 0
        ? "tight"
        : "fine";
  const amount =
    least.spare < 0
      ? `short by ${AMOUNT[least.unit](-least.spare, "up")}`
      : AMOUNT[least.unit](least.spare, "down");
  const which = rules.length > 1 ? `${FLIGHT_RULES[least.rule].words}: ` : "";
  const at = where(plan, least.subjects);
  return { text: `${which}${orAssumed(amount, assumed)}${at === "" ? "" : `, ${at}`}`, state };
}

/** Rules that are about what a suit holds. */
const STOCK_RULES: readonly RuleId[] = [
  "oxygen-reserve",
  "co2-reserve",
  "water-reserve",
  "battery-reserve",
  "walk-back-consumables",
];

/** Whether what a suit holds, of which one of the rules speaks, is nobody's on any outing. */
function isSpareAssumed(plan: Plan, { outings }: Verdict, rules: readonly RuleId[]): boolean {
  const ofStocks = STOCK_RULES.some((one) => rules.includes(one));
  return outings.some(
    (one) =>
      (ofStocks && !isSuitGiven(plan, one)) ||
      (rules.includes("walk-back-emergency") && !isEmergencyGiven(plan, one)),
  );
}

/** Where that is: who on which EVA, or which task or suit. */
function where(plan: Plan, subjects: readonly Subject[]): string {
  const of = (kind: Subject["kind"]): readonly string[] =>
    subjects.filter((one) => one.kind === kind).map(({ id }) => id);
  const who = [
    ...of("task").map((id) => taskName(plan, id)),
    ...of("crew").map((id) => crewName(plan, id)),
    ...of("suit").map((id) => nameIn(plan.suits, id)),
  ];
  const evas = of("eva").map((id) => evaName(plan, id));
  return evas.length === 0 ? listed(who) : `${listed(who)} on ${listed(evas)}`;
}
