import { useRef } from "react";
import type { Lane, TimeScale } from "../../dayline/index.ts";
import type { Finding } from "../../store/index.ts";
import { evaName, placeName } from "../words.ts";
import type { Brush } from "./brush.ts";
import { Canvas } from "./canvas.tsx";
import { shows, slabFor, type Standing } from "./geometry.ts";
import { paintBlock } from "./paintblocks.ts";
import { findingLanes, paintFindings, taskStates } from "./paintfindings.ts";
import { paintLaneGrounds } from "./paintground.ts";
import { paintBetween, paintCeiling, paintGround } from "./paintribbon.ts";

/** What is drawn in one lane's still layer, and what it depends on besides what stands there. */
interface Drawn {
  readonly standing: Standing;
  readonly scale: TimeScale;
  readonly selection: readonly string[];
  /** The tasks in hand: they are drawn in a layer of their own. */
  readonly held: readonly string[];
  readonly chosen: Finding | null;
}

/**
 * The still layer of one lane. A move judges the whole day anew, but most lanes come out as they were: such a lane
 * keeps what it was drawn from, and with it its picture.
 */
export function LaneStill(props: Drawn & { readonly lane: Lane }) {
  const { lane, standing, scale, selection, held, chosen } = props;
  const next: Drawn = { standing: laneAlone(standing, lane), scale, selection, held, chosen };
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
  const key = standing.lanes[0]?.key ?? "";
  const spans = standing.verdict.findings
    .filter((finding) => finding.span !== null && findingLanes(standing, finding).includes(key))
    .map(({ level, span }) => ({ level, startS: span?.startS, endS: span?.endS }));
  const states = taskStates(standing.verdict);
  return [...spans, ...standing.blocks.map((block) => ({ state: states.get(block.task) }))];
}

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
  const { standing, scale, selection, held, chosen } = drawn;
  const { plan, lanes, verdict } = standing;
  const lane = lanes[0]!;
  const reach = verdict.reach.filter((track) => track.crew === lane.crew);
  paintLaneGrounds(brush, standing, scale);
  for (const track of reach) paintGround(brush, standing, lane, track, scale);
  for (const between of standing.betweens) paintBetween(brush, standing, between, scale);
  const states = taskStates(verdict);
  for (const block of standing.blocks) {
    const task = standing.tasks.get(block.task);
    const slab = slabFor(standing, scale, block);
    if (!task || !slab || held.includes(block.task) || !shows(scale, block)) continue;
    paintBlock(brush, slab, {
      task,
      place: block.eva === null ? evaName(plan, null) : placeName(plan, task.place),
      state: states.get(block.task) ?? "sound",
      selected: selection.includes(block.task),
      held: false,
    });
  }
  for (const track of reach) paintCeiling(brush, standing, lane, track, scale);
  paintFindings(brush, standing, scale, chosen);
}
