import { useMemo } from "react";
import type { Finding, FitBand, ReachTrack } from "../../../answers/index.ts";
import type { Between, Block, Lane, TimeScale } from "../../../editor/index.ts";
import { evaName, placeName } from "../../../words/index.ts";
import type { Brush } from "./brush.ts";
import { KeptCanvas } from "./canvas.tsx";
import {
  around,
  type Changed,
  type Columns,
  columnsOf,
  courseChange,
  differing,
  type Stretch,
  within,
} from "./changed.ts";
import { shows, slabFor, type Standing } from "./geometry.ts";
import { paintBlock, paintGhost } from "./paintblocks.ts";
import { findingLanes, paintFindings, taskStates } from "./paintfindings.ts";
import { paintLaneGrounds } from "./paintground.ts";
import { paintFitBands } from "./paintheld.ts";
import { paintBetween, paintCeiling, paintGround } from "./paintribbon.ts";

/** What is drawn in one lane's still layer, and what it depends on besides what stands there. */
interface Drawn {
  readonly standing: Standing;
  readonly scale: TimeScale;
  readonly selection: readonly string[];
  /** The tasks in hand. */
  readonly held: readonly string[];
  readonly chosen: Finding | null;
  /** Where the one task in hand would fit. */
  readonly bands: readonly FitBand[] | null;
  /** Where what moves now stood before. */
  readonly ghosts: readonly Block[];
}

/**
 * The still layer of one lane. A move judges the whole day anew, but most lanes come out as they were: such a lane keeps its
 * picture, and of the others only the stretch that changed is painted. What is in hand is drawn in its lane, on top of the others.
 */
export function LaneStill(props: Drawn & { readonly lane: Lane }) {
  const { lane, standing, scale, selection, held, chosen, bands, ghosts } = props;
  const drawn = useMemo(
    (): Drawn => ({
      standing: laneAlone(standing, lane),
      scale,
      selection,
      held,
      chosen,
      bands,
      ghosts: ghosts.filter((ghost) => ghost.lane === lane.key),
    }),
    [standing, lane, scale, selection, held, chosen, bands, ghosts],
  );
  return (
    <KeptCanvas
      widthPx={scale.widthPx}
      heightPx={lane.heightPx}
      drawn={drawn}
      changed={columnsChanged}
      paint={paintLane}
    />
  );
}

/** The day with this one lane only, at the top. */
export function laneAlone(standing: Standing, lane: Lane): Standing {
  return {
    ...standing,
    lanes: [{ ...lane, topPx: 0 }],
    blocks: standing.blocks.filter((block) => block.lane === lane.key),
    betweens: standing.betweens.filter((between) => between.lane === lane.key),
    lanesPx: lane.heightPx,
  };
}

/** Marks and outlines reach this far beyond what they are about, pixels. */
const BEYOND_PX = 16;

function columnsChanged(was: Drawn, now: Drawn): Columns | "all" | null {
  if (
    was.scale !== now.scale ||
    was.selection !== now.selection ||
    was.held !== now.held ||
    was.chosen !== now.chosen ||
    was.bands !== now.bands
  )
    return "all";
  const lane = laneChange(was.standing, now.standing);
  if (lane === "anywhere") return "all";
  const all = around([...(lane ? [lane] : []), ...differing(was.ghosts, now.ghosts, sameBlock)]);
  return all && columnsOf(all, now.scale, BEYOND_PX);
}

/** Where two days look different in the one lane they have. */
export function laneChange(a: Standing, b: Standing): Changed {
  if (a.plan !== b.plan || a.lanesPx !== b.lanesPx) return "anywhere";
  if (a.verdict === b.verdict && a.schedule === b.schedule) return null;
  return around([
    ...differing(a.blocks, b.blocks, sameBlock),
    ...differing(a.betweens, b.betweens, sameBetween),
    ...reachChange(reachOf(a), reachOf(b)),
    ...differing(marks(a), marks(b), sameMark),
  ]);
}

function reachOf({ verdict, lanes }: Standing): readonly ReachTrack[] {
  return verdict.reach.filter((track) => track.crew === lanes[0]?.crew);
}

function reachChange(a: readonly ReachTrack[], b: readonly ReachTrack[]): readonly Stretch[] {
  const evas = new Set([...a, ...b].map((track) => track.eva));
  return [...evas].flatMap((eva) => {
    const was = a.find((track) => track.eva === eva);
    const now = b.find((track) => track.eva === eva);
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
      a.eva === b.eva)
  );
}

function sameBetween(a: Between, b: Between): boolean {
  return (
    a.kind === b.kind &&
    a.startS === b.startS &&
    a.endS === b.endS &&
    a.homeStartS === b.homeStartS &&
    a.homeEndS === b.homeEndS &&
    a.rest?.startS === b.rest?.startS &&
    a.rest?.endS === b.rest?.endS
  );
}

function sameMark(a: Mark, b: Mark): boolean {
  return a.state === b.state && a.startS === b.startS && a.endS === b.endS;
}

interface Mark extends Stretch {
  readonly state: string;
}

/** The findings and states of tasks that this lane shows. */
function marks(standing: Standing): readonly Mark[] {
  const known = marksOf.get(standing);
  if (known) return known;
  const key = standing.lanes[0]?.key ?? "";
  const found = standing.verdict.findings.flatMap((finding): readonly Mark[] =>
    finding.span !== null && findingLanes(standing, finding).includes(key)
      ? [{ state: finding.level, startS: finding.span.startS, endS: finding.span.endS }]
      : [],
  );
  const states = taskStates(standing.verdict);
  const blocks = standing.blocks.map(({ task, startS, endS }) => ({
    state: states.get(task) ?? "sound",
    startS,
    endS,
  }));
  const all = [...found, ...blocks];
  marksOf.set(standing, all);
  return all;
}

const marksOf = new WeakMap<Standing, readonly Mark[]>();

function paintLane(brush: Brush, drawn: Drawn, columns: Columns | null): void {
  const { standing, selection, held, chosen, bands, ghosts } = drawn;
  const scale = within(drawn.scale, columns, BEYOND_PX);
  const { plan, lanes, verdict } = standing;
  const lane = lanes[0]!;
  const reach = verdict.reach.filter((track) => track.crew === lane.crew);
  paintLaneGrounds(brush, standing, scale);
  for (const track of reach) paintGround(brush, standing, lane, track, scale);
  const [only] = held;
  if (bands && only !== undefined) paintFitBands(brush, standing, scale, bands, only);
  for (const between of standing.betweens) paintBetween(brush, standing, between, scale);
  const states = taskStates(verdict);
  const going = new Set(held);
  const picked = new Set(selection);
  const put = (block: Block): void => {
    const task = standing.tasks.get(block.task);
    const slab = slabFor(standing, scale, block);
    if (!task || !slab || !shows(scale, block)) return;
    paintBlock(brush, slab, {
      task,
      place: block.eva === null ? evaName(plan, null) : placeName(plan, task.place),
      state: states.get(block.task) ?? "sound",
      selected: picked.has(block.task) && !going.has(block.task),
      held: going.has(block.task),
    });
  };
  for (const block of standing.blocks) if (!going.has(block.task)) put(block);
  for (const track of reach) paintCeiling(brush, standing, lane, track, scale);
  for (const ghost of ghosts) {
    const slab = slabFor(standing, scale, ghost);
    if (slab && shows(scale, ghost)) paintGhost(brush, slab, standing.tasks.get(ghost.task)?.name ?? "");
  }
  // What is in hand lies on top.
  for (const block of standing.blocks) if (going.has(block.task)) put(block);
  paintFindings(brush, standing, scale, chosen);
}
