import type { Plan, Task } from "../../plan/index.ts";
import { type CrewEva, nameOf, type Stop, taskName } from "./crewday.ts";
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
import { exactly, hourMinute, kilograms, minutesUp } from "./wording.ts";

/**
 * One task on a page of its own: what stands against it, then leave-by, start and walk-back as large as the page
 * allows, where and with whom, what to take, the steps, what to bring back, and what comes next.
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
  const cautions = [
    ...stop.breaches.map((finding) => `THIS PLAN BREAKS A RULE: ${finding.sentence}`),
    ...task.cautions,
  ];
  const { factPt } = scale;
  const where = stop.endPlace === null ? stop.place : `${stop.place} to ${stop.endPlace}`;
  const partners = stop.partners.length === 0 ? "alone" : stop.partners.join(", ");
  const lasts = `${exactly(task.duration.likelyS)}, end ${hourMinute(stop.endS)}`;
  return [
    ...warnings("CAUTION", cautions, scale),
    cellRow([leaveCell(part, stop), startCell(part, stop), walkBackCell(stop)], scale.cellMm),
    paragraph(taskName(task), { sizesPt: scale.titlePt, bold: true, mostLines: 2, after: 1 }),
    ...fact(["WHERE", where], factPt),
    ...factPair(["WITH", partners], ["LASTS", lasts], factPt),
    ...[...limits(plan, stop), ...taken(plan, task)].flatMap((one) => fact(one, factPt)),
    ...(task.steps.length > 0 && scale.headings ? [heading("STEPS")] : [gap(1)]),
    ...task.steps.flatMap((words, i) => step(i + 1, words, scale)),
    ...brought(plan, task).flatMap((one) => fact(one, factPt)),
  ];
}

function leaveCell(part: CrewEva, stop: Stop): Cell {
  const { leaveByS, wayS } = stop;
  const label = "LEAVE BY";
  if (leaveByS === null || wayS === null) {
    return { label, value: "unknown", below: "way unknown", share: 30, heavy: true };
  }
  if (wayS === 0) return { label, value: "no walk", below: "same place", share: 30 };
  return { label, value: hourMinute(leaveByS), below: pet(part, leaveByS), share: 30, heavy: true };
}

function startCell(part: CrewEva, stop: Stop): Cell {
  return {
    label: "START",
    value: hourMinute(stop.startS),
    below: pet(part, stop.startS),
    share: 30,
    heavy: stop.wayS === 0,
  };
}

function walkBackCell(stop: Stop): Cell {
  const { walkBack } = stop;
  const label = "WALK-BACK";
  if (walkBack.kind !== "known") return { label, value: walkBackWords(walkBack), below: "", share: 25 };
  const [value, unit] = minutesUp(walkBack.seconds).split(" ");
  // A carry or a survey ends elsewhere, farther out perhaps than where it begins.
  return { label, value: value!, below: stop.endPlace === null ? unit! : `${unit!} at its end`, share: 25 };
}

/** Phase elapsed time, from egress. */
function pet(part: CrewEva, atS: number): string {
  return part.egressS === null ? "PET unknown" : `PET ${hourMinute(atS - part.egressS)}`;
}

/** The window and the relay pass that the task must stay inside. */
function limits(plan: Plan, stop: Stop): Fact[] {
  const holds = (span: { startS: number; endS: number }): boolean =>
    span.startS <= stop.startS && stop.endS <= span.endS;
  const words: string[] = [];
  const window = stop.task.windows.find(holds);
  if (window) words.push(`${hourMinute(window.startS)} to ${hourMinute(window.endS)}`);
  if (stop.task.relay) {
    const pass = plan.stay.relayPasses.find(holds);
    words.push(pass ? `relay until ${hourMinute(pass.endS)}` : "relay needed, none in this plan");
  }
  return words.length === 0 ? [] : [["ONLY", words.join("; ")]];
}

function taken(plan: Plan, task: Task): Fact[] {
  const tools = task.equipment.map((use) => {
    const name = nameOf(plan.equipment, use.equipment);
    return use.count > 1 ? `${use.count} x ${name}` : name;
  });
  const load = task.massOutKg > 0 ? [`${kilograms(task.massOutKg)} out`] : [];
  const words = [...tools, ...load];
  return words.length === 0 ? [] : [["TAKE", words.join(", ")]];
}

function brought(plan: Plan, task: Task): Fact[] {
  const { sample } = task;
  if (!sample) return [];
  const name = nameOf(plan.containers, sample.container);
  return [["RETURN", `${kilograms(sample.massKg)} into ${name}`]];
}

/** Head of the pages on which a task goes on: its name and start once more. */
function again(stop: Stop): Block {
  const title = paragraph(`${taskName(stop.task)} (continued)`, {
    sizesPt: [13, 12, 11],
    bold: true,
    mostLines: 2,
  });
  return {
    height: title.height + 8,
    draw: (y) => [
      ...title.draw(y),
      ...text(LEFT, y + title.height + 4.6, startWords(stop), { sizePt: 12, bold: true }),
    ],
  };
}

function startWords(stop: Stop): string {
  const leave =
    stop.wayS === 0 ? "" : `leave by ${stop.leaveByS === null ? "unknown" : hourMinute(stop.leaveByS)}, `;
  return `${leave}start ${hourMinute(stop.startS)}, walk-back ${walkBackWords(stop.walkBack)}`;
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
  const start = `start ${hourMinute(follow.startS)}, ${follow.place}`;
  if (follow.leaveByS === null) return { title: taskName(follow.task), detail: `leave by unknown, ${start}` };
  return {
    title: taskName(follow.task),
    detail: follow.wayS === 0 ? `same place, ${start}` : `leave by ${hourMinute(follow.leaveByS)}, ${start}`,
  };
}

function homeward(part: CrewEva): { title: string; detail: string } {
  const way =
    part.homewardS === null
      ? "walk home: time unknown"
      : part.homewardS === 0
        ? "already there"
        : `walk home ${minutesUp(part.homewardS)}`;
  const ingress =
    part.ingressS === null
      ? `ingress complete by ${hourMinute(part.ingressLimitS)}`
      : `ingress complete ${hourMinute(part.ingressS)}, latest ${hourMinute(part.ingressLimitS)}`;
  return { title: "Home to the lander", detail: `${way}, ${ingress}` };
}
