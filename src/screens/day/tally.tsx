import { memo } from "react";
import { REMOTE } from "../../editor/index.ts";
import { counted, lasting, metres } from "../../words/index.ts";
import type { Standing } from "./line/geometry.ts";
import { useCalm } from "../settled.ts";

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
                <li className="narrow">{lasting(outS, "up")}</li>
                <li>{metres(walked, "up")}</li>
              </>
            )}
          </ul>
        );
      })}
    </div>
  );
});
