import type { Limit, Outing, PrintedDay, Verdict } from "../../../answers/index.ts";
import { limiterWords } from "../../../check/index.ts";
import type { Instant } from "../../../kernel/index.ts";
import { type Eva, type Plan, tasksById } from "../../../plan/index.ts";
import {
  clock,
  minutes,
  noLaterThan,
  numberedTask,
  taskNumber,
  touchdownMs,
  utcClock,
} from "../../../words/index.ts";
import { nameOf, taskName } from "../crewday.ts";
import { setLines } from "../cuff.ts";
import type { Block } from "../flow.ts";
import { limitGiven, NO_LIMIT } from "../givenstocks.ts";
import { hatch } from "../hatch.ts";
import { line, type Mark, rect, text } from "../page.ts";
import { clip, linesHeight, textWidth, wrap } from "../type.ts";
import { type Axis, RULERS_MM, rulers, xOf } from "./axis.ts";
import { LANDSCAPE_LEFT, LANE_LEFT, type SheetBox } from "./frame.ts";
import { laneGround, laneRest, laneTask, type LaneTask, nameSize, plate } from "./lane.ts";

/** The bands of the day timeline: the whole stay on one line, then each EVA magnified. */

const STAY_LANE_MM = 7;
const RELAY_MM = 4;
const GAP_MM = 3;
const BOLD = { sizePt: 9, bold: true };

/** The whole stay: rulers, relay passes, and a lane for each crew member with EVAs, tasks, sleep and meals. */
export function stayBand(plan: Plan, verdict: Verdict, box: SheetBox): Block {
  const ends = verdict.outings.flatMap(({ span }) => [span.startS, span.endS]);
  const remote = remoteWork(plan);
  const axis: Axis = {
    fromS: Math.min(0, ...ends, ...remote.map((one) => one.startS)),
    toS: Math.max(plan.stay.lengthS, ...ends, ...remote.map((one) => one.endS)),
    left: LANE_LEFT,
    wide: box.right - LANE_LEFT,
  };
  const epochMs = touchdownMs(plan);
  const lanes = plan.crew.length;
  const relayMm = plan.stay.relayPasses.length > 0 ? RELAY_MM : 0;
  const remoteMm = remote.length > 0 ? RELAY_MM : 0;
  const height = RULERS_MM + relayMm + lanes * STAY_LANE_MM + remoteMm;
  return {
    height: height + GAP_MM,
    draw: (y) => {
      const first = y + RULERS_MM + relayMm;
      const floor = first + lanes * STAY_LANE_MM;
      return [
        ...rulers(axis, epochMs, y, y + height),
        ...relayRow(plan, axis, y + RULERS_MM),
        ...plan.crew.flatMap((member, i) => [
          ...laneName(nameOf(plan.crew, member.id), first + i * STAY_LANE_MM, STAY_LANE_MM),
          ...stayLane(plan, verdict, axis, member.id, first + i * STAY_LANE_MM),
        ]),
        ...(remote.length > 0 ? laneName("Command", floor, RELAY_MM) : []),
        ...remote.map((one) => bar(axis, floor + 0.8, RELAY_MM - 1.6, one, 1)),
        line(LANDSCAPE_LEFT, y + height, box.right, y + height, 0.3),
      ];
    },
  };
}

interface Span {
  readonly startS: number;
  readonly endS: number;
}

function bar(axis: Axis, y: number, high: number, span: Span, fill: number): Mark {
  const x = xOf(axis, span.startS);
  return rect(x, y, Math.max(0.3, xOf(axis, span.endS) - x), high, 0.25, fill);
}

function laneName(name: string, y: number, high: number): Mark[] {
  return [
    line(LANDSCAPE_LEFT, y, LANE_LEFT, y, 0.3),
    ...text(LANDSCAPE_LEFT, y + high / 2 + 1.1, clip(name, LANE_LEFT - LANDSCAPE_LEFT - 1, BOLD), BOLD),
  ];
}

function relayRow(plan: Plan, axis: Axis, y: number): Mark[] {
  const inside = plan.stay.relayPasses.filter((pass) => pass.endS > axis.fromS && pass.startS < axis.toS);
  if (plan.stay.relayPasses.length === 0) return [];
  return [
    ...text(LANDSCAPE_LEFT, y + 2.8, "Relay", { sizePt: 7, bold: true }),
    ...inside.flatMap((pass) => {
      const x = xOf(axis, pass.startS);
      const wide = xOf(axis, pass.endS) - x;
      const middle = y + RELAY_MM / 2;
      return [
        line(x, middle, x + wide, middle, 0.9),
        line(x, y + 0.8, x, y + RELAY_MM - 0.8, 0.5),
        line(x + wide, y + 0.8, x + wide, y + RELAY_MM - 0.8, 0.5),
        ...plate(x + wide / 2, middle, pass.name, wide - 4),
      ];
    }),
  ];
}

