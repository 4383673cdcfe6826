import { memo } from "react";
import { beyondHome, type TimeScale } from "../../editor/index.ts";
import { useSession, useView } from "../context.ts";
import { overlapsOf, pinsOf } from "./breachmarks.ts";
import { slabFor, type DayLayout } from "./line/geometry.ts";
import { LABEL_PX } from "./line/labels/placelabels.ts";
import type { HandLabels } from "./line/labels/uselabels.ts";

/** Over the line while something is in hand: where it breaks a rule, and from when to when it could start. */
export const HandLayer = memo(function HandLayer(props: {
  readonly layout: DayLayout;
  readonly scale: TimeScale;
  readonly labels: HandLabels["labels"];
}) {
  const { layout, scale, labels } = props;
  const hand = useView((state) => state.inHand);
  const difference = useSession((state) => state.preview?.difference ?? null);
  if (!hand || !difference) return null;
  return (
    <div className="hand-layer" aria-hidden="true">
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
      {pinsOf(difference).map(({ atS }) => {
        const x = scale.x(atS);
        return x >= 0 && x <= scale.widthPx && <span key={atS} className="pin" style={{ left: x }} />;
      })}
      {labels.map(({ key, kind, text, lane: on, x0, x1, out }) => {
        const lane = layout.lanes.find((one) => one.key === on);
        if (!lane) return null;
        const top = Math.round(beyondHome(lane, out)) - LABEL_PX / 2;
        return (
          <span
            key={key}
            className={`hand-label ${kind}`}
            style={{ left: Math.round(x0), top, width: Math.round(x1 - x0), height: LABEL_PX }}
          >
            {text}
          </span>
        );
      })}
    </div>
  );
});
