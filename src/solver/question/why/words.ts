import type { WhyCause } from "../../../answers/index.ts";
import { type Plan, sharingSuits, suitIdOn, suitsOf, type Task } from "../../../plan/index.ts";
import { carriedKg, reserves, stocks } from "../../../physics/index.ts";
import {
  crewName,
  heat,
  lasting,
  linkWords,
  listed,
  mass,
  met,
  metres,
  pet,
  volume,
} from "../../../words/index.ts";
import { tooFast } from "../../problem/choices.ts";
import type { Problem } from "../../problem/problem.ts";
import { paceWords } from "../../problem/words.ts";
import { type Cause, consumableOf, keyOf, ownerOf } from "./cause.ts";

/** What a consumable is called in a sentence. */
export const CONSUMABLE_WORDS = {
  oxygen: "oxygen",
  co2: "CO2 capacity",
  water: "cooling water",
  battery: "battery",
} as const;

/** Says `cause`; `where` says on which EVA and by whom a task is placed. */
export function sayCause(problem: Problem, cause: Cause, where: (task: string) => string): WhyCause {
  const { subject, sentence } = said(problem, cause, where);
  return { key: keyOf(cause), kind: cause.kind, subject, sentence, owner: ownerOf(cause.kind) };
}

function said(
  problem: Problem,
  { kind, about }: Cause,
  where: (task: string) => string,
): { subject: string | null; sentence: string } {
  const { plan } = problem;
  const { rules } = plan;
  const task = plan.tasks[about];
  const eva = plan.evas[about];
  const whole = (sentence: string) => ({ subject: null, sentence });
  const ofTask = (sentence: string) => ({ subject: task!.id, sentence });
  const ofEva = (sentence: string) => ({ subject: eva!.id, sentence });
  switch (kind) {
    case "placement":
      return ofTask(`${task!.name} stays${where(task!.id)} (${lasting(task!.duration.likelyS, "up")}).`);
    case "pin":
      return ofTask(`${task!.name} is pinned${pinWords(plan, about)}.`);
    case "window":
      return ofTask(
        `${task!.name} lies inside ${listed(task!.windows.slice(0, 3).map((one) => `${met(one.startS)} to ${met(one.endS)}`))}${task!.windows.length > 3 ? " or a later window" : ""}.`,
      );
    case "pet":
      return ofTask(`${task!.name} lies ${petWords(task!.pet!)}, counted from egress.`);
    case "sun":
      return ofTask(
        `${task!.name} needs the sun between ${task!.sun!.leastDeg} and ${task!.sun!.greatestDeg} degrees.`,
      );
    case "light":
      return ofTask(`${task!.name} wants ${task!.light === "lit" ? "sunlit" : "shaded"} ground.`);
    case "sun-angle":
      return ofTask(
        `${task!.name} wants the sun ${task!.sunAngle!.leastDeg} to ${task!.sunAngle!.greatestDeg} degrees from where the crew faces.`,
      );
    case "relay":
      return ofTask(`${task!.name} lies inside one relay pass.`);
    case "crew":
      return ofTask(`${task!.name} asks for ${crewWords(plan, about)}.`);
    case "blast":
      return ofTask(
        `${task!.name} leaves an instrument, at least ${metres(rules.blast.leastM, "up")} from the lander.`,
      );
    case "carry":
      return ofTask(
        `${task!.name} carries out ${mass(task!.massOutKg, "given")}; a crew member may carry ${mass(carriedKg(rules.carry.greatestN, plan.body.gravityMs2, 1), "down")} here.`,
      );
    case "link":
      return { subject: plan.links[about]!.id, sentence: linkWords(plan, plan.links[about]!) };
    case "group": {
      const { id, name, most } = plan.groups[about]!;
      return { subject: id, sentence: `Of ${name} at most ${most} may be done.` };
    }
    case "hot":
      return {
        subject: plan.site.keepOuts[about]!.id,
        sentence: `Nobody works in ${plan.site.keepOuts[about]!.name} once it is hot.`,
      };
    case "equipment":
      return {
        subject: plan.equipment[about]!.id,
        sentence: stockWords(plan.equipment[about]!),
      };
    case "container": {
      const one = plan.containers[about]!;
      return {
        subject: one.id,
        sentence: `${one.name} takes ${mass(one.capacityKg, "given")} and ${volume(one.volumeL, "given")}.`,
      };
    }
    case "return-mass":
      return whole(
        `At most ${mass(rules.returnMass.greatestKg, "given")} of samples and containers go back.`,
      );
    case "consumable":
      return consumableWords(plan, about);
    case "egress":
      return ofEva(`Egress of ${eva!.name} is not before ${met(eva!.earliestEgressS)}.`);
    case "ingress":
      return ofEva(`Ingress of ${eva!.name} is complete by ${met(eva!.latestIngressS)}.`);
    case "longest":
      return ofEva(`${eva!.name} lasts at most ${lasting(eva!.longestS, "down")}.`);
    case "block": {
      const block = plan.stay.blocks[about]!;
      return {
        subject: block.id,
        sentence: `${block.name} is from ${met(block.startS)} to ${met(block.endS)}.`,
      };
    }
    case "liftoff":
      return whole(`Liftoff is at ${met(plan.stay.lengthS)}.`);
    case "recharge":
      return whole(
        `From ingress to the next egress of the same crew member or in the same suit: ${lasting(rules.recharge.leastS, "up")}.`,
      );
    case "suit":
      return ofEva(suitWords(plan, eva!));
    case "walking-physics":
      return whole(
        tooFast(plan) ? paceWords(plan) : "No task is shorter than what is walked in it takes as planned.",
      );
    case "walk-back-emergency":
      return whole("The walk back on emergency oxygen is possible at every moment.");
    case "walk-back-consumables":
      return whole(
        rules.walkback.level === "breach"
          ? "What the suits hold above the reserve carries the walk back at every moment."
          : "What the suits hold carries the walk back at every moment.",
      );
    case "separation":
      return whole(
        `Crew members of one EVA are never more than ${metres(rules.separation.greatestM, "down")} apart.`,
      );
    case "work":
      return whole(
        `After ${lasting(rules.work.longestS, "down")} of work a rest of ${lasting(rules.work.restS, "up")} is due.`,
      );
    case "heat":
      return whole(
        `Nobody stores more than ${heat(rules.heat.mostKjKg, "given")} of heat for each kg of body.`,
      );
    case "drinking":
      return whole(`Drinking water lasts at ${mass(rules.drinking.kgH, "given")} for each hour outside.`);
    case "eva-distance":
      return whole(`Nobody walks more than ${metres(rules.distance.evaM, "down")} in one EVA.`);
    case "stay-distance":
      return whole(`Nobody walks more than ${metres(rules.distance.stayM, "down")} in the stay.`);
    case "duty":
      return whole(`Nobody is outside for more than ${lasting(rules.duty.stayS, "down")} in the stay.`);
    case "stores":
      return whole("The lander's stores recharge the suits between EVAs.");
  }
}

