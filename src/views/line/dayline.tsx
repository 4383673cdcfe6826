import { type PointerEvent as ReactPointerEvent, type RefObject, useCallback, useMemo } from "react";
import { blocksOf, hit, REMOTE, reliefY, remoteRowsOf, type TimeScale } from "../../dayline/index.ts";
import { useAround, useDesk, useLook } from "../context.ts";
import { useDay } from "../day/around.ts";
import { placeName } from "../words.ts";
import type { Brush } from "./brush.ts";
import { BlockButtons } from "./buttons.tsx";
import { Canvas } from "./canvas.tsx";
import { shows, slabFor, type Standing } from "./geometry.ts";
import { paintBlock, paintGhost } from "./paintblocks.ts";
import { LaneStill } from "./lanestill.tsx";
import { taskStates } from "./paintfindings.ts";
import { paintWindows } from "./paintground.ts";
import { paintFitBands, paintPlumb } from "./paintheld.ts";
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
  const only = selection.length === 1 && held === null ? (selection[0] ?? null) : null;
  const panning = usePanning(stage, scale, windows);

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
      {standing.lanes.map((lane) => (
        <LaneStill
          key={lane.key}
          lane={lane}
          standing={standing}
          scale={scale}
          selection={selection}
          held={held}
          chosen={chosen}
        />
      ))}
      {only !== null && <WindowsLayer standing={standing} scale={scale} task={only} />}
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

/** Where the one selected task may be. */
function WindowsLayer(props: {
  readonly standing: Standing;
  readonly scale: TimeScale;
  readonly task: string;
}) {
  const { standing, scale, task } = props;
  const paint = useCallback(
    (brush: Brush) => paintWindows(brush, standing, scale, task),
    [standing, scale, task],
  );
  return <Canvas className="moving" widthPx={scale.widthPx} heightPx={standing.lanesPx} paint={paint} />;
}

/** Fit bands, the old place as a ghost, the held blocks and their plumb lines. */
function HeldLayer(props: { readonly standing: Standing; readonly scale: TimeScale }) {
  const { standing, scale } = props;
  const held = useLook((state) => state.inHand?.task ?? null);
  const bands = useDesk((state) => state.fitBands);
  const plan = useDesk((state) => state.plan);
  const settled = useDesk((state) => state.verdict);
  const ghosts = useMemo(
    () =>
      blocksOf(plan, plan.schedule, settled.reach, remoteRowsOf(plan, plan.schedule).row).filter(
        (block) => block.task === held,
      ),
    [plan, settled, held],
  );
  const paint = useCallback(
    (brush: Brush) => {
      if (held === null) return;
      const task = standing.tasks.get(held);
      if (!task) return;
      if (bands) paintFitBands(brush, standing, scale, bands, held);
      paintWindows(brush, standing, scale, held);
      const states = taskStates(standing.verdict);
      const now = standing.blocks.filter((block) => block.task === held);
      const moved =
        ghosts[0]?.startS !== now[0]?.startS || ghosts.some((one, i) => one.lane !== now[i]?.lane);
      for (const ghost of moved ? ghosts : []) {
        const slab = slabFor(standing, scale, ghost);
        if (slab) paintGhost(brush, slab, task.name);
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
    [standing, scale, held, bands, ghosts],
  );
  return <Canvas className="moving" widthPx={scale.widthPx} heightPx={standing.lanesPx} paint={paint} />;
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
