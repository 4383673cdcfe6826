import { memo } from "react";
import type { TimeScale } from "../../editor/index.ts";
import { useView } from "../context.ts";
import { shows, slabFor, type DayLayout } from "./line/geometry.ts";
import { boxOf } from "./moved.tsx";

/** Edges about the blocks of the task that is pointed at elsewhere: on the map, by its number. */
export const Pointed = memo(function Pointed(props: {
  readonly layout: DayLayout;
  readonly scale: TimeScale;
}) {
  const { layout, scale } = props;
  const task = useView((state) => (state.cursorS === null ? state.pointed : null));
  if (task === null) return null;
  return layout.blocks
    .filter((block) => block.task === task && shows(scale, block))
    .map((block) => {
      const slab = slabFor(layout, scale, block);
      return (
        slab && <span key={block.lane} className="pointed-block" aria-hidden="true" style={boxOf(slab)} />
      );
    });
});