function stayLane(plan: Plan, verdict: Verdict, axis: Axis, crew: string, y: number): Mark[] {
  const high = STAY_LANE_MM;
  const blocks = plan.stay.blocks.filter((one) => one.crew.length === 0 || one.crew.includes(crew));
  const outings = verdict.outings.filter((one) => one.crew === crew);
  return [
    line(axis.left, y, axis.left + axis.wide, y, 0.15),
    ...blocks.flatMap((one) => {
      const x = xOf(axis, one.startS);
      const wide = xOf(axis, one.endS) - x;
      if (wide <= 0) return [];
      return [
        hatch(x, y + 0.6, wide, high - 1.2, 1.8, 0.15, "down"),
        rect(x, y + 0.6, wide, high - 1.2, 0.2),
        ...plate(x + wide / 2, y + high / 2, one.name, wide),
      ];
    }),
    ...outings.flatMap((outing) => [
      bar(axis, y + 2.6, high - 5.2, outing.span, 1),
      ...outing.stretches
        .filter((stretch) => stretch.kind === "task")
        .map((stretch) => bar(axis, y + 1, high - 2, stretch.span, 1)),
    ]),
  ];
}

function remoteWork(plan: Plan): (Span & { name: string })[] {
  const tasks = tasksById(plan);
  return plan.schedule.placements
    .filter((placement) => placement.eva === null)
    .sort((a, b) => a.startS - b.startS || (a.task < b.task ? -1 : 1))
    .flatMap((placement) => {
      const task = tasks.get(placement.task);
      if (!task) return [];
      const endS = placement.startS + task.duration.likelyS;
      return [{ startS: placement.startS, endS, name: numberedTask(plan, task.id) }];
    });
}

/** What is done without crew, in words, one block for each line; nothing when there is none. */
export function remoteLines(plan: Plan, box: SheetBox): Block[] {
  const remote = remoteWork(plan);
  if (remote.length === 0) return [];
  const words = remote.map(
    (one) => `${clock(one.startS)} ${one.name} (${minutes(one.endS - one.startS, "given")})`,
  );
  return listLines(`By command: ${words.join("; ")}`, box);
}

/** Small running text over the sheet, one block for each line. */
export function listLines(words: string, box: SheetBox): Block[] {
  const face = { sizePt: 8, bold: false };
  const lines = wrap(words, box.right - LANDSCAPE_LEFT, face);
  return lines.map((one, i) => ({
    height: linesHeight(1, face.sizePt) + (i === lines.length - 1 ? 1.4 : 0),
    draw: (y) => setLines([one], LANDSCAPE_LEFT, y, face),
  }));
}

/** One EVA over the full width: rulers, relay, a lane for each crew member, and names that found no room. */
export function evaBand(
  plan: Plan,
  verdict: Verdict,
  day: PrintedDay,
  eva: Eva,
  laneMm: number,
  box: SheetBox,
): Block[] {
  const outings = eva.crew
    .map((crew) => verdict.outings.find((one) => one.eva === eva.id && one.crew === crew))
    .filter((one) => one !== undefined);
  const first = outings[0];
  if (!first) return [];
  const rests = day.rests.filter((one) => one.eva === eva.id);
  const axis: Axis = {
    fromS: first.span.startS,
    toS: Math.max(first.span.endS, first.span.startS + 1),
    left: LANE_LEFT,
    wide: box.right - LANE_LEFT,
  };
  const epochMs = touchdownMs(plan);
  const relayMm = plan.stay.relayPasses.some((pass) => pass.endS > axis.fromS && pass.startS < axis.toS)
    ? RELAY_MM
    : 0;
  const height = 5.6 + RULERS_MM + relayMm + outings.length * (laneMm + 1);
  const lanes = outings.map((outing) => ({ outing, tasks: laneTasks(plan, outing) }));
  const band: Block = {
    height: height + 1,
    draw: (y) => {
      const top = y + 5.6 + RULERS_MM + relayMm;
      return [
        ...heading(plan, day, eva, first, epochMs, y, box),
        ...rulers(axis, epochMs, y + 5.6, y + height),
        ...(relayMm > 0 ? relayRow(plan, axis, y + 5.6 + RULERS_MM) : []),
        ...lanes.flatMap(({ outing, tasks }, i) => {
          const laneY = top + i * (laneMm + 1) + 0.5;
          return [
            ...laneName(nameOf(plan.crew, outing.crew), laneY, laneMm),
            ...laneGround(axis, laneY, laneMm, outing.stretches),
            ...rests
              .filter((one) => one.crew === outing.crew)
              .flatMap((one) => laneRest(axis, laneY, laneMm, one)),
            ...tasks.flatMap((task) => laneTask(axis, laneY, laneMm, task)),
          ];
        }),
      ];
    },
  };
  const unnamed = new Map(
    lanes
      .flatMap(({ tasks }) => tasks)
      .filter((task) => nameSize(axis, laneMm, task) === null)
      .map((task) => [task.number, task]),
  );
  const key = [...unnamed.values()].sort((a, b) => a.startS - b.startS);
  // Numbers and what they stand for are read together: they stay on one sheet.
  const together = [band, ...keyRows(key, box)].map((block) => ({ ...block, keep: true }));
  return [...together, { height: 1.5, draw: () => [] }];
}

