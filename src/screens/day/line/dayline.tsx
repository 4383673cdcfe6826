import {
  type PointerEvent as ReactPointerEvent,
  type RefObject,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from "react";
import type { ChancesReport, Finding } from "../../../answers/index.ts";
import { type Block, type Edge, edgeUnder, hit, type TimeScale } from "../../../editor/index.ts";
import { chancesAtRest } from "../../../session/index.ts";
import { useAround, useDesk, useLook } from "../../context.ts";
import { useDay } from "../around.ts";
import { HandLayer } from "../handlayer.tsx";
import { Moved } from "../moved.tsx";
import { Pointed } from "../pointed.tsx";
import { BandStill } from "./bandstill.tsx";
import { BlockButtons } from "./buttons.tsx";
import { bandsOf, shows, slabFor, type DayLayout } from "./geometry.ts";
import { findingLanes } from "./paintfindings.ts";
import { OverLayer } from "./overlayer.tsx";
import { platesOf } from "./paintchances.ts";
import { EvaBars } from "./evabars.tsx";
import { useGhosts } from "./held.tsx";
import { LassoBox, useLasso } from "./lasso.tsx";
import { GRIP_PX, REST_MS, SLACK_PX } from "./sizes.ts";
import { usePanning } from "./panning.ts";
import { useStandstill } from "./standstill.ts";

/** The lanes: a still layer that is painted when the day or the window changes, and one for what is in hand. */
export function DayLine(props: {
  readonly standing: DayLayout;
  readonly scale: TimeScale;
  readonly stage: RefObject<HTMLDivElement | null>;
}) {
  const { standing, scale, stage } = props;
  const { desk, look } = useAround();
  const { gesture, windows } = useDay();
  const chosen = useLook((state) => state.chosen);
  const selection = useDesk((state) => state.selection);
  const held = useLook((state) => (state.inHand === null ? NOTHING : state.inHand.tasks));
  const alone = held.length === 0 ? selection : held;
  const only = alone.length === 1 ? (alone[0] ?? null) : null;
  const bands = useDesk((state) => (held.length === 1 ? state.fitBands : null));
  const ghosts = useGhosts(standing);
  // They come ten times a second while something is in hand; the line is painted sixty times.
  const chances = useDesk(chancesAtRest);
  const known = useKnown(chances);
  const rows = useMemo(() => bandsOf(standing.lanes), [standing.lanes]);
  const panning = usePanning(stage, scale, windows);
  const stands = useStandstill(scale);
  const latest = useRef({ standing, scale });
  useLayoutEffect(() => {
    latest.current = { standing, scale };
  });
  useLaneInSight(stage, latest, chosen);
  const lasso = useLasso(latest);
  const rest = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);

  /** The block under a point of the lanes, and the end of it that a pointer would take there. */
  const under = (x: number, y: number, slack: number): { block: Block; edge: Edge | null } | null => {
    const shown = standing.blocks.filter((block) => shows(scale, block));
    const block = hit(shown, (one) => slabFor(standing, scale, one)!, x, y, slack);
    return block ? { block, edge: edgeUnder(slabFor(standing, scale, block)!, x, GRIP_PX) } : null;
  };
  const openMenu = (task: string, x: number, y: number): void => {
    if (!desk.state.getState().selection.includes(task)) desk.select([task]);
    const box = stage.current?.getBoundingClientRect();
    look.setState({ menu: { x, y, ...(box ? { atS: scale.at(x - box.left) } : {}) } });
  };

  const press = (event: ReactPointerEvent<HTMLDivElement>): void => {
    if (event.button !== 0) return;
    const box = stage.current?.getBoundingClientRect();
    if (!box) return;
    const x = event.clientX - box.left;
    const y = event.clientY - box.top;
    const slack = SLACK_PX[event.pointerType as keyof typeof SLACK_PX] ?? 0;
    const found = under(x, y, slack);
    const more = event.shiftKey || event.ctrlKey || event.metaKey;
    if (found && !panning.pinching()) {
      const { block } = found;
      // A finger is as wide as an end: it moves tasks; their length is in the panel and the menu.
      const edge = event.pointerType === "touch" ? null : found.edge;
      const fromS = edge === "end" ? block.endS : block.startS;
      const grip = { task: block.task, lane: block.lane, offsetS: scale.at(x) - fromS, more };
      gesture.press(event.nativeEvent, edge === null ? grip : { ...grip, edge });
      if (event.pointerType === "touch") {
        const { clientX, clientY } = event;
        rest.current = setTimeout(() => {
          if (gesture.active()) return;
          gesture.forget();
          openMenu(block.task, clientX, clientY);
        }, REST_MS);
      }
      return;
    }
    if (event.shiftKey || look.getState().tool === "lasso") {
      lasso.press(event.nativeEvent, box, more);
      return;
    }
    panning.press(event.nativeEvent);
    if (event.pointerType === "mouse") desk.select([]);
  };
  const point = (event: ReactPointerEvent<HTMLDivElement>): void => {
    if (gesture.active()) {
      clearTimeout(rest.current);
      return;
    }
    const box = event.currentTarget.getBoundingClientRect();
    look.setState({ cursorS: scale.at(event.clientX - box.left) });
    if (event.pointerType !== "mouse") return;
    const edge = under(event.clientX - box.left, event.clientY - box.top, 0)?.edge ?? null;
    const { dataset } = event.currentTarget;
    // Set anew it would be styled anew, in every move.
    if ((dataset["edge"] ?? "") !== (edge ?? "")) dataset["edge"] = edge ?? "";
  };

  return (
    <div
      ref={stage}
      className={held.length > 0 ? "stage holding" : "stage"}
      style={{ height: standing.lanesPx }}
      onPointerDown={press}
      onPointerMove={point}
      onPointerUp={() => clearTimeout(rest.current)}
      onContextMenu={(event) => {
        event.preventDefault();
        const box = event.currentTarget.getBoundingClientRect();
        const found = under(event.clientX - box.left, event.clientY - box.top, 0);
        if (!found || gesture.active()) return;
        gesture.forget();
        openMenu(found.block.task, event.clientX, event.clientY);
      }}
      onPointerLeave={() => look.setState({ cursorS: null })}
    >
      {rows.map((lanes) => (
        <BandStill
          key={lanes[0]?.key}
          lanes={lanes}
          standing={standing}
          scale={scale}
          selection={selection}
          held={held}
          chosen={chosen}
          bands={bands}
          ghosts={ghosts}
          slack={known.slack}
          plates={known.plates}
        />
      ))}
      <OverLayer
        standing={standing}
        scale={scale}
        stands={stands}
        known={known}
        report={chances}
        selection={selection}
        only={only}
      />
      <EvaBars standing={standing} scale={scale} />
      <BlockButtons standing={standing} scale={stands} chances={chances} />
      {standing.blocks.length === 0 && standing.tasks.size > 0 && held.length === 0 && (
        <p className="line-hint">
          <span>
            <b>Nothing is on the line yet.</b> Drag tasks up from the bench, or let Pack fill the day.
          </span>
        </p>
      )}
      <HandLayer standing={standing} scale={scale} />
      <Moved standing={standing} scale={scale} />
      <Pointed standing={standing} scale={scale} />
      <LassoBox />
    </div>
  );
}

