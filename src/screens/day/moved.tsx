import { type CSSProperties, memo, useEffect, useRef, useState } from "react";
import type { Slab, TimeScale } from "../../editor/index.ts";
import { betterDay } from "../../session/index.ts";
import { useAround, useDesk } from "../context.ts";
import { type ChangedBlock, changedBlocks } from "./changedblocks.ts";
import { slabFor, type Standing } from "./line/geometry.ts";

/** How long what has changed is edged, ms; a better day of the packer until the next one. */
const EDGED_MS = 1000;
/** Better days move nearly every task by minutes: only from here on is it worth an edge, seconds. */
const WORTH_S = 600;

interface Change {
  readonly nth: number;
  readonly blocks: readonly ChangedBlock[];
}

/**
 * What an undo, a pack or a mend has changed: each block's edge glides from where it was and stays for a second; where it was is
 * dotted while the packer is at work. A hand shows what it moves by itself.
 */
export const Moved = memo(function Moved(props: { readonly standing: Standing; readonly scale: TimeScale }) {
  const { standing, scale } = props;
  const packing = useDesk((state) => betterDay(state) !== null);
  const change = useChange(standing, packing);
  if (!change) return null;
  return (
    <div className="moved-layer" aria-hidden="true">
      {change.blocks.map(({ block, was }) => {
        const to = slabFor(standing, scale, block);
        const from = was && slabFor(standing, scale, was);
        if (!to) return null;
        return (
          <div key={`${change.nth} ${block.task} ${block.lane}`}>
            {packing && from && <span className="moved-from" style={boxOf(from)} />}
            <span className="moved" style={{ ...boxOf(to), ...glideOf(from, to) }} />
          </div>
        );
      })}
    </div>
  );
});

/** The last change of the shown day that no hand has made; null once it has been seen. */
function useChange(standing: Standing, packing: boolean): Change | null {
  const { desk } = useAround();
  const last = useRef(standing);
  const nth = useRef(0);
  const [change, setChange] = useState<Change | null>(null);
  useEffect(() => {
    const was = last.current;
    last.current = standing;
    if (was.schedule === standing.schedule || desk.state.getState().preview !== null) return;
    // Another plan is not a change of this one.
    if (
      was.plan.stay.touchdownUtc !== standing.plan.stay.touchdownUtc ||
      was.plan.title !== standing.plan.title
    )
      return;
    const blocks = changedBlocks(was.blocks, standing.blocks, packing ? WORTH_S : 1);
    nth.current += 1;
    setChange(blocks.length === 0 ? null : { nth: nth.current, blocks });
  }, [standing, packing, desk]);
  useEffect(() => {
    if (!change || packing) return;
    const timer = setTimeout(() => setChange(null), EDGED_MS);
    return () => clearTimeout(timer);
  }, [change, packing]);
  return change;
}

/** The upright box round a slab. */
export function boxOf({ left, right, topLeft, topRight, bottomLeft, bottomRight }: Slab): CSSProperties {
  const top = Math.min(topLeft, topRight);
  return { left, top, width: right - left, height: Math.max(bottomLeft, bottomRight) - top };
}

/** From where it glides, for the style sheet. */
function glideOf(from: Slab | null, to: Slab): CSSProperties {
  if (!from) return {};
  const [x, y] = [
    from.left - to.left,
    Math.min(from.topLeft, from.topRight) - Math.min(to.topLeft, to.topRight),
  ];
  return { "--from": `${x}px ${y}px` } as CSSProperties;
}