function consumableWords(plan: Plan, about: number): { subject: string; sentence: string } {
  const { member, kind } = consumableOf(about);
  const who = plan.crew[member]!;
  const shares = suitsOf(plan, who.id).map((suit) => {
    const stock = stocks(suit);
    return Math.round((reserves(stock, suit.reserve)[kind] / Math.max(1, stock[kind])) * 1000) / 10;
  });
  const kept = [...new Set(shares)].map((share) => `${share} %`).join(" or ");
  if (plan.rules.reserve.level === "warning" && plan.rules.walkback.level === "warning")
    return {
      subject: who.id,
      sentence: `${who.name}'s ${CONSUMABLE_WORDS[kind]} does not run out before ingress.`,
    };
  return {
    subject: who.id,
    sentence: `${who.name}'s ${CONSUMABLE_WORDS[kind]} comes home with its reserve of ${kept}.`,
  };
}

/** A window from egress, in words that follow "lies". */
function petWords({ startS, endS }: NonNullable<Task["pet"]>): string {
  const from = pet(startS ?? 0);
  return endS === undefined ? `not before ${from}` : `inside ${from} to ${pet(endS)}`;
}

function pinWords(plan: Plan, a: number): string {
  const { pin } = plan.tasks[a]!;
  const eva = plan.evas.find((one) => one.id === pin?.eva);
  return [
    pin?.startS === undefined ? "" : ` to ${met(pin.startS)}`,
    eva ? ` to ${eva.name}` : "",
    pin?.crew ? ` to ${crewNames(plan, pin.crew)}` : "",
  ].join("");
}

function crewWords(plan: Plan, a: number): string {
  const { crew } = plan.tasks[a]!;
  return listed([
    ...(crew.named.length > 0 ? [crewNames(plan, crew.named)] : []),
    ...(crew.qualification === undefined ? [] : [`somebody qualified for ${crew.qualification}`]),
  ]);
}

function crewNames(plan: Plan, ids: readonly string[]): string {
  return listed(ids.map((id) => crewName(plan, id)));
}

/** How many there are of an equipment. */
function stockWords({ name, count }: Plan["equipment"][number]): string {
  if (count === 0) return `${name} is missing: there are 0.`;
  return `There ${count === 1 ? "is 1" : `are ${count}`} of ${name}.`;
}

/** Who cannot go out together, as they wear one suit. */
export function suitWords(plan: Plan, eva: Plan["evas"][number]): string {
  const who = sharingSuits(plan, eva);
  const worn = (member: { readonly id: string } | undefined): string | null =>
    member ? suitIdOn(plan, eva, member.id) : null;
  const suit = plan.suits.find((one) => one.id === worn(who[0]))!;
  const sharers = who.filter((member) => worn(member) === suit.id).map((member) => member.name);
  return `${sharers.join(" and ")} wear one suit, ${suit.name}: ${eva.name} cannot be flown.`;
}
