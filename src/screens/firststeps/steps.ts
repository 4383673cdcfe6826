import type { ChancesReport, Verdict } from "../../answers/index.ts";
import { isEqual } from "../../kernel/index.ts";
import { given, type Plan, sharingSuits, stillToGive, suitsOf } from "../../plan/index.ts";
import { blankPlan } from "../../session/index.ts";
import { counted, lasting, listed, noSpreadWords, percent } from "../../words/index.ts";
import { chanceFigure, standingAgainst } from "../chancewords.ts";

/** The steps from an empty plan to a day on paper, each judged from the plan and its verdict alone. */

export type StepId = "where" | "crew" | "evas" | "requests" | "pack" | "findings" | "wish" | "paper";

export interface FirstStep {
  readonly id: StepId;
  /** The word on its button, and in full. */
  readonly name: string;
  readonly full: string;
  /** open: something is missing. begun: it goes on, with what the empty plan came with or with less than one would know. done: nothing is missing. */
  readonly state: "open" | "begun" | "done";
  /** What is missing, or what there is. */
  readonly sentence: string;
  /** The page of setup where it is done; null where it is done on another screen. */
  readonly page: string | null;
  /** The task that stands in its way, to be asked about. */
  readonly about?: string;
}

/** A task that a pack has left out, and why, in a sentence. */
export interface LeftOut {
  readonly task: string;
  readonly name: string;
  readonly reason: string;
}

type Judged = Pick<FirstStep, "state" | "sentence" | "about"> & { readonly page?: string };

const open = (sentence: string): Judged => ({ state: "open", sentence });
const begun = (sentence: string, page?: string): Judged => ({
  state: "begun",
  sentence,
  ...(page ? { page } : {}),
});
const done = (sentence: string): Judged => ({ state: "done", sentence });

/** What the empty plan comes with, the same at any time but for the touchdown. */
const BLANK = blankPlan(0);

/**
 * All steps in the order in which they are taken. `left` is what a pack has left out that should be on the day; null
 * when it is not known or not so. `chances` are those of the day; null while they are not known. `sunDeg` is the sun's elevation at the site; null where it is not known.
 */
export function firstSteps(
  plan: Plan,
  verdict: Verdict,
  left: LeftOut | null = null,
  sunDeg: (atS: number) => number | null = () => null,
  chances: ChancesReport | null = null,
): readonly FirstStep[] {
  const wish = wishOf(verdict, chances);
  const step = (id: StepId, name: string, full: string, page: string | null, judged: Judged): FirstStep => ({
    id,
    name,
    full,
    page,
    ...judged,
  });
  return [
    step("where", "Where", "Where and when", "site", whereOf(plan)),
    step("crew", "Crew", "Crew and suits", "crew", crewOf(plan)),
    step("evas", "EVAs", "EVAs", "evas", evasOf(plan, sunDeg)),
    step("requests", "Requests", "Requests", "tasks", requestsOf(plan)),
    step("pack", "Pack", "Pack the day", null, packOf(plan, verdict, left)),
    step("findings", "Findings", "Read the findings", null, findingsOf(verdict)),
    step("wish", "Wish", "Meet the wish", null, wish),
    step("paper", "Paper", "Print", null, paperOf(plan, verdict, wish)),
  ];
}

/** The first step at which something is missing; the last one where nothing is. */
export function nextStep(steps: readonly FirstStep[]): FirstStep {
  return steps.find((one) => one.state === "open") ?? steps.at(-1)!;
}

/**
 * The step to lead to. While there is no request yet, that is also one that works with what the empty plan came with,
 * until what is asked there (`stepKey`) is among what was `gone` to: whoever begins is shown all once and held up by none.
 */
export function leadingStep(
  steps: readonly FirstStep[],
  fresh: boolean,
  gone: ReadonlySet<string>,
): FirstStep {
  const begun = steps.find((one) => one.state === "begun" && !gone.has(stepKey(one)));
  const next = nextStep(steps);
  return fresh && begun && steps.indexOf(begun) < steps.indexOf(next) ? begun : next;
}

