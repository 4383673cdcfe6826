import type { Outing, ReachTrack, Track, Verdict } from "../../answers/index.ts";
import type { Eva, Plan, Task } from "../../plan/index.ts";
import { clock, crewName, taskNumber, touchdownMs, utcClock } from "../../words/index.ts";
import { MM_PER_PT, textWidth } from "../paper/type.ts";
import { type Markup, markup } from "./markup.ts";

/**
 * The day line of one EVA: crew members in pairs about a line home, each ribbon as far from it as the walk home is long at that
 * moment. Drawn from what the judge says, in units of the picture.
 */

const WIDE = 1200;
const LEFT = 64;
const RIGHT = 12;
const RULER = 34;
/** How far the longest allowed walk home stands from the line home, and how thick a ribbon is. */
const FAR = 88;
const THICK = 26;
/** Free space before the names, height of a row of them, and how many rows. */
const AIR = 7;
const LABEL = 16;
const LABELS = 4;
const GAP = 18;
const STEPS_S = [300, 600, 900, 1800, 3600, 7200, 14_400];

interface Axis {
  readonly fromS: number;
  readonly toS: number;
}

/** One crew member's side of a line home. */
interface Side {
  readonly outing: Outing;
  readonly reach: ReachTrack | null;
  /** -1 above the line home, 1 below. */
  readonly sense: -1 | 1;
  /** Seconds of walk home a unit of height. */
  readonly perUnit: number;
  readonly homeY: number;
  /** Tasks that another side has named already. */
  readonly named: ReadonlySet<string>;
}

/** The picture of an EVA; null where nobody goes out on it. */
export function ribbonOf(plan: Plan, verdict: Verdict, eva: Eva): Markup | null {
  const outings = eva.crew.flatMap((crew) =>
    verdict.outings.filter((one) => one.eva === eva.id && one.crew === crew),
  );
  const [first] = outings;
  if (!first) return null;
  const axis = {
    fromS: Math.min(...outings.map(({ span }) => span.startS)),
    toS: Math.max(...outings.map(({ span }) => span.endS), first.span.startS + 1),
  };
  const reachOf = (outing: Outing): ReachTrack | null =>
    verdict.reach.find((one) => one.eva === outing.eva && one.crew === outing.crew) ?? null;
  const most = Math.max(
    600,
    ...outings.flatMap((one) => {
      const reach = reachOf(one);
      return [...(reach?.points ?? []), ...(reach?.allowed ?? [])].map(({ value }) => value);
    }),
  );
  const side = FAR + THICK + AIR + LABELS * LABEL;
  const pairs = Array.from({ length: Math.ceil(outings.length / 2) }, (_, k) =>
    outings.slice(2 * k, 2 * k + 2),
  );
  const height = RULER + pairs.reduce((sum, pair) => sum + side * pair.length + GAP, 0);
  let top = RULER;
  const drawn = pairs.map((pair) => {
    const homeY = top + side;
    top += side * pair.length + GAP;
    return [
      ...pair.map((outing, k) =>
        sideMarks(plan, verdict, axis, {
          outing,
          reach: reachOf(outing),
          sense: k === 0 ? -1 : 1,
          perUnit: most / FAR,
          homeY,
          named: new Set(
            outings
              .slice(0, outings.indexOf(outing))
              .flatMap((one) => one.stretches.map(({ task }) => task ?? "")),
          ),
        }),
      ),
      markup`<path class="home" d="M${LEFT} ${homeY}H${WIDE - RIGHT}"/>`,
    ];
  });
  const names = outings.map(({ crew }) => crewName(plan, crew)).join(", ");
  return markup`<div class="line" tabindex="0" role="group" aria-label="${`Day line of ${eva.name}`}"><svg viewBox="0 0 ${WIDE} ${height}" role="img" aria-label="${`${eva.name}, ${names}: tasks in time by number, as far from the line home as the walk home is long. The table below says the same in words.`}">${ruler(plan, axis, height)}${drawn}</svg></div>`;
}

function xOf({ fromS, toS }: Axis, atS: number): number {
  const share = Math.min(1, Math.max(0, (atS - fromS) / (toS - fromS)));
  return tenth(LEFT + share * (WIDE - LEFT - RIGHT));
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}

function ruler(plan: Plan, axis: Axis, height: number): Markup[] {
  const stepS = STEPS_S.find((step) => (axis.toS - axis.fromS) / step <= 14) ?? 28_800;
  const epochMs = touchdownMs(plan);
  const ticks = [
    markup`<text class="soft" x="0" y="12">MET</text><text class="soft" x="0" y="27">UTC</text>`,
  ];
  for (let atS = Math.ceil(axis.fromS / stepS) * stepS; atS <= axis.toS; atS += stepS) {
    const x = xOf(axis, atS);
    ticks.push(markup`<path class="grid" d="M${x} 0V${height}"/>`);
    if (x < WIDE - RIGHT - 40)
      ticks.push(
        markup`<text x="${x + 4}" y="12">${clock(atS)}</text><text class="soft" x="${x + 4}" y="27">${utcClock(epochMs, atS)}</text>`,
      );
  }
  return ticks;
}

