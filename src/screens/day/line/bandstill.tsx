import { useMemo } from "react";
import type { Finding, FitBand, ReachTrack } from "../../../answers/index.ts";
import type { Between, Block, Lane, TimeScale } from "../../../editor/index.ts";
import { remembered } from "../../../kernel/index.ts";
import type { Brush } from "../../parts/canvas/brush.ts";
import { KeptCanvas } from "../../parts/canvas/canvas.tsx";
import {
  around,
  type Changed,
  type Columns,
  columnsOf,
  courseChange,
  differing,
  type Stretch,
  within,
} from "../../parts/canvas/changed.ts";
import { inBy, shows, slabFor, type DayLayout } from "./geometry.ts";
import { formOf, insideText } from "./inside.ts";
import { blockMeasure, paintBlock, paintGhost, paintWords } from "./paintblocks.ts";
import { findingLanes, paintFindings, taskStates } from "./paintfindings.ts";
import { paintLaneGrounds } from "./paintground.ts";
import { paintFitBands } from "./paintfitbands.ts";
import { type BetweenOnRibbon, paintBetweens, paintCeiling, paintGround, paintHome } from "./paintribbon.ts";

/** What is drawn in one band's still layer, and what it depends on besides what stands there. */
interface Drawn {
  readonly layout: DayLayout;
  readonly scale: TimeScale;
  readonly selection: readonly string[];
  /** The tasks in hand. */
  readonly inHand: readonly string[];
  readonly chosen: Finding | null;
  /** Where the one task in hand would fit. */
  readonly bands: readonly FitBand[] | null;
  /** Where what moves now stood before. */
  readonly ghosts: readonly Block[];
  /** By how much each task may start later, seconds; none where that is not known. */
  readonly slack: ReadonlyMap<string, number>;
  /** Tasks on which a plate tells what the simulated days say of them. */
  readonly plates: ReadonlySet<string>;
}

/**
 * The still layer of one band: the lanes about one line home. A move judges the whole day anew, but most bands come out as they
 * were: such a band keeps its picture, and of the others only the stretch that changed is painted. What is in hand is drawn on top.
 */
export function BandStill(props: Drawn & { readonly lanes: readonly Lane[] }) {
  const { lanes, layout, scale, selection, inHand, chosen, bands, ghosts, slack, plates } = props;
  const drawn = useMemo(
    (): Drawn => ({
      layout: bandAlone(layout, lanes),
      scale,
      selection,
      inHand,
      chosen,
      bands,
      ghosts: ghosts.filter((ghost) => lanes.some((lane) => lane.key === ghost.lane)),
      slack,
      plates,
    }),
    [layout, lanes, scale, selection, inHand, chosen, bands, ghosts, slack, plates],
  );
  return (
    <KeptCanvas
      widthPx={scale.widthPx}
      heightPx={drawn.layout.lanesPx}
      drawn={drawn}
      changed={columnsChanged}
      paint={paintBand}
    />
  );
}

/** The day with these lanes only, at the top. */
export function bandAlone(layout: DayLayout, lanes: readonly Lane[]): DayLayout {
  const keys = new Set(lanes.map((lane) => lane.key));
  const top = Math.min(...lanes.map((lane) => lane.topPx));
  return {
    ...layout,
    lanes: lanes.map((lane) => ({ ...lane, topPx: lane.topPx - top })),
    blocks: layout.blocks.filter((block) => keys.has(block.lane)),
    betweens: layout.betweens.filter((between) => keys.has(between.lane)),
    lanesPx: lanes.reduce((sum, lane) => sum + lane.heightPx, 0),
  };
}

/** Marks and outlines reach this far beyond what they are about, pixels. */
const BEYOND_PX = 16;

function columnsChanged(was: Drawn, now: Drawn): Columns | "all" | null {
  if (
    was.scale !== now.scale ||
    was.selection !== now.selection ||
    was.inHand !== now.inHand ||
    was.chosen !== now.chosen ||
    was.bands !== now.bands ||
    was.slack !== now.slack ||
    was.plates !== now.plates
  )
    return "all";
  const band = bandChange(was.layout, now.layout);
  if (band === "anywhere") return "all";
  const all = around([...(band ? [band] : []), ...differing(was.ghosts, now.ghosts, sameBlock)]);
  return all && columnsOf(all, now.scale, BEYOND_PX);
}

