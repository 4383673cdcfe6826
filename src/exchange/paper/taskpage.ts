import { allCautions, classOf, type Plan, type Task } from "../../plan/index.ts";
import { clock, doersOf, inside, mass, minutes, noLaterThan, stepLine } from "../../words/index.ts";
import { type CrewEva, nameOf, restPlace, type Stop, taskName } from "./crewday.ts";
import { gap, type Heading, type Leaf, leaves, LEFT, paragraph, RIGHT, setLines } from "./cuff.ts";
import type { Block } from "./flow.ts";
import { line, text } from "./page.ts";
import {
  type Cell,
  cellRow,
  fact,
  type Fact,
  factPair,
  heading,
  type Scale,
  SCALES,
  step,
  warnings,
} from "./parts.ts";
import { fitSize, linesHeight, wrap, wrapAtMost } from "./type.ts";
import { walkBackWords } from "./walkback.ts";

/**
 * One task on a page of its own: what stands against it, then leave-by, start and walk-back as large as the page
 * allows, where and with whom, what to take, the steps, what to bring back, the notes, and what comes next.
 */
export function taskLeaves(plan: Plan, part: CrewEva, index: number, head: Heading): Leaf[] {
  const stop = part.stops[index]!;
  const set = (scale: Scale): Leaf[] =>
    leaves(head, taskName(stop.task), content(plan, part, stop, scale), {
      again: again(stop),
      foot: next(part, index),
    });
  // One task a page where any scale can do it.
  for (const scale of SCALES) {
    const one = set(scale);
    if (one.length === 1) return one;
  }
  // A task that needs more pages has room for the usual scale, unless the next saves one.
  const usual = set(SCALES[1]!);
  const closer = set(SCALES[2]!);
  return closer.length < usual.length ? closer : usual;
}

function content(plan: Plan, part: CrewEva, stop: Stop, scale: Scale): Block[] {
  const { task } = stop;
  const broken = stop.breaches.map((finding) => `THIS PLAN BREAKS A RULE: ${finding.sentence}`);
  const said = (kind: ReturnType<typeof classOf>): string[] =>
    allCautions(task)
      .filter((caution) => classOf(caution) === kind)
      .map(({ text: words }) => words);
  const doers = doersOf(plan, task);
  const { factPt } = scale;
  const where = stop.endPlace === null ? stop.place : `${stop.place} to ${stop.endPlace}`;
  const partners = stop.partners.length === 0 ? "alone" : stop.partners.join(", ");
  const lasts = `${minutes(task.duration.likelyS, "given")}, end ${clock(stop.endS)}`;
  return [
    ...warnings("WARNING", said("warning"), scale),
    ...warnings("CAUTION", [...broken, ...said("caution")], scale),
    ...warnings("NOTE", said("note"), scale),
    cellRow([leaveCell(part, stop), startCell(part, stop), walkBackCell(stop)], scale.cellMm),
    paragraph(taskName(task), { sizesPt: scale.titlePt, bold: true, mostLines: 2, after: 1 }),
    ...fact(["WHERE", where], factPt),
    ...factPair(["WITH", partners], ["LASTS", lasts], factPt),
    ...[...rested(plan, stop), ...limits(plan, stop), ...taken(plan, task)].flatMap((one) =>
      fact(one, factPt),
    ),
    ...(task.steps.length > 0 && scale.headings ? [heading("STEPS")] : [gap(1)]),
    ...task.steps.flatMap((one, i) => step(i + 1, stepLine(one, doers), scale)),
    ...brought(plan, task).flatMap((one) => fact(one, factPt)),
    ...noted(task),
  ];
}

/** The rest that the work limit needs before the task: its last moment is the task's start. */
function rested(plan: Plan, { rest }: Stop): Fact[] {
  if (rest === null) return [];
  return [
    ["REST", `${minutes(rest.needS, "given")} at ${restPlace(plan, rest)}, until ${clock(rest.span.endS)}`],
  ];
}

/** The planner's notes, a block for each line, so that long ones run on to the next page. */
function noted({ notes }: Task): Block[] {
  const face = { sizePt: 10, bold: false };
  const lines = notes
    .split("\n")
    .filter((words) => words.trim() !== "")
    .flatMap((words) => wrap(words, RIGHT - LEFT, face));
  if (lines.length === 0) return [];
  return [
    heading("NOTES"),
    ...lines.map((one) => ({
      height: linesHeight(1, face.sizePt),
      draw: (y: number) => setLines([one], LEFT, y, face),
    })),
  ];
}

function leaveCell(part: CrewEva, stop: Stop): Cell {
  const { leave, wayS } = stop;
  if (wayS === 0) return { label: "LEAVE BY", value: "no walk", below: "same place", share: 30 };
  if (wayS === null || leave === null)
    return { label: "LEAVE BY", value: "unknown", below: "way unknown", share: 30, heavy: true };
  if (leave.kind === "at once")
    return { label: "LEAVE", value: "AT ONCE", below: `done ${clock(leave.atS)}`, share: 30, heavy: true };
  return { label: "LEAVE BY", value: clock(leave.atS), below: pet(part, leave.atS), share: 30, heavy: true };
}

function startCell(part: CrewEva, stop: Stop): Cell {
  return {
    label: "START",
    value: clock(stop.startS),
    below: pet(part, stop.startS),
    share: 30,
    heavy: stop.wayS === 0,
  };
}

