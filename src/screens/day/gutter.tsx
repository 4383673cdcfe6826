import { memo } from "react";
import { bandsOf, type DayLayout } from "./line/geometry.ts";
import { homeY, type Lane, outerY, REMOTE } from "../../editor/index.ts";
import type { Verdict } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { clockText, counted, hours, lasting, metres } from "../../words/index.ts";
import { useApp, useSession, useView } from "../context.ts";
import { useCalm } from "../settled.ts";
import { Corner } from "./corner.tsx";
import { useDial } from "../dial.ts";

/** In the corner of the ruler what is shown and how it is read; below it what the last of its rows shows. */
export const RulerGutter = memo(function RulerGutter({ heightPx }: { readonly heightPx: number }) {
  return (
    <div className="gutter gutter-ruler" style={{ height: heightPx }}>
      <Corner />
      <span aria-hidden="true">relay, sun</span>
    </div>
  );
});

/** The whole stay, and which strips of margins are shown. */
export const StayGutter = memo(function StayGutter(props: {
  readonly heightPx: number;
  readonly margins: "all" | "least";
}) {
  const { view } = useApp();
  const lengthS = useSession((state) => state.plan.stay.lengthS);
  const all = props.margins === "all";
  return (
    <div className="gutter gutter-stay" style={{ height: props.heightPx }}>
      <b>Stay, {hours(lengthS, "down")}</b>
      <button
        type="button"
        className="quiet margin-switch"
        title={all ? "One strip for the four consumables of a suit" : "A strip for each consumable"}
        onClick={() => view.setState({ margins: all ? "least" : "all" })}
      >
        {all ? "Least only" : "All strips"}
      </button>
    </div>
  );
});

/** Who the lanes are of, what their day comes to, the scale of heights, and the EVAs in sight against their limits. */
export function LanesGutter({ layout }: { readonly layout: DayLayout }) {
  return <CalmLanesGutter layout={useCalm(layout)} />;
}

const CalmLanesGutter = memo(function CalmLanesGutter({ layout }: { readonly layout: DayLayout }) {
  const { lanes } = layout;
  return (
    <div className="gutter gutter-lanes" style={{ height: layout.lanesPx }}>
      {lanes.map((lane) => (
        <div
          key={lane.key}
          className={lane.sense === "down" ? "gutter-lane down" : "gutter-lane"}
          style={{ top: lane.topPx, height: lane.heightPx }}
        >
          <b className={nameClass(lane)} title={lane.name}>
            {lane.name}
          </b>
          {lane.crew !== null && <Does layout={layout} lane={lane} />}
          {lane.crew !== null && <Heights layout={layout} lane={lane} />}
        </div>
      ))}
      {bandsOf(lanes).map((band) => band[0]?.crew && <Home key={band[0].key} layout={layout} band={band} />)}
    </div>
  );
});

/** `17 tasks · 2.6 km` of the EVAs in sight. */
function Does({ layout, lane }: { readonly layout: DayLayout; readonly lane: Lane }) {
  const { verdict } = layout;
  const evas = useEvasInSight(layout, [lane]);
  const tasks = layout.blocks.filter((one) => one.lane === lane.key && evas.includes(one.eva ?? "")).length;
  const walkedM = verdict.outings
    .filter((one) => one.crew === lane.crew && evas.includes(one.eva))
    .flatMap(({ stretches }) => stretches)
    .reduce((sum, one) => sum + one.walkM, 0);
  if (evas.length === 0) return null;
  return (
    <span className="gutter-does">
      {counted(tasks, "task")} · {metres(walkedM, "up")}
    </span>
  );
}

/** Minutes of walk home along the far edge of the ribbon. */
function Heights({ layout, lane }: { readonly layout: DayLayout; readonly lane: Lane }) {
  return heightLabels(layout, lane).map(({ minutes, y }) => (
    <span
      key={minutes}
      className="gutter-height"
      style={{ top: y }}
      title={`${counted(minutes, "minute")} of walk home`}
    >
      {minutes}
    </span>
  ));
}

