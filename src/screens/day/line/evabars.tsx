import { memo, type PointerEvent as ReactPointerEvent } from "react";
import type { Outing } from "../../../answers/index.ts";
import { homeY, type Lane, type TimeScale } from "../../../editor/index.ts";
import type { Placement, Plan } from "../../../plan/index.ts";
import { clockText, counted, lasting } from "../../../words/index.ts";
import { useView } from "../../context.ts";
import { useDay } from "../context.ts";
import { useDial } from "../../dial.ts";
import { bandsOf, shows, type DayLayout } from "./geometry.ts";
import { useStill } from "./still.ts";

/** Narrower than this nobody takes hold of it, pixels. */
const LEAST_PX = 10;

/**
 * A handle over the egress of every EVA, and one over its ingress: dragged or taken in hand by keys it moves all of the EVA, pressed it
 * selects it.
 */
export function EvaBars(props: { readonly layout: DayLayout; readonly scale: TimeScale }) {
  // Pointers are followed by the window: under a drag they may stay where they were.
  return <StillBars layout={useStill(props.layout)} scale={props.scale} />;
}

const StillBars = memo(function StillBars(props: { readonly layout: DayLayout; readonly scale: TimeScale }) {
  const { layout, scale } = props;
  return outNow(layout)
    .filter(({ outing }) => shows(scale, outing.span))
    .flatMap((out) =>
      bandsOf(layout.lanes).map((band, nth) => (
        <BandBars key={`${out.eva.id} ${nth}`} {...out} layout={layout} scale={scale} band={band} />
      )),
    );
});

/** An EVA that goes out, with its first task, by which it is taken. */
interface Out {
  readonly eva: Plan["evas"][number];
  readonly outing: Outing;
  readonly first: Placement;
  readonly tasks: number;
}

function outNow({ plan, schedule, verdict }: DayLayout): readonly Out[] {
  return plan.evas.flatMap((eva) => {
    const outing = verdict.outings.find((one) => one.eva === eva.id);
    const placements = schedule.placements.filter((one) => one.eva === eva.id);
    const [first] = placements.toSorted((a, b) => a.startS - b.startS);
    return outing && first ? [{ eva, outing, first, tasks: placements.length }] : [];
  });
}

/** The handles of an EVA on the lanes about one line home. */
function BandBars(
  props: Out & { readonly layout: DayLayout; readonly scale: TimeScale; readonly band: readonly Lane[] },
) {
  const { eva, outing, first, tasks, layout, scale, band } = props;
  const { gesture } = useDay();
  const dial = useDial();
  const isInHand = useView((state) => state.inHand?.eva === eva.id);
  const other = useView((state) => state.inHand !== null && state.inHand.eva !== eva.id);
  const lanes = band.filter((lane) => lane.crew !== null && eva.crew.includes(lane.crew));
  if (lanes.length === 0) return null;
  const { startS, endS } = outing.span;
  const press = (event: ReactPointerEvent<HTMLElement>): void => {
    if (event.button !== 0) return;
    event.stopPropagation();
    const stage = event.currentTarget.parentElement?.getBoundingClientRect();
    const offsetS = scale.at(event.clientX - (stage?.left ?? 0)) - first.startS;
    const lane = first.crew[0] ?? null;
    gesture.press(event.nativeEvent, { task: first.task, lane, offsetS, eva: eva.id });
  };
  const shared = {
    className: isInHand ? "eva-bar held" : "eva-bar",
    // Nothing else can be taken meanwhile, and its edge would cross what is in hand.
    "data-waits": other || undefined,
    title: `${eva.name}: drag moves all of it`,
    onPointerDown: press,
  };
  const upright = ribbonOf(layout, lanes);
  return outing.stretches
    .filter(({ kind }) => kind === "egress" || kind === "ingress")
    .map(({ kind, span }) => {
      const left = scale.x(span.startS);
      const style = { left, width: Math.max(LEAST_PX, scale.x(span.endS) - left), ...upright };
      // One for the keyboard is enough.
      if (kind === "ingress" || lanes[0]?.crew !== first.crew[0])
        return <div key={kind} {...shared} style={style} />;
      return (
        <button
          key={kind}
          type="button"
          data-eva={eva.id}
          data-eva-task={first.task}
          aria-label={`${eva.name}, out ${clockText(dial, startS, eva.id)}, in ${clockText(dial, endS, eva.id)}, lasts ${lasting(endS - startS, "up")}, ${counted(tasks, "task")}`}
          {...shared}
          style={style}
        />
      );
    });
}

/** From edge to edge of the ribbon of these lanes, at the line home. */
function ribbonOf(
  { relief }: DayLayout,
  lanes: readonly Lane[],
): { readonly top: number; readonly height: number } {
  const edges = lanes.flatMap((lane) => [
    homeY(lane),
    homeY(lane) + (lane.sense === "up" ? -1 : 1) * relief.thickPx,
  ]);
  const top = Math.min(...edges);
  return { top, height: Math.max(...edges) - top };
}
