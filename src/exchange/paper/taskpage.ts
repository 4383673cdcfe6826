import type { Rest } from "../../answers/index.ts";
import { bagNumbers, isSuitGiven, type Plan, type Task, untoldBack } from "../../plan/index.ts";
import { clock, findingWords, inside, mass, minutes, noLaterThan, taskNumber } from "../../words/index.ts";
import { alongWords, bearingAlong, ledBy } from "./bearings.ts";
import { companyOf, type CrewEva, nameOf, restPlace, type Stop, taskName } from "./crewday.ts";
import { type Heading, type Leaf, LEFT, RIGHT, setLines } from "./cuff.ts";
import { fromShadowDeg } from "./dial.ts";
import { type Block, paginate } from "./flow.ts";
import {
  blankAfter,
  cautionForm,
  cautionForms,
  type Fact,
  factForms,
  restForm,
  roomy,
  type Setting,
} from "./forms.ts";
import type { Known } from "./known.ts";
import { lateStrip } from "./latestrip.ts";
import type { Mark } from "./page.ts";
import { partnerLines } from "./partner.ts";
import { remedyBlocks } from "./remedies.ts";
import {
  fitsHead,
  type Head,
  GAUGES,
  headRow,
  homeRow,
  type HomeWay,
  type Moment,
  nextRow,
  ROWS,
  timesRow,
  turnRow,
} from "./rows.ts";
import { NO_STEPS, stepBlocks } from "./steps.ts";
import { linesHeight, wrap } from "./type.ts";
import { waitWords } from "./waits.ts";
import { type WalkBack, walkBackWords } from "./walkback.ts";

/**
 * How steps are set, in the order of giving way: the first that takes the fewest pages. What fits in none goes on on the next page. Set close,
 * steps are still 1.3 em apart (25 to 33 % of the size between lines: Degani 1992, from memory) and boxes to tick stand apart.
 */
const SETTINGS: readonly Setting[] = [roomy(14), { sizePt: 14, gapMm: 0.5 }, { sizePt: 13.5, gapMm: 0.5 }];

/** Blocks by page in the first setting that takes the fewest pages. */
export function pagesOf(
  blocks: (setting: Setting) => readonly Block[],
  roomMm: number,
  lastMm: number,
): Block[][] {
  const ways = SETTINGS.map((setting) => paginate(blocks(setting), roomMm, lastMm));
  return ways.reduce((best, way) => (way.length < best.length ? way : best));
}

/**
 * One task: when to start, to be done and to leave, the way home and the gauges at which to take it, who is where, the steps, what
 * to do when late, and what comes next. What does not fit goes on on a page with the same rows on top.
 */
export function taskLeaves(known: Known, part: CrewEva, index: number, heading: Heading): Leaf[] {
  const stop = part.stops[index];
  if (!stop) return [];
  const { plan } = known;
  const head: Head = {
    number: taskNumber(plan, stop.task.id),
    name: taskName(stop.task),
    who: `${heading.crew} ${heading.eva}`,
    part: "",
  };
  const times = timesOf(part, index);
  const home = homeOf(known, part, stop);
  const mine = new Set(part.stops.map(({ task }) => task.id));
  const roomMm = ROWS.next - 0.4 - ROWS.body;
  const filled = MORE_LINES.map((moreLines) => {
    const late = known.late(part.eva.id, stop.task.id, stop.endS);
    const strip = lateStrip(plan, late, { crew: part.member.id, tasks: mine }, moreLines);
    const stripTop = ROWS.next - 0.6 - strip.height;
    const lastMm = stripTop - 0.2 - ROWS.body;
    const pages = pagesOf(
      (setting) => [...leading(known, part, stop, head, setting), ...working(known, part, stop, setting)],
      roomMm,
      lastMm,
    );
    return { strip, stripTop, lastMm, pages };
  });
  // Where there is room anyway a strip may be taller; nobody turns a page for it.
  const { strip, stripTop, lastMm, pages } = filled.reduce((best, one) =>
    one.pages.length < best.pages.length ? one : best,
  );
  return pages.map((blocks, k): Leaf => {
    const last = k === pages.length - 1;
    const which = pages.length === 1 ? "" : `part ${k + 1} of ${pages.length}`;
    return {
      heading,
      name: k === 0 ? taskName(stop.task) : `${taskName(stop.task)} (continued)`,
      edge: false,
      marks: [
        ...headRow({ ...head, part: which }),
        ...timesRow(times),
        ...homeRow(home),
        // What two pages share stands apart on both: boxes are ticked with a glove.
        ...drawn(pages.length > 1 ? spreadOut(blocks, last ? lastMm : roomMm) : blocks, ROWS.body),
        ...(last
          ? [...strip.draw(stripTop), ...nextRow(nextOf(known, part, index))]
          : turnRow(turnWords(pages.slice(k + 1)))),
      ],
    };
  });
}

