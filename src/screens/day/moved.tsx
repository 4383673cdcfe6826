import { type CSSProperties, memo, useEffect, useLayoutEffect, useRef, useState } from "react";
import type { Slab, TimeScale } from "../../editor/index.ts";
import { betterDay } from "../../session/index.ts";
import { useApp, useSession } from "../context.ts";
import { type ChangedBlock, changedBlocks } from "./changedblocks.ts";
import { slabFor, type DayLayout } from "./line/geometry.ts";

/** How long what has changed is edged, ms; a better day of the packer until the next one. */
const EDGED_MS = 1000;
/** Better days move nearly every task by minutes: only from here on is it worth an edge, seconds. */
const WORTH_S = 600;

interface Change {
  readonly nth: number;
  readonly blocks: readonly ChangedBlock[];
}

/**
 * What an undo, a pack or a mend has changed: each block glides from where it was, and is edged for a second; where it was is
 * dotted while the packer is at work. A hand shows what it moves by itself.
 */
export const Moved = memo(function Moved(props: { readonly layout: DayLayout; readonly scale: TimeScale }) {
  const { layout, scale } = props;
  const packing = useSession((state) => betterDay(state) !== null);
  const change = useChange(layout, packing);
  if (!change) return null;
  const ways = change.blocks.flatMap(({ block, was }) => {
    const to = slabFor(layout, scale, block);
    const from = was && slabFor(layout, scale, was);
    return to ? [{ key: `${change.nth} ${block.task} ${block.lane}`, to, from }] : [];
  });
  return (
    <div className="moved-layer" aria-hidden="true">
      {ways.map(
        ({ key, to, from }) => from && <span key={key} className="moved-awaited" style={boxOf(to)} />,
      )}
      {packing &&
        ways.map(({ key, from }) => from && <span key={key} className="moved-from" style={boxOf(from)} />)}
      {ways.map(({ key, to, from }) => (
        <span key={key} className="moved-edge" style={{ ...boxOf(to), ...glideOf(from, to) }}>
          {from && <CutOut of={to} />}
        </span>
      ))}
    </div>
  );
});

/** The block's own picture, cut out of the still layer, which has been painted before this is laid out. */
function CutOut({ of }: { readonly of: Slab }) {
  const ref = useRef<HTMLCanvasElement>(null);
  const { left, top, width, height } = boxOf(of);
  useLayoutEffect(() => {
    const canvas = ref.current;
    const stills = canvas
      ?.closest(".stage")
      ?.querySelectorAll<HTMLCanvasElement>(":scope > canvas:not(.moving)");
    const still = [...(stills ?? [])].findLast((one) => one.offsetTop <= top);
    const ctx = canvas?.getContext("2d");
    if (!canvas || !still || !ctx || still.clientWidth === 0) return;
    const density = still.width / still.clientWidth;
    canvas.width = Math.max(1, Math.round(width * density));
    canvas.height = Math.max(1, Math.round(height * density));
    ctx.drawImage(still, -left * density, (still.offsetTop - top) * density);
  }, [left, top, width, height]);
  return <canvas ref={ref} style={{ width, height }} />;
}

/** The last change of the shown day that no hand has made; null once it has been seen. */
function useChange(layout: DayLayout, packing: boolean): Change | null {
  const { session } = useApp();
  const last = useRef(layout);
  const nth = useRef(0);
  const [change, setChange] = useState<Change | null>(null);
  // Before the eye sees the new day: else it would stand there for a frame and jump back.
  useLayoutEffect(() => {
    const was = last.current;
    last.current = layout;
    if (was.schedule === layout.schedule || session.state.getState().preview !== null) return;
    // Another plan is not a change of this one.
    if (was.plan.stay.touchdownUtc !== layout.plan.stay.touchdownUtc || was.plan.title !== layout.plan.title)
      return;
    const blocks = changedBlocks(was.blocks, layout.blocks, packing ? WORTH_S : 1);
    nth.current += 1;
    setChange(blocks.length === 0 ? null : { nth: nth.current, blocks });
  }, [layout, packing, session]);
  useEffect(() => {
    if (!change || packing) return;
    const timer = setTimeout(() => setChange(null), EDGED_MS);
    return () => clearTimeout(timer);
  }, [change, packing]);
  return change;
}

/** The upright box round a slab. */
export function boxOf({ left, right, topLeft, topRight, bottomLeft, bottomRight }: Slab) {
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
