import type { FromAnswer, Subject } from "../../../answers/index.ts";
import { check } from "../../../check/index.ts";
import type { Plan, Schedule } from "../../../plan/index.ts";
import { FLIGHT_RULES, type RuleId } from "../../../rules/index.ts";
import { fromRule } from "../rule.ts";
import * as outings from "./outings.ts";
import { paceBehind } from "./pace.ts";
import * as places from "./places.ts";
import * as suits from "./suits.ts";
import * as tasks from "./tasks.ts";
import type { FindingOfDay, Behind } from "./terms.ts";

/** From what need and have of each rule's findings come. */
const BEHIND: Readonly<Record<RuleId, (day: FindingOfDay) => Behind>> = {
  "oxygen-reserve": suits.reserveBehind("oxygen"),
  "co2-reserve": suits.reserveBehind("co2"),
  "water-reserve": suits.reserveBehind("water"),
  "battery-reserve": suits.reserveBehind("battery"),
  "heat-storage": suits.heatBehind,
  "drinking-water": suits.drinkingBehind,
  "walk-back-emergency": suits.emergencyBehind,
  "walk-back-consumables": suits.stocksBehind,
  "walking-physics": paceBehind,
  "eva-distance": outings.walkedBehind,
  "stay-distance": outings.walkedBehind,
  "crew-separation": places.separationBehind,
  carry: places.carryBehind,
  "return-mass": places.returnMassBehind,
  container: places.containerBehind,
  equipment: tasks.equipmentBehind,
  "time-window": tasks.windowBehind,
  "egress-window": tasks.egressWindowBehind,
  sun: tasks.skyBehind("sun", "sun elevation as asked"),
  light: tasks.skyBehind("light", "light as asked"),
  "sun-angle": tasks.skyBehind("sunAngle", "sun angle as asked"),
  relay: tasks.skyBehind("relay", "relay pass"),
  "link-lag": tasks.lagBehind,
  "link-needs": tasks.linkedBehind,
  "link-crew": tasks.linkedBehind,
  "link-eva": tasks.linkedBehind,
  "link-apart": places.linkApartBehind,
  "task-crew": tasks.crewBehind,
  "one-at-a-time": tasks.gapBehind,
  "no-way": places.wayBehind,
  "blast-keep-out": places.blastBehind,
  "hot-keep-out": places.hotBehind,
  "work-and-rest": outings.workBehind,
  "eva-bounds": outings.boundsBehind,
  "stay-blocks": outings.blocksBehind,
  duty: outings.dutyBehind,
  recharge: outings.rechargeBehind,
  "suit-worn-once": outings.wornBehind,
  "lander-stores": outings.storesBehind,
  pin: tasks.pinBehind,
  "group-most": tasks.groupBehind,
  "group-least": tasks.groupBehind,
  "must-do": tasks.openBehind,
};

/** From what a finding comes: need and have with the sums behind them. Null where the schedule has no such finding any more. */
export function fromFinding(
  plan: Plan,
  schedule: Schedule,
  rule: RuleId,
  subjects: readonly Subject[],
): FromAnswer | null {
  const verdict = check(plan, schedule);
  const finding = verdict.findings.find(
    (one) =>
      one.rule === rule &&
      one.subjects.length === subjects.length &&
      one.subjects.every(({ kind, id }, k) => subjects[k]!.kind === kind && subjects[k]!.id === id),
  );
  if (!finding) return null;
  const { need, have, more = [], sums } = BEHIND[rule]({ plan, schedule, verdict, finding });
  const figures = [...(need ? [need] : []), ...(have ? [have] : []), ...more];
  const says = `${finding.sentence} The rule: ${FLIGHT_RULES[rule].sentence.replaceAll("`", "")}`;
  // Without anything of its own to show, the numbers of the rule.
  if (figures.length === 0 && !sums) return { ...fromRule(plan, rule), says };
  return { says, figures, sums: sums ?? null };
}