/** Lines that a strip may take beyond its share, the most first. */
const MORE_LINES = [8, 4, 2, 0];

/** Room is left between two things that are read one after the other up to here, mm. */
const MOST_APART_MM = 2.5;

/** Steps, and what comes after them, with the room between them that they leave on their page; what is read together stays together. */
function spreadOut(blocks: readonly Block[], roomMm: number): Block[] {
  const first = blocks.findIndex(({ step }) => step !== undefined);
  const isBroken = (block: Block, k: number): boolean =>
    k >= first && block.keep !== true && k < blocks.length - 1;
  const spareMm = roomMm - blocks.reduce((sum, { height }) => sum + height, 0);
  const apartMm = Math.min(MOST_APART_MM, spareMm / blocks.filter(isBroken).length);
  return blocks.map((block, k) =>
    isBroken(block, k) && apartMm > 0 ? { ...block, height: block.height + apartMm } : block,
  );
}

/** Blocks one under the other from `top` on. */
export function drawn(blocks: readonly Block[], top: number): Mark[] {
  let y = top;
  return blocks.flatMap((block) => {
    const at = y;
    y += block.height;
    return block.draw(at);
  });
}

/** What is on the pages to come. */
export function turnWords(pages: readonly (readonly Block[])[], rest = ", late, next"): string {
  const numbers = pages.flat().flatMap(({ step }) => (step === undefined ? [] : [step]));
  if (numbers.length === 0) return `more${rest}`;
  const [from, to] = [Math.min(...numbers), Math.max(...numbers)];
  return `${from === to ? `step ${from}` : `steps ${from} to ${to}`}${rest}`;
}

/** START, DONE BY, LEAVE HERE BY: the last one is as the judge has tested it. */
function timesOf(part: CrewEva, index: number): [Moment, Moment, Moment] {
  const stop = part.stops[index];
  if (!stop)
    return [
      { label: "START", value: "" },
      { label: "DONE BY", value: "" },
      { label: "", value: "" },
    ];
  return [
    { label: "START", value: clock(stop.startS) },
    { label: "DONE BY", value: clock(stop.endS) },
    leaveMoment(part, index, stop),
  ];
}

function leaveMoment(part: CrewEva, index: number, stop: Stop): Moment {
  const follow = part.stops[index + 1];
  if (!follow) {
    const known = part.homewardS !== null;
    return part.homewardS === 0
      ? { label: "AT THE LANDER", value: "stay", heavy: true }
      : { label: "LEAVE HERE BY", value: known ? clock(stop.endS) : "unknown", heavy: true };
  }
  if (follow.wayS === 0) return { label: "NEXT HERE AT", value: clock(follow.startS), heavy: true };
  const { leave, wayS } = follow;
  if (leave === null || wayS === null) return { label: "LEAVE HERE BY", value: "unknown", heavy: true };
  return {
    label: leave.kind === "by" ? "LEAVE HERE BY" : "LEAVE AT ONCE",
    value: clock(leave.atS),
    heavy: true,
  };
}

/** The way home from the end that is farther, and what the gauges must show anywhere in the task. */
function homeOf(known: Known, part: CrewEva, stop: Stop): HomeWay {
  const { task, walkBack } = stop;
  const home = known.homeIf("task", part.eva.id, part.member.id, task.id);
  const place = farEnd(known, task);
  const way = known.wayHome(place);
  const bearing = bearingAlong(known.plan, way.through);
  const here = walkBack.kind === "known" && walkBack.seconds === 0;
  return {
    minutes: here ? "here" : walkBackWords(walkBack),
    bearing,
    shadowDeg: bearing === "" ? null : fromShadowDeg(Number.parseInt(bearing, 10), known.sunAt(stop.startS)),
    gauges: walkBack.kind === "known" ? (home?.leastPct ?? null) : null,
    why: whyNoGauges(known.plan, part, walkBack),
  };
}

/** Why no gauge says when to turn home, in words that hold no figure of their own. */
function whyNoGauges(plan: Plan, part: CrewEva, walkBack: WalkBack): string {
  if (walkBack.kind !== "known") return walkBackWords(walkBack);
  return isSuitGiven(plan, { eva: part.eva.id, crew: part.member.id }) ? "unknown" : "suit not given";
}

/** Of a task's two places the one that is farther from home; the end where both are as far. */
function farEnd(known: Known, { place, endPlace }: Task): string {
  const lander = known.plan.site.places.find(({ kind }) => kind === "lander")?.id ?? "";
  const start = place ?? lander;
  const end = endPlace ?? start;
  const far = (id: string): number => known.homeS(id);
  return far(start) > far(end) ? start : end;
}

