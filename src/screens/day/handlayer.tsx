import { type CSSProperties, memo } from "react";
import { type Lane, REMOTE, type TimeScale } from "../../editor/index.ts";
import { FLIGHT_RULES } from "../../rules/index.ts";
import { clockText } from "../../words/index.ts";
import { useSession, useView } from "../context.ts";
import { nearestStarts, overlapsOf, pinsOf, type Starts } from "./breachmarks.ts";
import { useDial } from "../dial.ts";
import { slabFor, type DayLayout } from "./line/geometry.ts";

/** Over the line while something is in hand: where it breaks a rule, and from when to when it could start. */
export const HandLayer = memo(function HandLayer(props: {
  readonly layout: DayLayout;
  readonly scale: TimeScale;
}) {
  const { layout, scale } = props;
  const hand = useView((state) => state.inHand);
  const difference = useSession((state) => state.preview?.difference ?? null);
  const dial = useDial();
  if (!hand || !difference) return null;
  const { target } = hand;
  const lane = target.at === "line" ? layout.lanes.find(({ key }) => key === target.lane) : undefined;
  // Away from the flags of the lane that it is held over.
  const low = lane?.sense === "up" && lane.topPx < layout.lanesPx / 2;
  const remote = layout.lanes.find(({ key }) => key === REMOTE);
  return (
    <div
      className={low ? "hand-layer low" : "hand-layer"}
      style={{ "--remote": `${remote?.heightPx ?? 0}px` } as CSSProperties}
      aria-hidden="true"
    >
      {overlapsOf(layout.blocks, hand.tasks).map(({ lane, startS, endS, block }) => {
        const slab = slabFor(layout, scale, block);
        if (!slab) return null;
        const top = Math.min(slab.topLeft, slab.topRight);
        const height = Math.max(slab.bottomLeft, slab.bottomRight) - top;
        const left = scale.x(startS);
        return (
          <span
            key={`${block.task} ${lane} ${startS}`}
            className="overlap"
            style={{ left, top, width: scale.x(endS) - left, height }}
          />
        );
      })}
      {pinsOf(difference).map(({ atS, finding }) => {
        const x = scale.x(atS);
        if (x < 0 || x > scale.widthPx) return null;
        return (
          <span key={atS} className={x > scale.widthPx / 2 ? "pin before" : "pin"} style={{ left: x }}>
            <b>
              {FLIGHT_RULES[finding.rule].words}, {clockText(dial, atS)}
            </b>
          </span>
        );
      })}
      <Flags layout={layout} scale={scale} />
    </div>
  );
});

/** First and last start on the lane that it is held over, and how far these go if the others slide. */
function Flags({ layout, scale }: { readonly layout: DayLayout; readonly scale: TimeScale }) {
  const target = useView((state) => state.inHand?.target ?? null);
  const many = useView((state) => (state.inHand?.tasks.length ?? 0) > 1);
  const bands = useSession((state) => state.fitBands);
  const gridS = useSession((state) => state.plan.rules.startGridS);
  const lane = target?.at === "line" ? layout.lanes.find(({ key }) => key === target.lane) : undefined;
  if (!bands || !lane || target?.at !== "line") return null;
  const { fixed, sliding } = nearestStarts(bands, lane.key, target.startS, gridS);
  if (!fixed && !sliding && !many)
    return (
      <span className="start-flag nowhere" style={{ left: 4, top: flagTop(lane, "fixed") }}>
        fits nowhere on this lane as the day stands
      </span>
    );
  return (
    <>
      {fixed && <Pair lane={lane} starts={fixed} scale={scale} kind="fixed" />}
      {sliding && !same(fixed, sliding) && <Pair lane={lane} starts={sliding} scale={scale} kind="sliding" />}
    </>
  );
}

/** Flags stand in two rows at the far edge of the lane. */
function flagTop({ sense, topPx, heightPx }: Lane, kind: "fixed" | "sliding"): number {
  const row = kind === "fixed" ? 0 : 18;
  return sense === "up" ? topPx + 18 + row : topPx + heightPx - 36 - row;
}

function same(a: Starts | null, b: Starts): boolean {
  return a !== null && a.firstS === b.firstS && a.lastS === b.lastS;
}

function Pair(props: {
  readonly lane: Lane;
  readonly starts: Starts;
  readonly scale: TimeScale;
  readonly kind: "fixed" | "sliding";
}) {
  const { lane, starts, scale, kind } = props;
  const dial = useDial();
  const { firstS, lastS } = starts;
  const flag = (atS: number, side: "first" | "last" | "only"): React.ReactNode => {
    const x = scale.x(atS);
    if (x < 0 || x > scale.widthPx) return null;
    const time = clockText(dial, atS);
    const words = kind === "fixed" ? `${side} start ${time}` : `${time} if the others slide`;
    return (
      <span className={`start-flag ${side} ${kind}`} style={{ left: x, top: flagTop(lane, kind) }}>
        {words}
      </span>
    );
  };
  if (firstS === lastS) return flag(firstS, "only");
  return (
    <>
      {flag(firstS, "first")}
      {flag(lastS, "last")}
    </>
  );
}
