import type { PointerEvent as ReactPointerEvent } from "react";
import { homeY, type TimeScale } from "../../../editor/index.ts";
import { clockText, counted, lasting } from "../../../words/index.ts";
import { useLook } from "../../context.ts";
import { useDay } from "../around.ts";
import { useDial } from "../../dial.ts";
import { bandsOf, shows, type DayLayout } from "./geometry.ts";
import { useStill } from "./still.ts";

/** Narrower than this nobody takes hold of it, pixels. */
const LEAST_PX = 10;

/**
 * A handle over the egress of every EVA, and one over its ingress: dragged or taken in hand by keys it moves all of the EVA, pressed it
 * selects it.
 */
export function EvaBars(props: { readonly standing: DayLayout; readonly scale: TimeScale }) {
  // Pointers are followed by the window: under a drag they may stay where they were.
  const standing = useStill(props.standing);
  const { scale } = props;
  const { gesture } = useDay();
  const dial = useDial();
  const held = useLook((state) => state.inHand?.eva ?? null);
  const { plan, schedule, verdict, relief } = standing;
  return plan.evas.flatMap((eva) => {
    const outing = verdict.outings.find((one) => one.eva === eva.id);
    const spots = schedule.placements.filter((one) => one.eva === eva.id);
    const [first] = spots.toSorted((a, b) => a.startS - b.startS);
    if (!outing || !first || !shows(scale, outing.span)) return [];
    const { startS, endS } = outing.span;
    const name = `${eva.name}, out ${clockText(dial, startS, eva.id)}, in ${clockText(dial, endS, eva.id)}, lasts ${lasting(endS - startS, "up")}, ${counted(spots.length, "task")}`;
    const press = (event: ReactPointerEvent<HTMLElement>): void => {
      if (event.button !== 0) return;
      event.stopPropagation();
      const stage = event.currentTarget.parentElement?.getBoundingClientRect();
      const offsetS = scale.at(event.clientX - (stage?.left ?? 0)) - first.startS;
      const lane = first.crew[0] ?? null;
      gesture.press(event.nativeEvent, { task: first.task, lane, offsetS, eva: eva.id });
    };
    const ends = outing.stretches.filter(({ kind }) => kind === "egress" || kind === "ingress");
    return bandsOf(standing.lanes).flatMap((band, nth) => {
      const lanes = band.filter((lane) => lane.crew !== null && eva.crew.includes(lane.crew));
      if (lanes.length === 0) return [];
      const edges = lanes.map((lane) => [
        homeY(lane),
        homeY(lane) + (lane.sense === "up" ? -1 : 1) * relief.thickPx,
      ]);
      const top = Math.min(...edges.flat());
      return ends.map(({ kind, span }) => {
        const left = scale.x(span.startS);
        const style = {
          left,
          top,
          width: Math.max(LEAST_PX, scale.x(span.endS) - left),
          height: Math.max(...edges.flat()) - top,
        };
        const shared = {
          className: held === eva.id ? "eva-bar held" : "eva-bar",
          title: `${eva.name}: drag moves all of it`,
          style,
          onPointerDown: press,
        };
        const key = `${eva.id} ${nth} ${kind}`;
        // One for the keyboard is enough.
        if (kind === "ingress" || lanes[0]?.crew !== first.crew[0]) return <div key={key} {...shared} />;
        return (
          <button
            key={key}
            type="button"
            data-eva={eva.id}
            data-eva-task={first.task}
            aria-label={name}
            {...shared}
          />
        );
      });
    });
  });
}