/** What stands over the steps: rest, who is where, what to take, what bounds the task. */
function leading(known: Known, part: CrewEva, stop: Stop, head: Head, setting: Setting): Block[] {
  const { plan } = known;
  const { task, rest } = stop;
  const where = stop.endPlace === null ? stop.place : `${stop.place} to ${stop.endPlace}`;
  const others = part.others.map(({ name }) => name).join(", ");
  const apart = part.others.every(({ id }) => stop.crew.includes(id)) ? [] : partnerLines(known, part, stop);
  const led = ledBy(plan, known.wayHome(farEnd(known, task)));
  const after = waitWords(plan, task.id, part.member.id);
  const doneAfter = waitWords(plan, task.id, part.member.id, "end");
  return [
    ...(rest === null
      ? []
      : [
          restForm(
            `${minutes(rest.needS, "given")}, ${restPlace(plan, rest)}`,
            clock(rest.span.endS),
            setting,
          ),
        ]),
    ...factForms(
      [
        ...(fitsHead({ ...head, part: "part 9 of 9" }) ? [] : [["TASK", head.name] as const]),
        ["AT", apart.length === 0 && others !== "" ? `${where}, with ${others}` : where],
        ...apart,
        ...(led === "" ? [] : [["HOME", led] as const]),
        ...taken(plan, task).map((words): Fact => ["TAKE", words]),
        ...limits(known, part, stop).map((words): Fact => ["ONLY", words]),
        ...(after === "" ? [] : [["AFTER", after] as const]),
        ...(doneAfter === "" ? [] : [["DONE AFTER", doneAfter] as const]),
        ...onTheWay(known, part, stop),
      ],
      setting,
    ),
  ];
}

/** Where the way here asks for more than both its ends, it has gauges of its own. */
function onTheWay(known: Known, part: CrewEva, stop: Stop): Fact[] {
  const ids = [part.eva.id, part.member.id] as const;
  const way = known.homeIf("way", ...ids, stop.task.id)?.leastPct;
  if (!way) return [];
  const k = part.stops.indexOf(stop);
  const before = part.stops[k - 1];
  const ends = [
    known.homeIf("task", ...ids, stop.task.id)?.leastPct,
    before
      ? known.homeIf("task", ...ids, before.task.id)?.leastPct
      : known.homeIf("lander", ...ids, null)?.leastPct,
  ];
  const worse = GAUGES.filter(([key]) => (way[key] ?? 0) > Math.max(...ends.map((one) => one?.[key] ?? 0)));
  if (worse.length === 0) return [];
  return [["WAY HERE", `HOME IF under ${worse.map(([key, name]) => `${name} ${way[key]}`).join(", ")} %`]];
}

/** What stands against the task, the steps with what guards them, what is brought back, and the planner's notes. */
function working(known: Known, part: CrewEva, stop: Stop, setting: Setting): Block[] {
  const { plan } = known;
  const { task } = stop;
  return [
    ...stop.breaches.flatMap((finding) =>
      cautionForm("warning", [`THIS PLAN BREAKS A RULE: ${findingWords(plan, finding)}`], {
        ...setting,
        sizePt: 13.5,
      }),
    ),
    // They guard the whole task: only the last form stays with the first step.
    ...cautionForms(task.cautions, setting).map((block, k, forms) =>
      k < forms.length - 1 ? { ...block, keep: false } : block,
    ),
    ...(task.steps.length === 0
      ? cautionForm("note", [NO_STEPS], setting)
      : stepBlocks(plan, task.steps, stop.crew, part.member.id, setting)),
    ...remedyBlocks(plan, task.id, stop.crew, part.member.id, setting),
    ...brought(plan, task, setting.gapMm),
    ...noted(task),
  ];
}

/** The windows and the relay pass that the task must stay inside. */
function limits({ plan, verdict }: Known, part: CrewEva, stop: Stop): string[] {
  const out = verdict.outings.find(({ eva, crew }) => eva === part.eva.id && crew === part.member.id);
  const holds = (span: { startS: number; endS: number }): boolean =>
    span.startS <= stop.startS && stop.endS <= span.endS;
  const words: string[] = [];
  const window = stop.task.windows.find(holds);
  if (window) words.push(inside(window, stop));
  if (stop.task.pet && out) words.push(...fromEgress(stop.task.pet, out.span.startS, stop));
  if (stop.task.relay) {
    const pass = plan.stay.relayPasses.find(holds);
    words.push(
      pass ? `relay until ${clock(noLaterThan(pass.endS, stop.endS))}` : "relay needed, none in this plan",
    );
  }
  return words.length === 0 ? [] : [words.join("; ")];
}

