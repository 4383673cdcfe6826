import type { ReachTrack } from "../../../../answers/index.ts";
import { isEmergencyGiven, isLimitGiven } from "../../../../plan/index.ts";
import { awayPx, type Lane, type TimeScale, valueNear } from "../../../../editor/index.ts";
import { clock, lasting } from "../../../../words/index.ts";
import type { ColourName } from "../../../theme/palette.ts";
import { slackBefore } from "../bandstill.tsx";
import { inBy, type DayLayout } from "../geometry.ts";
import { findingLanes, MARK_PX } from "../paintfindings.ts";
import { stayWords } from "../paintground.ts";
import { pauseFits, waitParts, waitWords } from "../paintribbon.ts";
import { type Box, HALF_TEXT_PX } from "./place.ts";
import { orAssumed } from "../../../words.ts";
import { leastOf, spareCourse } from "./spare.ts";

/** What stands in a sky in a fixed place, before any name: its text, and a line that it belongs to. Pixels, as in `place.ts`. */
export interface SkySign {
  readonly lane: string;
  readonly text: string;
  readonly colour: ColourName;
  /** The text's left end, its middle outwards, and its width. */
  readonly x: number;
  readonly out: number;
  readonly widthPx: number;
  /** An upright dimension line from near to far. */
  readonly line: { readonly x: number; readonly near: number; readonly far: number } | null;
}

/** The room that a sign takes. */
export function boxesOf({ x, out, widthPx, line }: SkySign): readonly Box[] {
  return [
    { x0: x, x1: x + widthPx, out0: out - HALF_TEXT_PX, out1: out + HALF_TEXT_PX },
    ...(line ? [{ x0: line.x - 4, x1: line.x + 4, out0: line.near, out1: line.far }] : []),
  ];
}

/** All signs of a crew lane; `textPx` measures their text, `pausePx` that of a pause as it is written on the ribbon. */
export function skySigns(
  layout: DayLayout,
  lane: Lane,
  scale: TimeScale,
  slack: ReadonlyMap<string, number>,
  textPx: (text: string) => number,
  pausePx: (text: string) => number,
): readonly SkySign[] {
  const own = layout.verdict.reach.filter(({ crew }) => crew === lane.crew);
  const limits =
    lane.sense === "up"
      ? limitSigns(layout, lane, scale, textPx)
      : own.flatMap((track) => farSign(layout, lane, scale, track, textPx));
  const spares: SkySign[] = [];
  for (const track of own) {
    const others = [...limits, ...spares].flatMap(boxesOf);
    const taken = [...others, ...stayBoxes(layout, lane, scale, textPx)];
    const sign = spareSign(layout, lane, scale, track, taken, textPx);
    if (sign) spares.push(sign);
  }
  const untold = untoldPauses(layout, lane, scale, slack, pausePx);
  return [...limits, ...spares, ...pauseSigns(layout, lane, scale, untold, [...limits, ...spares], textPx)];
}

/** The lines at which EVAs must be over, through the whole lane: no name goes through them. */
export function limitBoxes(layout: DayLayout, lane: Lane, scale: TimeScale): readonly Box[] {
  return layout.plan.evas.flatMap((eva) => {
    const outing = layout.verdict.outings.find((one) => one.eva === eva.id && one.crew === lane.crew);
    if (!outing) return [];
    const x = scale.x(inBy(eva, outing.span));
    return [{ x0: x - 1, x1: x + 1, out0: 0, out1: lane.heightPx }];
  });
}

/** The words of sleep and meals in the middle of the lane. */
export function stayBoxes(
  layout: DayLayout,
  lane: Lane,
  scale: TimeScale,
  textPx: (text: string) => number,
): readonly Box[] {
  return layout.plan.stay.blocks.flatMap((block) => {
    if (lane.crew === null || (block.crew.length > 0 && !block.crew.includes(lane.crew))) return [];
    const from = Math.max(scale.x(block.startS), 0);
    const to = Math.min(scale.x(block.endS), scale.widthPx);
    if (from >= to) return [];
    // The face there is a little greater than that of signs.
    const half = Math.min((to - from) / 2, textPx(stayWords(block)) * 0.54 + 4);
    const [x, out] = [(from + to) / 2, lane.heightPx / 2];
    return [{ x0: x - half, x1: x + half, out0: out - 10, out1: out + 10 }];
  });
}

/** The marks of findings at the far edge of the lane. */
export function markBoxes(layout: DayLayout, lane: Lane, scale: TimeScale): readonly Box[] {
  return layout.verdict.findings.flatMap((finding) => {
    const { span, level } = finding;
    if (!span || level === "open" || !findingLanes(layout, finding).includes(lane.key)) return [];
    const x = Math.max(MARK_PX, scale.x(span.startS));
    return [{ x0: x - 8, x1: x + 8, out0: lane.heightPx - 2 * MARK_PX, out1: lane.heightPx }];
  });
}