/** Where two days look different in the lanes that they have. */
export function bandChange(a: DayLayout, b: DayLayout): Changed {
  if (a.plan !== b.plan || a.lanesPx !== b.lanesPx) return "anywhere";
  if (a.verdict === b.verdict && a.schedule === b.schedule) return null;
  return around([
    ...differing(a.blocks, b.blocks, sameBlock),
    ...differing(a.betweens, b.betweens, sameBetween),
    ...reachChange(reachOf(a), reachOf(b)),
    ...differing(marks(a), marks(b), sameMark),
    ...differing(limits(a), limits(b), sameStretch),
  ]);
}

function reachOf({ verdict, lanes }: DayLayout): readonly ReachTrack[] {
  return verdict.reach.filter((track) => lanes.some((lane) => lane.crew === track.crew));
}

function reachChange(a: readonly ReachTrack[], b: readonly ReachTrack[]): readonly Stretch[] {
  const outings = new Set([...a, ...b].map(({ eva, crew }) => `${eva} ${crew}`));
  return [...outings].flatMap((outing) => {
    const was = a.find(({ eva, crew }) => `${eva} ${crew}` === outing);
    const now = b.find(({ eva, crew }) => `${eva} ${crew}` === outing);
    return [
      courseChange(was?.points ?? [], now?.points ?? []) ?? [],
      courseChange(was?.allowed ?? [], now?.allowed ?? []) ?? [],
    ].flat();
  });
}

function sameBlock(a: Block, b: Block): boolean {
  return (
    a === b ||
    (a.task === b.task &&
      a.startS === b.startS &&
      a.endS === b.endS &&
      a.homeStartS === b.homeStartS &&
      a.homeEndS === b.homeEndS &&
      a.row === b.row &&
      a.lane === b.lane &&
      a.crew.join() === b.crew.join() &&
      a.eva === b.eva)
  );
}

function sameBetween(a: Between, b: Between): boolean {
  return (
    a === b ||
    (a.kind === b.kind &&
      a.lane === b.lane &&
      a.startS === b.startS &&
      a.endS === b.endS &&
      a.homeStartS === b.homeStartS &&
      a.homeEndS === b.homeEndS &&
      a.rest?.startS === b.rest?.startS &&
      a.rest?.endS === b.rest?.endS)
  );
}

function sameMark(a: Mark, b: Mark): boolean {
  return a.state === b.state && a.startS === b.startS && a.endS === b.endS;
}

function sameStretch(a: Stretch, b: Stretch): boolean {
  return a.startS === b.startS && a.endS === b.endS;
}

/** Where the EVAs that are out must be over. */
function limits({ plan, verdict }: DayLayout): readonly Stretch[] {
  return plan.evas.flatMap((eva) => {
    const outing = verdict.outings.find((one) => one.eva === eva.id);
    const atS = outing ? inBy(eva, outing.span) : eva.latestIngressS;
    return [{ startS: Math.min(atS, eva.latestIngressS), endS: Math.max(atS, eva.latestIngressS) }];
  });
}

interface Mark extends Stretch {
  readonly state: string;
}

/** The findings and states of tasks that these lanes show. */
const marks = remembered((layout: DayLayout): readonly Mark[] => {
  const keys = layout.lanes.map((lane) => lane.key);
  const found = layout.verdict.findings.flatMap((finding): readonly Mark[] => {
    const { span, level } = finding;
    const on = keys.filter((key) => findingLanes(layout, finding).includes(key));
    return span === null
      ? []
      : on.map((key) => ({ state: `${key} ${level}`, startS: span.startS, endS: span.endS }));
  });
  const states = taskStates(layout.verdict);
  const blocks = layout.blocks.map(({ task, startS, endS }) => ({
    state: states.get(task) ?? "sound",
    startS,
    endS,
  }));
  return [...found, ...blocks];
});