/** A window from egress that the task lies in, and which that is today. */
function fromEgress(pet: NonNullable<Task["pet"]>, egressS: number, stop: Stop): string[] {
  const startS: number = pet.startS ?? 0;
  const { endS } = pet;
  const [beganS, overS] = [stop.startS - egressS, stop.endS - egressS];
  if (beganS < startS || overS > (endS ?? overS)) return [];
  if (endS === undefined) return [`from PET ${clock(startS, "up")}, today ${clock(egressS + startS, "up")}`];
  const counted = inside({ startS, endS }, { startS: beganS, endS: overS });
  return [`PET ${counted}, today ${inside({ startS: egressS + startS, endS: egressS + endS }, stop)}`];
}

function taken(plan: Plan, task: Task): string[] {
  const tools = task.equipment.map((use) => {
    const name = nameOf(plan.equipment, use.equipment);
    return use.count > 1 ? `${use.count} x ${name}` : name;
  });
  const load = task.massOutKg > 0 ? [`${mass(task.massOutKg, "up")} out`] : [];
  const words = [...tools, ...load];
  return words.length === 0 ? [] : [words.join(", ")];
}

/** Bags and the case that they go into, the mass as planned, and a blank for what it is. */
function brought(plan: Plan, task: Task, gapMm: number): Block[] {
  const { sample } = task;
  if (!sample) return [];
  const bags = bagNumbers(task, taskNumber(plan, task.id));
  const name = nameOf(plan.containers, sample.container);
  // The unit stands once, behind the blank.
  const planned = untoldBack(task).mass ? "?" : mass(sample.massKg, "up").replace(/ kg$/, "");
  const words = `${name}, plan ${planned}`;
  const blank = { of: "mass", unit: "" } as const;
  if (bags === null) return blankAfter("CASE", words, blank, gapMm);
  // Numbers of the bags' own need not follow each other: they are all said.
  const counted = typeof sample.bags === "number" && bags.length > 2;
  const range = counted ? `${bags[0]} to ${bags.length}` : bags.join(", ");
  return blankAfter(bags.length === 1 ? "BAG" : "BAGS", `${range}, ${words}`, blank, gapMm);
}

/**
 * The planner's notes, a block for each line, so that long ones run on to the next page: neither their head nor one line stands alone. In the narrower
 * face where that takes a line less.
 */
function noted({ notes }: Task): Block[] {
  const sizePt = 12.5;
  const label = { sizePt: 11.5, bold: true, tight: true };
  const written = notes.split("\n").filter((words) => words.trim() !== "");
  if (written.length === 0) return [];
  const set = [false, true].map((tight) => {
    const face = { sizePt, bold: false, tight };
    return { face, lines: written.flatMap((words) => wrap(words, RIGHT - LEFT, face)) };
  });
  const { face, lines } = set.reduce((a, b) => (b.lines.length < a.lines.length ? b : a));
  return [
    { height: 5, keep: true, draw: (y) => setLines(["NOTES"], LEFT, y, label) },
    ...lines.map((one, k) => ({
      height: linesHeight(1, sizePt),
      keep: lines.length > 1 && (k === 0 || k === lines.length - 2),
      draw: (y: number) => setLines([one], LEFT, y, face),
    })),
  ];
}

/** What comes after: the next task or the way home, with its distance, bearing and time, and with whom. */
function nextOf(known: Known, part: CrewEva, index: number): { number: string; name: string; how: string[] } {
  const { plan, verdict } = known;
  const stop = part.stops[index];
  const follow = part.stops[index + 1];
  const outing = verdict.outings.find((one) => one.eva === part.eva.id && one.crew === part.member.id);
  const at = outing?.stretches.findIndex((one) => one.task === stop?.task.id) ?? -1;
  const way = at < 0 ? undefined : outing?.stretches.slice(at + 1).find(({ kind }) => kind !== "wait");
  const walks = way?.kind === "traverse";
  const wayS = follow ? follow.wayS : part.homewardS;
  const how: string[] = [];
  if (wayS === null) how.push("way unknown");
  else if (walks) how.push(...alongWords(plan, way, wayS));
  else how.push("here");
  if (follow) {
    how.push(
      companyOf(plan, part, follow),
      restWhere(plan, stop, follow.rest),
      `start ${clock(follow.startS)}`,
    );
    return {
      number: taskNumber(plan, follow.task.id),
      name: taskName(follow.task),
      how: how.filter((one) => one !== ""),
    };
  }
  how.push(restWhere(plan, stop, part.homeRest));
  if (part.ingressS !== null) how.push(`hatch shut ${clock(part.ingressS)}`);
  return { number: "IN", name: "Home to the lander", how: how.filter((one) => one !== "") };
}

/** Where the rest before what comes next is taken, seen from where a task ends. */
function restWhere(plan: Plan, stop: Stop | undefined, rest: Rest | null): string {
  if (rest === null) return "";
  const here = stop && (stop.endPlace ?? stop.place);
  return restPlace(plan, rest) === here ? "REST here" : "REST there";
}
