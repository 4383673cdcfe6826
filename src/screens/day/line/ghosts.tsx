import { useMemo } from "react";
import { type Block, blocksOf, remoteRowsOf, type TimeScale } from "../../../editor/index.ts";
import { clockText } from "../../../words/index.ts";
import { useSession, useView } from "../../context.ts";
import { useDial } from "../../dial.ts";
import { shows, type DayLayout } from "./geometry.ts";

const NONE: readonly Block[] = [];

/** Where what is in hand, and what it pushes, stood at the begin: the blocks that stand elsewhere now. */
export function useGhosts(layout: DayLayout): readonly Block[] {
  const hand = useView((state) => state.inHand);
  const plan = useSession((state) => state.plan);
  const settled = useSession((state) => state.verdict);
  const isInHand = hand !== null;
  const before = useMemo(
    () =>
      isInHand ? blocksOf(plan, plan.schedule, settled.reach, remoteRowsOf(plan, plan.schedule).row) : NONE,
    [plan, settled, isInHand],
  );
  return useMemo(() => {
    if (!hand) return NONE;
    const going = new Set([...hand.tasks, ...hand.slid.keys()]);
    const now = new Map(
      layout.blocks
        .filter((block) => going.has(block.task))
        .map((block) => [`${block.task} ${block.lane}`, block]),
    );
    return before.filter((ghost) => {
      if (!going.has(ghost.task)) return false;
      const block = now.get(`${ghost.task} ${ghost.lane}`);
      return !block || block.startS !== ghost.startS || block.endS !== ghost.endS;
    });
  }, [hand, before, layout]);
}

/** Plumb lines at both ends of what is under the pointer, from the ruler down, where they carry their times. */
export function Plumb(props: {
  readonly layout: DayLayout;
  readonly scale: TimeScale;
  readonly gutterPx: number;
}) {
  const { layout, scale, gutterPx } = props;
  const hand = useView((state) => state.inHand);
  const dial = useDial();
  const block = layout.blocks.find((one) => one.task === hand?.task);
  if (!block || !shows(scale, block)) return null;
  return (
    <>
      <Line
        x={gutterPx + scale.x(block.startS)}
        text={clockText(dial, block.startS, block.eva)}
        side="before"
      />
      <Line x={gutterPx + scale.x(block.endS)} text={clockText(dial, block.endS, block.eva)} side="after" />
    </>
  );
}

function Line(props: { readonly x: number; readonly text: string; readonly side: "before" | "after" }) {
  return (
    <div
      className={`plumb ${props.side}`}
      style={{ transform: `translateX(${Math.round(props.x)}px)` }}
      aria-hidden="true"
    >
      <b>{props.text}</b>
    </div>
  );
}