function paintBand(brush: Brush, drawn: Drawn, columns: Columns | null): void {
  const { layout, inHand, chosen, bands } = drawn;
  const scale = within(drawn.scale, columns, BEYOND_PX);
  const { lanes, verdict } = layout;
  const reach = lanes.flatMap((lane) =>
    verdict.reach.filter(({ crew }) => crew === lane.crew).map((track) => ({ lane, track })),
  );
  paintLaneGrounds(brush, layout, scale);
  const [only] = inHand;
  if (bands && only !== undefined) paintFitBands(brush, layout, drawn.scale, bands, only);
  for (const { lane, track } of reach) paintGround(brush, layout, lane, track, scale);
  for (const lane of lanes) if (lane.crew !== null && lane.sense === "up") paintHome(brush, lane);
  paintGhosts(brush, drawn, scale);
  paintBetweens(brush, betweensOn(drawn, scale));
  const going = new Set(inHand);
  const staying = layout.blocks.filter((block) => !going.has(block.task));
  const moving = layout.blocks.filter((block) => going.has(block.task));
  for (const block of staying) paintOne(brush, drawn, scale, block, going);
  for (const { lane, track } of reach) paintCeiling(brush, layout, lane, track, scale);
  // What is in hand lies on top.
  for (const block of moving) paintOne(brush, drawn, scale, block, going);
  paintFindings(brush, layout, scale, chosen);
}

/** Where what is in hand was taken from, under the day as it would be; named where that leaves the place empty. */
function paintGhosts(brush: Brush, { layout, ghosts, inHand }: Drawn, scale: TimeScale): void {
  for (const ghost of ghosts) {
    const slab = slabFor(layout, scale, ghost);
    if (!slab || !shows(scale, ghost)) continue;
    const isFree = ({ lane, startS, endS }: Block | Between): boolean =>
      lane !== ghost.lane || endS <= ghost.startS || ghost.endS <= startS;
    const empty =
      layout.betweens.every(isFree) &&
      layout.blocks.every((block) => inHand.includes(block.task) || isFree(block));
    paintGhost(brush, slab, empty ? (layout.tasks.get(ghost.task)?.name ?? "") : "");
  }
}

/** What is in sight of ways, waits and the work at the ends. */
function betweensOn({ layout, slack }: Drawn, scale: TimeScale): readonly BetweenOnRibbon[] {
  return layout.betweens.flatMap((between) => {
    const lane = layout.lanes.find((one) => one.key === between.lane);
    if (!lane || !shows(scale, between)) return [];
    const track = layout.verdict.reach.find(({ eva, crew }) => eva === between.eva && crew === between.lane);
    const ribbon = { layout, lane, track, scale };
    return [{ between, ribbon, slackS: slackBefore(layout, between, slack) }];
  });
}

/** By how much the task before a wait may start later; null where there is none, or where it is not known. */
export function slackBefore(
  layout: DayLayout,
  between: Between,
  slack: ReadonlyMap<string, number>,
): number | null {
  if (between.kind !== "wait") return null;
  const before = layout.blocks
    .filter(({ lane, eva, endS }) => lane === between.lane && eva === between.eva && endS <= between.startS)
    .reduce<Block | null>((last, block) => (last && last.endS >= block.endS ? last : block), null);
  return before ? (slack.get(before.task) ?? null) : null;
}

/** A block with its words; of one for two the words once, when both halves are painted. */
function paintOne(
  brush: Brush,
  drawn: Drawn,
  scale: TimeScale,
  block: Block,
  going: ReadonlySet<string>,
): void {
  const { layout, selection } = drawn;
  const task = layout.tasks.get(block.task);
  const lane = layout.lanes.find((one) => one.key === block.lane);
  const form = lane && shows(scale, block) ? formOf(layout, scale, block, lane) : null;
  if (!task || !lane || !form) return;
  paintBlock(brush, form, {
    task,
    state: taskStates(layout.verdict).get(block.task) ?? "sound",
    selected: selection.includes(block.task) && !going.has(block.task),
    isInHand: going.has(block.task),
  });
  const upper = form.across ? upperOf(layout, block, lane) : block;
  const text =
    upper && insideText(layout, scale, upper, drawn.plates.has(block.task), blockMeasure(brush.ctx));
  if (text) paintWords(brush, text);
}

/** The upper half of a block across the line home, in which its words stand; null before the last of its halves is painted. */
function upperOf({ blocks }: DayLayout, block: Block, lane: Lane): Block | null {
  const other = blocks.find((one) => one.task === block.task && one.lane === lane.mate);
  if (!other) return block;
  if (blocks.indexOf(other) > blocks.indexOf(block)) return null;
  return lane.sense === "down" ? other : block;
}