/** What is asked at a step, told apart from other steps and from what else is asked at the same one. */
export function stepKey({ id, page, state }: FirstStep): string {
  return `${id}/${page ?? ""}/${state}`;
}

function whereOf({ site, stay, title, tasks }: Plan): Judged {
  const places = site.places.filter((place) => place.kind !== "lander").length;
  if (places === 0 && tasks.length === 0)
    return open("There is no place to work at yet: add a station or two.");
  if (places === 0) return begun("All work is at the lander: there is no other place yet.");
  if (site.toGive !== undefined) {
    const fields = listed(site.toGive.map((field) => (field === "latDeg" ? "latitude" : "longitude")));
    const them = site.toGive.length === 1 ? `the ${fields}` : fields;
    return begun(`Nobody has given ${them}: where sun and Earth stand is unknown until then.`);
  }
  if (stay.toGive !== undefined || title === BLANK.title)
    return begun("Title, touchdown and length of stay are still those of the empty plan.", "stay");
  return done(`${counted(places, "place")} to work at.`);
}

function crewOf(plan: Plan): Judged {
  const { crew, suits, evas } = plan;
  if (crew.length === 0) return open("Nobody is there yet: add crew, or begin with a set.");
  const worn = suits.filter((suit) => crew.some(({ id }) => suitsOf(plan, id).includes(suit)));
  const bare = worn.find(
    (suit) => Math.min(suit.oxygenKg, suit.co2Kg, suit.waterKg, suit.batteryWh, suit.emergencyOxygenS) === 0,
  );
  if (bare) return open(`${bare.name} lacks oxygen, CO2 capacity, water, battery or emergency oxygen.`);
  for (const eva of evas) {
    const sharers = sharingSuits(plan, eva).map(({ name }) => name);
    if (sharers.length > 0)
      return begun(`${sharers.join(" and ")} wear the same suit on ${eva.name}: give each their own.`);
  }
  const asBegun = worn.every((suit) => BLANK.suits.some((one) => isEqual(stocksOf(suit), stocksOf(one))));
  const who = `${counted(crew.length, "crew member")} in ${counted(worn.length, "suit")}`;
  const left = [...crew, ...worn].reduce((sum, { toGive = [] }) => sum + toGive.length, 0);
  if (left > 0) return begun(`${who}; ${counted(left, "value is", "values are")} still to be given.`);
  return asBegun ? begun(`${who} with round numbers to begin with: put in those of yours.`) : done(`${who}.`);
}

function evasOf({ crew, evas, stay }: Plan, sunDeg: (atS: number) => number | null): Judged {
  if (evas.length === 0) return open("There is no EVA yet: nobody goes out.");
  for (const eva of evas) {
    const mostS = Math.min(eva.longestS, Math.min(eva.latestIngressS, stay.lengthS) - eva.earliestEgressS);
    if (mostS <= eva.egressWorkS + eva.ingressWorkS)
      return open(`${eva.name} leaves no time for work between egress and ingress.`);
  }
  const idle = crew.find((member) => !evas.some((eva) => eva.crew.includes(member.id)));
  if (idle) return begun(`${idle.name} goes out on no EVA.`);
  const most = [...new Set(evas.map((eva) => lasting(eva.longestS, "up")))].join(", ");
  const what = `${counted(evas.length, "EVA")} of at most ${most}`;
  return isEqual(evas, BLANK.evas)
    ? begun(`${what}, as the empty plan has it: set its bounds.`)
    : done(`${what}${night(evas, sunDeg)}.`);
}

/** Said of the first EVA that may begin in the night: nothing that is missing, but seldom what was meant. */
function night(evas: Plan["evas"], sunDeg: (atS: number) => number | null): string {
  const dark = evas.find((eva) => (sunDeg(eva.earliestEgressS) ?? 0) < 0);
  return dark ? `; the sun is down at the earliest egress of ${dark.name}` : "";
}