/** Numbers and the names they stand for, four to a row, in the order of the lanes. */
function keyRows(key: readonly LaneTask[], box: SheetBox): Block[] {
  const columns = 4;
  const wide = (box.right - LANDSCAPE_LEFT) / columns;
  const face = { sizePt: 7, bold: false };
  const numberMm = Math.max(...key.map(({ number }) => textWidth(number, { ...face, bold: true })));
  const indent = Math.max(5, numberMm + 1.5);
  const rows: Block[] = [];
  for (let from = 0; from < key.length; from += columns) {
    const cells = key
      .slice(from, from + columns)
      .map((task) => ({ task, lines: wrap(task.name, wide - indent - 3, { ...face, bold: task.must }) }));
    const tallest = Math.max(...cells.map(({ lines }) => lines.length));
    rows.push({
      height: linesHeight(tallest, face.sizePt) + 0.2,
      draw: (y) =>
        cells.flatMap(({ task, lines }, i) => {
          const x = LANDSCAPE_LEFT + i * wide;
          return [
            ...setLines([task.number], x + indent - 1.5, y, { ...face, bold: true, align: "right" }),
            ...setLines(lines, x + indent, y, { ...face, bold: task.must }),
          ];
        }),
    });
  }
  return rows;
}

/** By when ingress is complete at the latest, and what sets it. */
function latestWords(plan: Plan, limit: Limit | null, endS: Instant): string {
  return limit
    ? `no later than ${clock(noLaterThan(limit.ingressS, endS))} (${limiterWords(plan, limit.by)})`
    : `latest ${NO_LIMIT}`;
}

function heading(
  plan: Plan,
  day: PrintedDay,
  eva: Eva,
  outing: Outing,
  epochMs: number | null,
  y: number,
  box: SheetBox,
): Mark[] {
  const startS = day.egressS.get(eva.id) ?? outing.span.startS;
  const endS = day.ingressS.get(eva.id) ?? outing.span.endS;
  const limit = day.limit.get(eva.id);
  const name = clip(nameOf(plan.evas, eva.id), 80, { sizePt: 12, bold: true });
  const words = [
    `egress ${clock(startS)} (${utcClock(epochMs, startS)} UTC)`,
    `ingress complete ${clock(endS)} (${utcClock(epochMs, endS)} UTC)`,
    ...(limit ? [latestWords(plan, limitGiven(plan, eva, limit), endS)] : []),
    `outside ${clock(endS - startS)}`,
  ].join(", ");
  const after = LANDSCAPE_LEFT + textWidth(name, { sizePt: 12, bold: true }) + 4;
  return [
    ...text(LANDSCAPE_LEFT, y + 4.2, name, { sizePt: 12, bold: true }),
    ...text(after, y + 4.2, clip(words, box.right - after, { sizePt: 9, bold: false }), {
      sizePt: 9,
      bold: false,
    }),
  ];
}

function laneTasks(plan: Plan, outing: Outing): LaneTask[] {
  return outing.stretches.flatMap(({ task: id, span }) => {
    const task = plan.tasks.find((one) => one.id === id);
    const placement = plan.schedule.placements.find((one) => one.task === id);
    if (!task || !placement) return [];
    return [
      {
        number: taskNumber(plan, task.id),
        name: taskName(task),
        startS: span.startS,
        endS: span.endS,
        must: task.must,
        shared: placement.crew.length > 1,
      },
    ];
  });
}
