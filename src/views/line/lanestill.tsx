import { useRef } from "react";
import type { Block, Lane, TimeScale } from "../../dayline/index.ts";
import type { Finding, FitBand } from "../../store/index.ts";
import { evaName, placeName } from "../words.ts";
import type { Brush } from "./brush.ts";
import { Canvas } from "./canvas.tsx";
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
 * The still layer of one lane. A move judges the whole day anew, but most lanes come out as they were: such a lane
 * keeps what it was drawn from, and with it its picture. What is in hand is drawn in its lane, on top of the others.
 */
export function LaneStill(props: Drawn & { readonly lane: Lane }) {
  const { lane, standing, scale, selection, held, chosen, bands } = props;
  const next: Drawn = {
    standing: laneAlone(standing, lane),
    scale,
    selection,
    held,
    chosen,
    bands,
    ghosts: props.ghosts.filter((ghost) => ghost.lane === lane.key),
  };
  const last = useRef<{ drawn: Drawn; paint: (brush: Brush) => void } | null>(null);
  if (!last.current || !sameDrawn(last.current.drawn, next)) {
    last.current = { drawn: next, paint: (brush) => paintLane(brush, next) };
  }
  return <Canvas widthPx={scale.widthPx} heightPx={lane.heightPx} paint={last.current.paint} />;
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

function sameDrawn(a: Drawn, b: Drawn): boolean {
  return (
    a.scale === b.scale &&
    a.selection === b.selection &&
    a.held === b.held &&
    a.chosen === b.chosen &&
    a.bands === b.bands &&
    sameItems(a.ghosts, b.ghosts) &&
    sameLane(a.standing, b.standing)
  );
}

/** True when two days look the same in the one lane they have. */
export function sameLane(a: Standing, b: Standing): boolean {
  if (a.plan !== b.plan || a.lanesPx !== b.lanesPx) return false;
  if (a.verdict === b.verdict && a.schedule === b.schedule) return true;
  return (
    sameItems(a.blocks, b.blocks) &&
    sameItems(a.betweens, b.betweens) &&
    sameItems(reachPoints(a), reachPoints(b)) &&
    sameItems(marks(a), marks(b))
  );
}

function reachPoints({ verdict, lanes }: Standing): readonly object[] {
  const own = verdict.reach.filter((track) => track.crew === lanes[0]?.crew);
  return own.flatMap((track) => [...track.points, ...track.allowed]);
}

/** The findings and states of tasks that this lane shows. */
function marks(standing: Standing): readonly object[] {
  const known = marksOf.get(standing);
  if (known) return known;
  const key = standing.lanes[0]?.key ?? "";
  const spans = standing.verdict.findings
    .filter((finding) => finding.span !== null && findingLanes(standing, finding).includes(key))
    .map(({ level, span }) => ({ level, startS: span?.startS, endS: span?.endS }));
  const states = taskStates(standing.verdict);
  const all = [...spans, ...standing.blocks.map((block) => ({ state: states.get(block.task) }))];
  marksOf.set(standing, all);
  return all;
}

const marksOf = new WeakMap<Standing, readonly object[]>();

/** Equal in number and, one by one, in every plain field; lists inside are not looked at. */
function sameItems(a: readonly object[], b: readonly object[]): boolean {
  if (a.length !== b.length) return false;
  return a.every((one, i) => {
    const other = b[i] as Record<string, unknown>;
    if (one === other) return true;
    return Object.entries(one).every(([key, value]) => typeof value === "object" || value === other[key]);
  });
}

function paintLane(brush: Brush, drawn: Drawn): void {
  const { standing, scale, selection, held, chosen, bands, ghosts } = drawn;
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
