import { memo } from "react";
import { REMOTE } from "../../editor/index.ts";
import { counted, hours } from "../../words/index.ts";
import { useDesk, useLook } from "../context.ts";
import type { Standing } from "./line/geometry.ts";
import { heightLabels } from "./line/dayline.tsx";
import { AXIS_PX, EVA_ROW_PX, OVERVIEW_PX, SKY_PX } from "./line/sizes.ts";

interface GutterProps {
  readonly part: "head" | "lanes" | "foot";
  readonly standing: Standing;
  readonly evaRows?: number;
}

/** Names at the left of what is drawn: clocks, EVAs, sky; crew members with the heights of walk home; the stay. */
export const Gutter = memo(function Gutter(props: GutterProps) {
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
        <p className="note">Stay, {hours(running, "down")}</p>
      </div>
    );
  }
  return (
    <div className="gutter">
      {standing.lanes.map((lane) => (
        <div key={lane.key} className="gutter-lane" style={{ height: lane.heightPx }}>
          <b className={nameClass(lane)} title={lane.name}>
            {lane.name}
          </b>
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
}, sameGutter);

/** A move makes what stands anew; names and heights of lanes stay as they were. */
function sameGutter(a: GutterProps, b: GutterProps): boolean {
  return (
    a.evaRows === b.evaRows &&
    a.standing.relief.topS === b.standing.relief.topS &&
    a.standing.lanes.length === b.standing.lanes.length &&
    a.standing.lanes.every((lane, i) => {
      const other = b.standing.lanes[i];
      return lane.key === other?.key && lane.name === other.name && lane.heightPx === other.heightPx;
    })
  );
}

/** Longer names than a call sign are set smaller, on two lines. */
const CALL_SIGN = 5;

function nameClass(lane: { readonly key: string; readonly name: string }): string {
  if (lane.key === REMOTE) return "";
  return lane.name.length > CALL_SIGN ? "gutter-name long" : "gutter-name";
}