/** A track between two moments, with its values at both; the jumps in it stay jumps. */
function between(points: Track["points"], fromS: number, toS: number): { atS: number; value: number }[] {
  const at = (atS: number, last: boolean): number => {
    const here = points.filter((point) => point.atS === atS);
    const known = last ? here[0] : here.at(-1);
    if (known) return known.value;
    const before = points.filter((point) => point.atS < atS).at(-1);
    const after = points.find((point) => point.atS > atS);
    if (!before || !after) return (before ?? after)?.value ?? 0;
    return before.value + ((after.value - before.value) * (atS - before.atS)) / (after.atS - before.atS);
  };
  return [
    { atS: fromS, value: at(fromS, false) },
    ...points.filter(({ atS }) => atS > fromS && atS < toS),
    { atS: toS, value: at(toS, true) },
  ];
}

function sideMarks(plan: Plan, verdict: Verdict, axis: Axis, side: Side): Markup {
  const { outing, reach, sense, perUnit, homeY } = side;
  const y = (value: number, beyond = 0): number => tenth(homeY + sense * (value / perUnit + beyond));
  const slab = (fromS: number, toS: number): string => {
    const course = between(reach?.points ?? [], fromS, toS);
    const near = course.map(({ atS, value }) => `${xOf(axis, atS)} ${y(value)}`);
    const far = course.toReversed().map(({ atS, value }) => `${xOf(axis, atS)} ${y(value, THICK)}`);
    return `M${[...near, ...far].join("L")}Z`;
  };
  const work = outing.stretches.flatMap(({ task: id, span }) => {
    const task = plan.tasks.find((one) => one.id === id);
    return task ? [{ task, span }] : [];
  });
  const blocks = work.map(({ task, span }) => {
    const shape = slab(span.startS, span.endS);
    return markup`<path class="${`block ${task.kind}${task.must ? " must" : ""}`}" d="${shape}"/><path fill="url(#${task.kind})" d="${shape}"/>`;
  });
  const allowed = (reach?.allowed ?? []).map(({ atS, value }) => `${xOf(axis, atS)} ${y(value, THICK)}`);
  const rests = verdict.rests
    .filter((one) => one.eva === outing.eva && one.crew === outing.crew)
    .map(({ span, needS }) => {
      const [x, end] = [xOf(axis, span.endS - needS), xOf(axis, span.endS)];
      return markup`<path class="rest" d="M${x} ${homeY}v${sense * 8}H${end}v${-sense * 8}"/>`;
    });
  return markup`<text class="who" x="0" y="${y(0, 18) + 4}">${crewName(plan, outing.crew)}</text><path class="ribbon" d="${slab(outing.span.startS, outing.span.endS)}"/>${blocks}${allowed.length > 1 ? markup`<path class="most" d="${`M${allowed.join("L")}`}"/>` : ""}${rests}${labels(plan, axis, side, work)}`;
}

interface Work {
  readonly task: Task;
  readonly span: { readonly startS: number; readonly endS: number };
}

/** Names beyond the ribbon in rows, each by a line to its block; where no row has room the number alone, inside the block. */
function labels(plan: Plan, axis: Axis, side: Side, work: readonly Work[]): Markup[] {
  const { reach, sense, perUnit, homeY } = side;
  const ends: number[] = Array.from({ length: LABELS }, () => LEFT - 8);
  const y = (units: number): number => tenth(homeY + sense * units);
  return work.flatMap(({ task, span }) => {
    const number = taskNumber(plan, task.id);
    const [x, end] = [xOf(axis, span.startS), xOf(axis, span.endS)];
    const heights = between(reach?.points ?? [], span.startS, span.endS).map(({ value }) => value / perUnit);
    const middle = ((heights[0] ?? 0) + (heights.at(-1) ?? 0)) / 2 + THICK / 2;
    const inside =
      end - x > units(number, true) + 4
        ? [markup`<text class="no" x="${tenth((x + end) / 2)}" y="${y(middle) + 4}">${number}</text>`]
        : [];
    const words = `${number} ${task.name}`;
    const wide = units(words, false);
    // Its line must not run through a name that stands nearer.
    const row = ends.findIndex((_, k) => ends.slice(k).every((free) => free + 8 <= x));
    if (side.named.has(task.id) || row < 0 || x + 3 + wide > WIDE) return inside;
    ends[row] = x + 3 + wide;
    const level = FAR + THICK + AIR + (LABELS - row - 0.5) * LABEL;
    const foot = (heights[0] ?? 0) + THICK;
    return [
      ...inside,
      markup`<path class="lead" d="M${x} ${y(foot)}V${y(level - 5)}"/><text x="${x + 3}" y="${y(level) + 4}">${words}</text>`,
    ];
  });
}

/** The width of a text of 12 units, with room for another face than the one that it is measured in. */
function units(text: string, bold: boolean): number {
  return (textWidth(text, { sizePt: 12, bold }) / MM_PER_PT) * 1.12;
}

/** The hatchings of the kinds, for the whole page; a kind is told by them too, not by its colour alone. */
export const HATCHINGS = markup`<svg width="0" height="0" aria-hidden="true" focusable="false"><defs><pattern id="sampling" width="6" height="6" patternUnits="userSpaceOnUse"><path class="hatch" d="M0 6L6 0"/></pattern><pattern id="deployment" width="6" height="6" patternUnits="userSpaceOnUse"><path class="hatch" d="M3 0V6"/></pattern><pattern id="survey" width="6" height="6" patternUnits="userSpaceOnUse"><path class="hatch" d="M0 0L6 6"/></pattern><pattern id="upkeep" width="6" height="6" patternUnits="userSpaceOnUse"><path class="hatch" d="M0 3H6"/></pattern></defs></svg>`;
