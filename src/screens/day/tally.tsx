import { memo } from "react";
import { lasts, REMOTE } from "../../editor/index.ts";
import type { Standing } from "./line/geometry.ts";
import { useCalm } from "../settled.ts";
import { counted } from "../words.ts";

/** At the right end of each lane what it comes to: time out, walked, tasks. */
export const Tally = memo(function Tally(props: { readonly standing: Standing }) {
  const { lanes, blocks, verdict } = useCalm(props.standing);
  return (
    <div className="tally">
      {lanes.map((lane) => {
        const tasks = blocks.filter((block) => block.lane === lane.key).length;
        const outS = verdict.outings
          .filter((outing) => outing.crew === lane.key)
          .reduce((sum, outing) => sum + outing.span.endS - outing.span.startS, 0);
        const walked = verdict.walkedM[lane.key] ?? 0;
        return (
          <ul key={lane.key} style={{ height: lane.heightPx }}>
            <li>{counted(tasks, "task")}</li>
            {lane.key !== REMOTE && (
              <>
                <li className="narrow">{lasts(outS)}</li>
                <li>{(Math.ceil(walked / 100) / 10).toFixed(1)} km</li>
              </>
            )}
          </ul>
        );
      })}
    </div>
  );
});
