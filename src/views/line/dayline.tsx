import { type PointerEvent as ReactPointerEvent, type RefObject, useCallback } from "react";
import { hit, REMOTE, reliefY, type TimeScale } from "../../dayline/index.ts";
import { useAround, useDesk, useLook } from "../context.ts";
import { useDay } from "../day/around.ts";
import { evaName, placeName } from "../words.ts";
import type { Brush } from "./brush.ts";
import { BlockButtons } from "./buttons.tsx";
import { Canvas } from "./canvas.tsx";
import { shows, slabFor, type Standing } from "./geometry.ts";
import { paintBlock, paintGhost } from "./paintblocks.ts";
import { paintFindings, taskStates } from "./paintfindings.ts";
import { paintLaneGrounds, paintWindows } from "./paintground.ts";
import { paintFitBands, paintPlumb } from "./paintheld.ts";
import { paintBetween, paintCeiling, paintGround } from "./paintribbon.ts";
import { SLACK_PX } from "./sizes.ts";
import { usePanning } from "./panning.ts";

/** The lanes: a still layer that is painted when the day or the window changes, and one for what is in hand. */
export function DayLine(props: {
  readonly standing: Standing;
  readonly scale: TimeScale;
  readonly stage: RefObject<HTMLDivElement | null>;
}) {
  const { standing, scale, stage } = props;
  const { desk, look } = useAround();
  const { hold, chosen, windows } = useDay();
  const selection = useDesk((state) => state.selection);
  const inHand = useLook((state) => state.inHand);
  const held = inHand?.task ?? null;
  const panning = usePanning(stage, scale, windows);

  const paintStill = useCallback(
    (brush: Brush) => paintDay(brush, standing, scale, selection, held, chosen),
    [standing, scale, selection, held, chosen],
  );

  const press = (event: ReactPointerEvent<HTMLDivElement>): void => {
    if (event.button !== 0) return;
    const box = stage.current?.getBoundingClientRect();
    if (!box) return;
    const x = event.clientX - box.left;
    const y = event.clientY - box.top;
    const slack = SLACK_PX[event.pointerType as keyof typeof SLACK_PX] ?? 0;
    const shown = standing.blocks.filter((block) => shows(scale, block));
    const block = hit(shown, (one) => slabFor(standing, scale, one)!, x, y, slack);
    if (block && !panning.pinching()) {
      hold.press(event.nativeEvent, {
        task: block.task,
        lane: block.lane,
        offsetS: scale.at(x) - block.startS,
      });
      return;
    }
    panning.press(event.nativeEvent);
    if (event.pointerType === "mouse") desk.select([]);
  };

  return (
    <div
      ref={stage}
      className={held ? "stage holding" : "stage"}
      style={{ height: standing.lanesPx }}
      onPointerDown={press}
      onPointerMove={(event) => {
        if (!hold.holding()) look.setState({ cursorS: scale.at(event.clientX - leftOf(stage)) });
      }}
      onPointerLeave={() => look.setState({ cursorS: null })}
    >
      <Canvas widthPx={scale.widthPx} heightPx={standing.lanesPx} paint={paintStill} />
      {held && <HeldLayer standing={standing} scale={scale} />}
      <BlockButtons standing={standing} scale={scale} />
      {standing.blocks.length === 0 && standing.tasks.size > 0 && !held && (
        <p className="line-hint">
          <b>Nothing is on the line yet.</b>
          <span>Drag tasks up from the bench, or let Pack fill the day.</span>
        </p>
      )}
    </div>
  );
}

function leftOf(stage: RefObject<HTMLDivElement | null>): number {
  return stage.current?.getBoundingClientRect().left ?? 0;
}

