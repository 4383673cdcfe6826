import { REMOTE } from "../../dayline/index.ts";
import { useDesk, useLook } from "../context.ts";
import type { Standing } from "../line/geometry.ts";
import { heightLabels } from "../line/dayline.tsx";
import { AXIS_PX, EVA_ROW_PX, OVERVIEW_PX, SKY_PX } from "../line/sizes.ts";
import { counted } from "../words.ts";

/** Names at the left of what is drawn: clocks, EVAs, sky; crew members with the heights of walk home; the stay. */
export function Gutter(props: {
  readonly part: "head" | "lanes" | "foot";
  readonly standing: Standing;
  readonly evaRows?: number;
}) {
  const { standing, part } = props;
  const clock = useLook((state) => state.clock);
  const running = useDesk((state) => state.plan.stay.lengthS);
  if (part === "head") {
    return (
      <div className="gutter" aria-hidden="true">
        <p style={{ height: 26 }}>
          <b>{clock.toUpperCase()}</b> <span className="note">h:mm</span>
        </p>
        <p style={{ height: AXIS_PX - 26 }} className="note">
          {clock === "utc" ? "MET" : "UTC"}
        </p>
        <p style={{ height: EVA_ROW_PX * (props.evaRows ?? 1) }}>EVAs</p>
        <p style={{ height: 18 }} className="note">
          Relay
        </p>
        <p style={{ height: SKY_PX - 18 }} className="note">
          Sun up
        </p>
      </div>
    );
  }
  if (part === "foot") {
    return (
      <div className="gutter" style={{ height: OVERVIEW_PX }}>
        <p className="note">Stay, {Math.floor(running / 3600)} h</p>
      </div>
    );
  }
  return (
    <div className="gutter">
      {standing.lanes.map((lane) => (
        <div key={lane.key} className="gutter-lane" style={{ height: lane.heightPx }}>
          <b className={lane.key === REMOTE ? "" : "gutter-name"}>{lane.name}</b>
          {lane.key !== REMOTE && <span className="note">min from home</span>}
          {heightLabels(standing, lane.key).map(({ minutes, y }) => (
            <span
              key={minutes}
              className="gutter-height"
              style={{ top: y }}
              title={`${counted(minutes, "minute")} of walk home`}
            >
              {minutes}
            </span>
          ))}
        </div>
      ))}
    </div>
  );
}