function requestsOf({ tasks, evas }: Plan): Judged {
  if (tasks.length === 0) return open("There is no request yet: add tasks, from a template or blank.");
  const largest = Math.max(0, ...evas.map((eva) => eva.crew.length));
  const crowd = tasks.find((task) => task.crew.count > largest);
  if (crowd) return open(`${crowd.name} asks for ${crowd.crew.count} crew members, and no EVA has so many.`);
  const worthless = tasks.filter((task) => task.worth === 0 && !task.must);
  if (worthless.length === tasks.length)
    return open("All requests are worth nothing: give them points, or make some must-do.");
  if (worthless.length > 0)
    return begun(
      `${counted(worthless.length, "request")} worth nothing and not must-do: packing leaves such out.`,
    );
  const must = tasks.filter((task) => task.must).length;
  return done(`${counted(tasks.length, "request")}, ${must === 0 ? "none" : must} of them must-do.`);
}

function packOf({ tasks }: Plan, verdict: Verdict, left: LeftOut | null): Judged {
  if (tasks.length === 0) return open("There is nothing to pack yet: requests come first.");
  const about = left === null ? {} : { about: left.task };
  if (verdict.placed === 0)
    return {
      ...open(
        left === null
          ? "Nothing is on the day line yet: add what else is asked for, then press Pack."
          : `Packing placed nothing. ${left.name}: ${left.reason}`,
      ),
      ...about,
    };
  const { mustLeftOut } = verdict.score;
  if (mustLeftOut > 0) {
    if (left === null) return open(`${counted(mustLeftOut, "must-do task")} left out: press Pack.`);
    const others = mustLeftOut > 1 ? ` and ${mustLeftOut - 1} more must-do` : "";
    return { ...open(`Left out: ${left.name}${others}. ${left.reason}`), ...about };
  }
  return done(`${verdict.placed} of ${counted(tasks.length, "task")} on the day line.`);
}

function findingsOf(verdict: Verdict): Judged {
  if (verdict.placed === 0) return open("Findings come with the day: pack first.");
  const { breaches } = verdict.score;
  if (breaches > 0) return open(`${counted(breaches, "breach", "breaches")}: read them, then mend or move.`);
  const tight = verdict.findings.filter((finding) => finding.level === "tight").length;
  return done(
    tight > 0
      ? `No rule is broken; ${counted(tight, "is", "are")} kept by little: read them.`
      : "No rule is broken.",
  );
}

/** How the chances stand against what the plan wants of them: asked before paper is. */
function wishOf({ placed }: Verdict, chances: ChancesReport | null): Judged {
  if (placed === 0) return open("Chances come with the day: pack first.");
  if (!chances) return open("The chances of the day are not known yet.");
  const { home, must, wish, withoutSpread, tasks } = chances;
  const words = `Everybody home on ${chanceFigure(home)}, every must-do done on ${chanceFigure(must)} of simulated days`;
  const standings = [standingAgainst(home, wish.home), standingAgainst(must, wish.must)];
  const wanted = `${percent(wish.home, "given")} and ${percent(wish.must, "given")}`;
  if (standings.includes("below"))
    return open(`${words}; wished: ${wanted}. Look at the odds and the curve.`);
  if (standings.some((one) => one !== "meets")) return begun(`${words}: may be below the wish of ${wanted}.`);
  const unspread = noSpreadWords(withoutSpread.length, tasks.length);
  if (unspread !== null) return begun(`${words}. ${unspread}`);
  return done(`${words}: the wish of ${wanted} is met.`);
}

function paperOf(plan: Plan, { placed, score }: Verdict, wish: Judged): Judged {
  if (placed === 0 || score.breaches > 0 || score.mustLeftOut > 0)
    return open("Paper is worth printing once no rule is broken and every must-do is placed.");
  if (wish.state === "open") return open("Paper is worth printing once the chances meet the wish.");
  const kept = "No rule is broken at likely durations, and the chances are seen";
  const left = stillToGive(plan).length;
  if (left === 0) return done(`${kept}: print the cuff checklists.`);
  const they = counted(left, "value that nobody has given", "values that nobody has given");
  return begun(`${kept}; but all of it rests on ${they}: paper is good for looking at, not for going out.`);
}

/** A suit without what tells it from another. */
function stocksOf(suit: Plan["suits"][number]): object {
  return { ...given(suit, suit.toGive ?? []), id: "", name: "" };
}