/** `in by 7:50` beside the line at which an EVA must be over. */
function limitSigns(
  layout: DayLayout,
  lane: Lane,
  scale: TimeScale,
  textPx: (text: string) => number,
): readonly SkySign[] {
  return layout.plan.evas.flatMap((eva): readonly SkySign[] => {
    const outing = layout.verdict.outings.find((one) => one.eva === eva.id && one.crew === lane.crew);
    if (!outing) return [];
    const text = orAssumed(`in by ${clock(inBy(eva, outing.span), "down")}`, !isLimitGiven(layout.plan, eva));
    const widthPx = textPx(text);
    const x = scale.x(inBy(eva, outing.span)) - widthPx - 4;
    if (x < 0 || x + widthPx > scale.widthPx) return [];
    return [{ lane: lane.key, text, colour: "ceiling", x, out: lane.heightPx - 21, widthPx, line: null }];
  });
}

/** A lane lower than this has no room to say what its ceiling is, pixels. */
const FAR_SIGN_PX = 180;

/** What lies beyond the ceiling, once for both lanes of a band. */
function farSign(
  layout: DayLayout,
  lane: Lane,
  scale: TimeScale,
  track: ReachTrack,
  textPx: (text: string) => number,
): readonly SkySign[] {
  const [first] = track.allowed;
  if (!first || lane.heightPx < FAR_SIGN_PX) return [];
  const most = Math.max(...track.allowed.map(({ value }) => value));
  const text = orAssumed(
    `too far: more than ${lasting(most, "down")} from home`,
    !isEmergencyGiven(layout.plan, track),
  );
  const widthPx = textPx(text);
  const x = Math.max(4, scale.x(first.atS) + 4);
  const last = scale.x(track.allowed.at(-1)?.atS ?? first.atS);
  const out = awayPx(lane, layout.relief, most) + layout.relief.thickPx + 9;
  if (x + widthPx > Math.min(last, scale.widthPx) - 4) return [];
  return [{ lane: lane.key, text, colour: "ceiling", x, out, widthPx, line: null }];
}

/** A dimension line shorter than this has no room for its ends, pixels. */
const LEAST_LINE_PX = 22;

/** The least spare of the walk home on one outing, from the ribbon to the ceiling. */
function spareSign(
  layout: DayLayout,
  lane: Lane,
  scale: TimeScale,
  track: ReachTrack,
  taken: readonly Box[],
  textPx: (text: string) => number,
): SkySign | null {
  const least = leastOf(spareCourse(track));
  if (!least || least.value < 0) return null;
  const { relief, plan } = layout;
  const outer = (homeS: number): number => awayPx(lane, relief, homeS) + relief.thickPx;
  const near = outer(valueNear(track, least.atS, 0));
  const far = outer(valueNear({ points: track.allowed }, least.atS, 0));
  const x = scale.x(least.atS);
  const assumed = !isEmergencyGiven(plan, track);
  const text = orAssumed(`${lasting(least.value, "down")} to spare, the least`, assumed);
  const widthPx = textPx(text);
  if (x < 4 || x > scale.widthPx - 4) return null;
  const tight = least.value < plan.rules.tightS;
  const short = far - near < LEAST_LINE_PX;
  const sign: SkySign = {
    lane: lane.key,
    text,
    colour: tight ? "tight" : "ink-soft",
    x: x + 6,
    out: short ? far + 14 : far - (far - near) * 0.3,
    widthPx,
    line: { x, near, far },
  };
  const sides = [x + 6, x - 6 - widthPx].filter((left) => left >= 4 && left + widthPx <= scale.widthPx - 4);
  // Where something stands already a little nearer, a little farther, beyond the ceiling, or not at all.
  const outs = [sign.out, sign.out - 16, sign.out + 16, far + 14].filter(
    (out) => out + HALF_TEXT_PX <= lane.heightPx,
  );
  const places = sides.flatMap((left) => outs.map((out) => ({ ...sign, x: left, out })));
  return (
    places.find(
      (place) =>
        place.out - HALF_TEXT_PX >= highest(track, scale, place, outer) &&
        !crossesCeiling(track, scale, place, outer) &&
        !boxesOf(place).some((box) => taken.some((other) => overlap(box, other))),
    ) ?? null
  );
}

/** Columns between two looks at the ribbon under a text. */
const STEP_PX = 4;

/** How far out the ribbon of an outing reaches under a text; 0 where it is not under it. */
function highest(
  { points }: ReachTrack,
  scale: TimeScale,
  { x, widthPx }: Pick<SkySign, "x" | "widthPx">,
  outer: (homeS: number) => number,
): number {
  const [from, to] = [points[0]?.atS ?? Infinity, points.at(-1)?.atS ?? -Infinity];
  let most = 0;
  for (let column = x; column < x + widthPx + STEP_PX; column += STEP_PX) {
    const atS = scale.at(Math.min(column, x + widthPx));
    if (atS >= from && atS <= to) most = Math.max(most, outer(valueNear({ points }, atS, 0)));
  }
  return most;
}