const NOTHING: readonly string[] = [];
/** What the simulated days say of each task. */
export interface Known {
  /** By how much it may start later, seconds; none where it may not. */
  readonly slack: ReadonlyMap<string, number>;
  /** Tasks on which a plate stands. */
  readonly plates: ReadonlySet<string>;
}

const UNKNOWN: Known = { slack: new Map(), plates: new Set() };

/** What the simulated days say; what they said last while a day is not counted yet, so that nothing moves for it. */
function useKnown(chances: ChancesReport | null): Known {
  const [kept, keep] = useState(UNKNOWN);
  useEffect(() => {
    if (!chances) return;
    const slack = chances.tasks.flatMap(({ task, slackS }) =>
      slackS === null ? [] : [[task, slackS] as const],
    );
    keep({ slack: new Map(slack), plates: new Set(platesOf(chances)) });
  }, [chances]);
  return kept;
}

/** Scrolls the lane of the finding that was gone to into sight, where not all lanes have room. */
function useLaneInSight(
  stage: RefObject<HTMLDivElement | null>,
  latest: RefObject<{ readonly standing: DayLayout }>,
  chosen: Finding | null,
): void {
  useEffect(() => {
    const scroller = stage.current?.parentElement;
    if (!chosen || !scroller) return;
    const { standing } = latest.current;
    const keys = findingLanes(standing, chosen);
    const lane = standing.lanes.find((one) => keys.includes(one.key));
    if (!lane) return;
    const top = Math.min(scroller.scrollTop, lane.topPx);
    scroller.scrollTop = Math.max(top, lane.topPx + lane.heightPx - scroller.clientHeight);
  }, [stage, latest, chosen]);
}
