import type { CauseKind, WhyCause } from "../../../answers/index.ts";
import { type Eva, type Plan, sharingSuits, suitIdOn, suitsOf, type Task } from "../../../plan/index.ts";
import { carriedKg, reserves, stocks } from "../../../physics/index.ts";
import {
  CONSUMABLE_WORDS,
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

/** So many windows of a task are named. */
const WINDOWS_NAMED = 3;

/** Says `cause`; `where` says on which EVA and by whom a task is placed. */
export function sayCause(problem: Problem, cause: Cause, where: Where): WhyCause {
  const { subject, sentence } = SAYERS[cause.kind](problem.plan, cause.about, where);
  return { key: keyOf(cause), kind: cause.kind, subject, sentence, owner: ownerOf(cause.kind) };
}

/** On which EVA and by whom a task is placed, in words. */
export type Where = (task: string) => string;

interface Sentence {
  readonly subject: string | null;
  readonly sentence: string;
}

/** Says a cause of one kind by its number. */
type Sayer = (plan: Plan, about: number, where: Where) => Sentence;

/** Of a member of one of the plan's lists. */
function of<One extends { readonly id: string }>(
  list: (plan: Plan) => readonly One[],
  say: (one: One, plan: Plan, where: Where) => string,
): Sayer {
  return (plan, about, where) => {
    const one = list(plan)[about]!;
    return { subject: one.id, sentence: say(one, plan, where) };
  };
}

function ofTask(say: (task: Task, plan: Plan, where: Where) => string): Sayer {
  return of(({ tasks }) => tasks, say);
}

function ofEva(say: (eva: Eva, plan: Plan) => string): Sayer {
  return of(({ evas }) => evas, say);
}

/** Of the whole stay. */
function whole(say: (plan: Plan) => string): Sayer {
  return (plan) => ({ subject: null, sentence: say(plan) });
}

const SAYERS: Readonly<Record<CauseKind, Sayer>> = {
  placement: ofTask(
    ({ id, name, duration }, _, where) => `${name} stays${where(id)} (${lasting(duration.likelyS, "up")}).`,
  ),
  pin: ofTask((task, plan) => `${task.name} is pinned${pinWords(plan, task)}.`),
  window: ofTask(({ name, windows }) => `${name} lies inside ${windowWords(windows)}.`),
  pet: ofTask((task) => `${task.name} lies ${petWords(task.pet!)}, counted from egress.`),
  sun: ofTask(
    ({ name, sun }) => `${name} needs the sun between ${sun!.leastDeg} and ${sun!.greatestDeg} degrees.`,
  ),
  light: ofTask(({ name, light }) => `${name} wants ${light === "lit" ? "sunlit" : "shaded"} ground.`),
  "sun-angle": ofTask(
    ({ name, sunAngle }) =>
      `${name} wants the sun ${sunAngle!.leastDeg} to ${sunAngle!.greatestDeg} degrees from where the crew faces.`,
  ),
  relay: ofTask(({ name }) => `${name} lies inside one relay pass.`),
  crew: ofTask((task, plan) => `${task.name} asks for ${crewWords(plan, task)}.`),
  blast: ofTask(
    ({ name }, { rules }) =>
      `${name} leaves an instrument, at least ${metres(rules.blast.leastM, "up")} from the lander.`,
  ),
  carry: ofTask(
    ({ name, massOutKg }, { rules, body }) =>
      `${name} carries out ${mass(massOutKg, "given")}; a crew member may carry ${mass(carriedKg(rules.carry.greatestN, body.gravityMs2, 1), "down")} here.`,
  ),
  link: of(
    ({ links }) => links,
    (link, plan) => linkWords(plan, link),
  ),
  group: of(
    ({ groups }) => groups,
    ({ name, most }) => `Of ${name} at most ${most} may be done.`,
  ),
  hot: of(
    ({ site }) => site.keepOuts,
    ({ name }) => `Nobody works in ${name} once it is hot.`,
  ),
  equipment: of(({ equipment }) => equipment, stockWords),
  container: of(
    ({ containers }) => containers,
    ({ name, capacityKg, volumeL }) =>
      `${name} takes ${mass(capacityKg, "given")} and ${volume(volumeL, "given")}.`,
  ),
  "return-mass": whole(
    ({ rules }) => `At most ${mass(rules.returnMass.greatestKg, "given")} of samples and containers go back.`,
  ),
  consumable: consumableWords,
  egress: ofEva(({ name, earliestEgressS }) => `Egress of ${name} is not before ${met(earliestEgressS)}.`),
  ingress: ofEva(({ name, latestIngressS }) => `Ingress of ${name} is complete by ${met(latestIngressS)}.`),
  longest: ofEva(({ name, longestS }) => `${name} lasts at most ${lasting(longestS, "down")}.`),
  block: of(
    ({ stay }) => stay.blocks,
    ({ name, startS, endS }) => `${name} is from ${met(startS)} to ${met(endS)}.`,
  ),
  liftoff: whole(({ stay }) => `Liftoff is at ${met(stay.lengthS)}.`),
  recharge: whole(
    ({ rules }) =>
      `From ingress to the next egress of the same crew member or in the same suit: ${lasting(rules.recharge.leastS, "up")}.`,
  ),
  suit: ofEva((eva, plan) => suitWords(plan, eva)),
  "walking-physics": whole((plan) =>
    tooFast(plan) ? paceWords(plan) : "No task is shorter than what is walked in it takes as planned.",
  ),
  "walk-back-emergency": whole(() => "The walk back on emergency oxygen is possible at every moment."),
  "walk-back-consumables": whole(({ rules }) =>
    rules.walkback.level === "breach"
      ? "What the suits hold above the reserve carries the walk back at every moment."
      : "What the suits hold carries the walk back at every moment.",
  ),
  separation: whole(
    ({ rules }) =>
      `Crew members of one EVA are never more than ${metres(rules.separation.greatestM, "down")} apart.`,
  ),
  work: whole(
    ({ rules }) =>
      `After ${lasting(rules.work.longestS, "down")} of work a rest of ${lasting(rules.work.restS, "up")} is due.`,
  ),
  heat: whole(
    ({ rules }) =>
      `Nobody stores more than ${heat(rules.heat.mostKjKg, "given")} of heat for each kg of body.`,
  ),
  drinking: whole(
    ({ rules }) => `Drinking water lasts at ${mass(rules.drinking.kgH, "given")} for each hour outside.`,
  ),
  "eva-distance": whole(
    ({ rules }) => `Nobody walks more than ${metres(rules.distance.evaM, "down")} in one EVA.`,
  ),
  "stay-distance": whole(
    ({ rules }) => `Nobody walks more than ${metres(rules.distance.stayM, "down")} in the stay.`,
  ),
  duty: whole(
    ({ rules }) => `Nobody is outside for more than ${lasting(rules.duty.stayS, "down")} in the stay.`,
  ),
  stores: whole(() => "The lander's stores recharge the suits between EVAs."),
};

function consumableWords(plan: Plan, about: number): Sentence {
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

/** The first few windows, and whether there are more. */
function windowWords(windows: Task["windows"]): string {
  const first = windows.slice(0, WINDOWS_NAMED).map((one) => `${met(one.startS)} to ${met(one.endS)}`);
  return `${listed(first)}${windows.length > WINDOWS_NAMED ? " or a later window" : ""}`;
}

function pinWords(plan: Plan, { pin }: Task): string {
  const eva = plan.evas.find((one) => one.id === pin?.eva);
  return [
    pin?.startS === undefined ? "" : ` to ${met(pin.startS)}`,
    eva ? ` to ${eva.name}` : "",
    pin?.crew ? ` to ${crewNames(plan, pin.crew)}` : "",
  ].join("");
}

function crewWords(plan: Plan, { crew }: Task): string {
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
