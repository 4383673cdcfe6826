import { memo } from "react";
import type { TimeScale } from "../../editor/index.ts";
import { useView } from "../context.ts";
import { shows, type DayLayout } from "./line/geometry.ts";
import { formOf } from "./line/inside.ts";
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
      const lane = layout.lanes.find(({ key }) => key === block.lane);
      const form = lane && formOf(layout, scale, block, lane);
      return (
        form && (
          <span
            key={block.lane}
            className="pointed-block"
            data-joint={form.across ? form.sense : undefined}
            aria-hidden="true"
            style={boxOf(form.slab)}
          />
        )
      );
    });
});