/** Fit bands, the old place as a ghost, the held blocks and their plumb lines. */
function HeldLayer(props: { readonly standing: Standing; readonly scale: TimeScale }) {
  const { standing, scale } = props;
  const held = useLook((state) => state.inHand?.task ?? null);
  const bands = useDesk((state) => state.fitBands);
  const start = useDesk((state) => state.plan.schedule);
  const paint = useCallback(
    (brush: Brush) => {
      if (held === null) return;
      const task = standing.tasks.get(held);
      if (!task) return;
      if (bands) paintFitBands(brush, standing, scale, bands, held);
      paintWindows(brush, standing, scale, held);
      const before = start.placements.find((one) => one.task === held);
      const states = taskStates(standing.verdict);
      const now = standing.blocks.filter((block) => block.task === held);
      if (before && before.startS !== now[0]?.startS) {
        const lanes = before.crew.length === 0 ? [REMOTE] : before.crew;
        for (const lane of lanes) {
          const ghost = {
            task: held,
            lane,
            eva: before.eva,
            startS: before.startS,
            endS: before.startS + task.duration.likelyS,
            homeStartS: 0,
            homeEndS: 0,
            row: 0,
          };
          const slab = slabFor(standing, scale, ghost);
          if (slab) paintGhost(brush, slab, task.name);
        }
      }
      const first = now[0];
      if (first) paintPlumb(brush, scale, first.startS, first.endS, standing.lanesPx);
      for (const block of now) {
        const slab = slabFor(standing, scale, block);
        if (!slab) continue;
        paintBlock(brush, slab, {
          task,
          place: placeName(standing.plan, task.place),
          state: states.get(held) ?? "sound",
          selected: false,
          held: true,
        });
      }
    },
    [standing, scale, held, bands, start],
  );
  return <Canvas className="moving" widthPx={scale.widthPx} heightPx={standing.lanesPx} paint={paint} />;
}

function paintDay(
  brush: Brush,
  standing: Standing,
  scale: TimeScale,
  selection: readonly string[],
  held: string | null,
  chosen: ReturnType<typeof useDay>["chosen"],
): void {
  const { plan, lanes, verdict } = standing;
  paintLaneGrounds(brush, standing, scale);
  for (const lane of lanes) {
    for (const track of verdict.reach) {
      if (track.crew === lane.crew) paintGround(brush, standing, lane, track, scale);
    }
  }
  for (const between of standing.betweens) paintBetween(brush, standing, between, scale);
  const states = taskStates(verdict);
  for (const block of standing.blocks) {
    if (block.task === held || !shows(scale, block)) continue;
    const task = standing.tasks.get(block.task);
    const slab = slabFor(standing, scale, block);
    if (!task || !slab) continue;
    paintBlock(brush, slab, {
      task,
      place: block.eva === null ? evaName(plan, null) : placeName(plan, task.place),
      state: states.get(block.task) ?? "sound",
      selected: selection.includes(block.task),
      held: false,
    });
  }
  for (const lane of lanes) {
    for (const track of verdict.reach) {
      if (track.crew === lane.crew) paintCeiling(brush, standing, lane, track, scale);
    }
  }
  paintFindings(brush, standing, scale, chosen);
  const only = selection.length === 1 && held === null ? selection[0] : undefined;
  if (only !== undefined) paintWindows(brush, standing, scale, only);
}

/** Heights at which a lane is labelled: minutes of walk home. */
export function heightLabels(
  standing: Standing,
  laneKey: string,
): readonly { readonly minutes: number; readonly y: number }[] {
  const lane = standing.lanes.find((one) => one.key === laneKey);
  if (!lane || lane.key === REMOTE) return [];
  const { topS } = standing.relief;
  const stepS = topS > 3600 ? 1800 : 600;
  const labels: { minutes: number; y: number }[] = [];
  for (let homeS = stepS; homeS < topS; homeS += stepS) {
    const y = reliefY(lane, standing.relief, homeS) - lane.topPx;
    // Where the lane is low, only heights whose figures do not run into each other.
    if (labels.every((label) => Math.abs(label.y - y) >= 11)) labels.push({ minutes: homeS / 60, y });
  }
  return labels;
}