function walkBackCell(stop: Stop): Cell {
  const { walkBack } = stop;
  const label = "WALK-BACK";
  if (walkBack.kind !== "known") return { label, value: walkBackWords(walkBack), below: "", share: 25 };
  const [value, unit] = minutes(walkBack.seconds, "up").split(" ");
  // A carry or a survey leads elsewhere: this is the longest from anywhere on it.
  const elsewhere = stop.endPlace !== null || stop.task.walkM > 0;
  return { label, value: value!, below: elsewhere ? `${unit!} at the worst` : unit!, share: 25 };
}

/** Phase elapsed time, from egress. */
function pet(part: CrewEva, atS: number): string {
  return part.egressS === null ? "PET unknown" : `PET ${clock(atS - part.egressS)}`;
}

/** The window and the relay pass that the task must stay inside. */
function limits(plan: Plan, stop: Stop): Fact[] {
  const holds = (span: { startS: number; endS: number }): boolean =>
    span.startS <= stop.startS && stop.endS <= span.endS;
  const words: string[] = [];
  const window = stop.task.windows.find(holds);
  if (window) words.push(inside(window, stop));
  if (stop.task.relay) {
    const pass = plan.stay.relayPasses.find(holds);
    words.push(
      pass ? `relay until ${clock(noLaterThan(pass.endS, stop.endS))}` : "relay needed, none in this plan",
    );
  }
  return words.length === 0 ? [] : [["ONLY", words.join("; ")]];
}

function taken(plan: Plan, task: Task): Fact[] {
  const tools = task.equipment.map((use) => {
    const name = nameOf(plan.equipment, use.equipment);
    return use.count > 1 ? `${use.count} x ${name}` : name;
  });
  const load = task.massOutKg > 0 ? [`${mass(task.massOutKg, "up")} out`] : [];
  const words = [...tools, ...load];
  return words.length === 0 ? [] : [["TAKE", words.join(", ")]];
}

function brought(plan: Plan, task: Task): Fact[] {
  const { sample } = task;
  if (!sample) return [];
  const name = nameOf(plan.containers, sample.container);
  return [["RETURN", `${mass(sample.massKg, "up")} into ${name}`]];
}

/** Head of the pages on which a task goes on: its name and start once more. */
function again(stop: Stop): Block {
  const title = paragraph(`${taskName(stop.task)} (continued)`, {
    sizesPt: [13, 12, 11],
    bold: true,
    mostLines: 2,
  });
  const words = startWords(stop);
  const sizePt = fitSize(words, RIGHT - LEFT, true, [12, 11, 10, 9], 1);
  return {
    height: title.height + 8,
    draw: (y) => [...title.draw(y), ...text(LEFT, y + title.height + 4.6, words, { sizePt, bold: true })],
  };
}

function startWords(stop: Stop): string {
  const leave = stop.wayS === 0 ? "" : `${leaveWords(stop)}, `;
  return `${leave}start ${clock(stop.startS)}, walk-back ${walkBackWords(stop.walkBack)}`;
}

/** When to leave, in running words. */
function leaveWords({ leave, wayS }: Stop): string {
  if (wayS === null || leave === null) return "leave by unknown";
  return leave.kind === "at once" ? `leave at once, ${clock(leave.atS)}` : `leave by ${clock(leave.atS)}`;
}

/** What comes after: the next task, or the way home. */
function next(part: CrewEva, index: number): Block {
  const follow = part.stops[index + 1];
  const words = follow ? nextTask(follow) : homeward(part);
  const wide = RIGHT - LEFT - 15;
  const sizePt = fitSize(words.title, wide, true, [13, 12, 11], 1);
  // The name stands whole on the page that this points to.
  const title = wrapAtMost(words.title, wide, { sizePt, bold: true }, 2);
  const detail = wrap(words.detail, wide, { sizePt: 11, bold: false });
  const height = linesHeight(title.length, sizePt) + linesHeight(detail.length, 11) + 2.4;
  return {
    height,
    draw: (y) => [
      line(LEFT, y + 0.8, RIGHT, y + 0.8, 0.7),
      ...text(LEFT, y + 6, "NEXT", { sizePt: 10, bold: true }),
      ...setLines(title, LEFT + 15, y + 1.8, { sizePt, bold: true }),
      ...setLines(detail, LEFT + 15, y + 1.8 + linesHeight(title.length, sizePt), {
        sizePt: 11,
        bold: false,
      }),
    ],
  };
}

function nextTask(follow: Stop): { title: string; detail: string } {
  const leave = follow.wayS === 0 ? "same place" : leaveWords(follow);
  const rest = follow.rest === null ? "" : `, rest ${minutes(follow.rest.needS, "given")}`;
  return {
    title: taskName(follow.task),
    detail: `${leave}${rest}, start ${clock(follow.startS)}, ${follow.place}`,
  };
}

function homeward(part: CrewEva): { title: string; detail: string } {
  const limit = clock(noLaterThan(part.limit.ingressS, part.ingressS));
  const way =
    part.homewardS === null
      ? "walk home: time unknown"
      : part.homewardS === 0
        ? "already there"
        : `leave at once, walk home ${minutes(part.homewardS, "up")}`;
  const { homeRest } = part;
  const rest =
    homeRest === null
      ? ""
      : `, rest ${minutes(homeRest.needS, "given")} at the lander until ${clock(homeRest.span.endS)}`;
  const ingress =
    part.ingressS === null
      ? `ingress complete by ${limit}`
      : `ingress complete ${clock(part.ingressS)}, latest ${limit}`;
  return { title: "Home to the lander", detail: `${way}${rest}, ${ingress}` };
}