/** True where a text stands on the ceiling of its outing, level or falling. */
function crossesCeiling(
  { allowed }: ReachTrack,
  scale: TimeScale,
  { x, widthPx, out }: SkySign,
  outer: (homeS: number) => number,
): boolean {
  const [from, to] = [allowed[0]?.atS ?? Infinity, allowed.at(-1)?.atS ?? -Infinity];
  let [low, high] = [Infinity, -Infinity];
  for (let column = x; column < x + widthPx + STEP_PX; column += STEP_PX) {
    const atS = scale.at(Math.min(column, x + widthPx));
    if (atS < from || atS > to) continue;
    const ceiling = outer(valueNear({ points: allowed }, atS, 0));
    [low, high] = [Math.min(low, ceiling), Math.max(high, ceiling)];
  }
  return out + HALF_TEXT_PX > low && out - HALF_TEXT_PX < high;
}

/** A pause in sight whose words have no room between its ends, pixels. */
interface UntoldPause {
  readonly text: string;
  readonly kind: ReturnType<typeof waitParts>[number]["kind"];
  readonly left: number;
  readonly right: number;
  /** The longer of the walks home at its ends. */
  readonly homeS: number;
}

/** The pauses that the ribbon does not name itself: what it has room for is measured in the face that it writes in. */
function untoldPauses(
  layout: DayLayout,
  lane: Lane,
  scale: TimeScale,
  slack: ReadonlyMap<string, number>,
  pausePx: (text: string) => number,
): readonly UntoldPause[] {
  const waits = layout.betweens.filter((one) => one.kind === "wait" && one.lane === lane.key);
  return waits.flatMap((between) => {
    const slackS = slackBefore(layout, between, slack);
    const homeS = Math.max(between.homeStartS, between.homeEndS);
    return waitParts(between, slackS).flatMap((part) => {
      const [left, right] = [scale.x(part.startS), scale.x(part.endS)];
      const words = waitWords(part, slackS);
      if (right < 0 || left > scale.widthPx || right - left < 4) return [];
      if (pauseFits(words, right - left, pausePx)) return [];
      return [{ text: words.join(" "), kind: part.kind, left, right, homeS }];
    });
  });
}

/** Words of pauses that have no room between their ends: just beyond the ribbon. */
function pauseSigns(
  { relief, verdict, blocks }: DayLayout,
  lane: Lane,
  scale: TimeScale,
  untold: readonly UntoldPause[],
  others: readonly SkySign[],
  textPx: (text: string) => number,
): readonly SkySign[] {
  const found: SkySign[] = [];
  const tracks = verdict.reach.filter(({ crew }) => crew === lane.crew);
  const outer = (homeS: number): number => awayPx(lane, relief, homeS) + relief.thickPx;
  const beside = blocks
    .filter((block) => block.lane === lane.key)
    .map(({ startS, endS }) => ({ from: scale.x(startS), to: scale.x(endS) }));
  for (const { text, kind, left, right, homeS } of untold) {
    const widthPx = textPx(text);
    const middle = (left + right - widthPx) / 2;
    const x = Math.min(scale.widthPx - widthPx - 4, Math.max(4, middle + asideOf(middle, widthPx, beside)));
    // Beside a pause the ribbon may go farther out than at it, and the words are wider than the pause.
    const under = tracks.map((track) => highest(track, scale, { x, widthPx }, outer));
    const out = Math.max(outer(homeS), ...under) + 10;
    const colour = kind === "slack" ? "fit" : "ink";
    const sign: SkySign = { lane: lane.key, text, colour, x, out, widthPx, line: null };
    if (![...others, ...found].some((other) => overlaps(sign, other))) found.push(sign);
  }
  return found;
}

/** What a block keeps free of words that stand over it, so that the hairline of its name has a way, pixels; and what words go aside for it. */
const FREE_PX = 6;
const ASIDE_PX = [0, 4, -4, 8, -8, 12, -12];

/** By how much words that would cover all of a narrow block go aside; 0 where nothing helps. */
function asideOf(
  x: number,
  widthPx: number,
  blocks: readonly { readonly from: number; readonly to: number }[],
): number {
  const covers = (by: number): boolean =>
    blocks.some(({ from, to }) => {
      const [left, right] = [x + by - FREE_PX, x + by + widthPx + FREE_PX];
      return from > left && to < right;
    });
  return ASIDE_PX.find((by) => !covers(by)) ?? 0;
}

function overlaps(a: SkySign, b: SkySign): boolean {
  return boxesOf(a).some((one) => boxesOf(b).some((other) => overlap(one, other)));
}

function overlap(one: Box, other: Box): boolean {
  const across = one.x0 < other.x1 + 3 && other.x0 < one.x1 + 3;
  return across && one.out0 < other.out1 && other.out0 < one.out1;
}