/** Figures nearer than this run into each other, pixels. */
const APART_PX = 13;
/** The words at the line home and the name at the far edge take so much of a lane. */
const HOME_PX = 30;
const NAME_PX = 46;

/** Heights at which a lane is labelled, and where in it. */
function heightLabels(
  layout: DayLayout,
  lane: Lane,
): readonly { readonly minutes: number; readonly y: number }[] {
  const { relief } = layout;
  const stepS = relief.topS > 3600 ? 1800 : 600;
  const labels: { minutes: number; y: number }[] = [];
  for (let homeS = stepS; homeS < relief.topS; homeS += stepS) {
    const at = outerY(lane, relief, homeS);
    const away = Math.abs(at - homeY(lane));
    if (away < HOME_PX || away > lane.heightPx - NAME_PX) continue;
    const y = at - lane.topPx;
    if (labels.every((label) => Math.abs(label.y - y) >= APART_PX)) labels.push({ minutes: homeS / 60, y });
  }
  return labels;
}

/** At the line home: the EVA in sight with its times and its length against the limit, or how many. */
function Home({ layout, band }: { readonly layout: DayLayout; readonly band: readonly Lane[] }) {
  const dial = useDial();
  const { plan, verdict } = layout;
  const ids = useEvasInSight(layout, band);
  const [lane] = band;
  if (!lane) return null;
  const eva = ids.length === 1 ? plan.evas.find((one) => one.id === ids[0]) : undefined;
  const span = eva && verdict.outings.find((one) => one.eva === eva.id)?.span;
  const long = span && eva && span.endS - span.startS > eva.longestS;
  const tall = lane.heightPx > 110;
  const lone = lane.mate === null;
  return (
    <div className={lone ? "gutter-home lone" : "gutter-home"} style={{ top: homeY(lane) }}>
      <b title={eva?.name}>home{eva ? ` · ${eva.name}` : ids.length > 1 ? ` · ${ids.length} EVAs` : ""}</b>
      {eva && span && (
        // In minutes, outwards: to the second they are told by the bars of the EVA.
        <span
          className="gutter-times"
          title={`out ${clockText(dial, span.startS, eva.id)}, in ${clockText(dial, span.endS, eva.id)}`}
        >
          <span>out {clockText(dial, span.startS, eva.id, "down")}</span>{" "}
          <span>in {clockText(dial, span.endS, eva.id, "up")}</span>
        </span>
      )}
      {eva && span && tall && (
        <span className={long ? "state breach" : lengthState(plan, eva.longestS - span.endS + span.startS)}>
          {lasting(span.endS - span.startS, "up")} of {lasting(eva.longestS, "given")}
        </span>
      )}
      {!eva && ids.length === 0 && <span>nobody out</span>}
    </div>
  );
}

function lengthState(plan: Plan, spareS: number): string {
  return spareS < plan.rules.tightS ? "gutter-tight" : "gutter-fine";
}

/** The EVAs of these lanes' crew that lie in the shown window, by id. */
function useEvasInSight(
  { verdict }: { readonly verdict: Verdict },
  lanes: readonly Lane[],
): readonly string[] {
  const seen = useView(({ window }) =>
    [
      ...new Set(
        verdict.outings
          .filter(({ crew, span }) => lanes.some((lane) => lane.crew === crew) && overlap(span, window))
          .map(({ eva }) => eva),
      ),
    ].join(" "),
  );
  return seen === "" ? [] : seen.split(" ");
}

function overlap(
  a: { readonly startS: number; readonly endS: number },
  b: { readonly startS: number; readonly endS: number },
): boolean {
  return a.startS < b.endS && b.startS < a.endS;
}

/** Longer names than a call sign are set smaller, on two lines. */
const CALL_SIGN = 5;

function nameClass(lane: Lane): string {
  if (lane.key === REMOTE) return "";
  return lane.name.length > CALL_SIGN ? "gutter-name long" : "gutter-name";
}
