import { grouped, percent } from "../../words/index.ts";
import type { ChancesReport, WishedDay } from "../../answers/index.ts";
import { axisScale } from "../../editor/index.ts";
import { chanceFigure } from "../chancewords.ts";
import { labelFeet } from "./curvelabels.ts";

const HEIGHT_PX = 300;
const LEFT_PX = 62;
const RIGHT_PX = 20;
const TOP_PX = 26;
const FOOT_PX = 44;
const POINT_PX = 6;

/** A day along the curve, with all the wishes for which it is the best that was found. */
export interface CurveDay extends WishedDay {
  readonly wishes: readonly number[];
}

/** The days as points: chance of every must-do done to the right, worth on average upwards, with the sampling interval and the wish. */
export function CurvePicture(props: {
  readonly widthPx: number;
  readonly days: readonly CurveDay[];
  readonly wish: number;
  /** Chances of the day as it stands; null while they are not known. */
  readonly present: ChancesReport | null;
  readonly chosen: number | null;
  readonly choose: (day: number) => void;
}) {
  const { widthPx, days, wish, present, chosen, choose } = props;
  const worths = [...days.map(({ outcome }) => outcome.meanWorth), ...(present ? [present.meanWorth] : [])];
  const least = Math.min(...worths);
  const most = Math.max(...worths);
  const pad = Math.max(1, (most - least) * 0.12);
  const lows = [...days.map(({ outcome }) => outcome.must.low), ...(present ? [present.must.low] : []), wish];
  const from = Math.max(0, Math.floor(Math.min(...lows) * 20) / 20);
  const bottom = HEIGHT_PX - FOOT_PX;
  const x = axisScale([from, 1], [LEFT_PX, widthPx - RIGHT_PX]);
  const y = axisScale([least - pad, most + pad], [bottom, TOP_PX]);
  const at = ({ outcome }: WishedDay): string => `${x.px(outcome.must.share)},${y.px(outcome.meanWorth)}`;
  const wishesOf = ({ wishes }: CurveDay): string => wishes.map((one) => percent(one, "given")).join(", ");
  const feet = labelFeet(
    days.map((day) => ({
      x: x.px(day.outcome.must.share),
      y: y.px(day.outcome.meanWorth),
      words: wishesOf(day),
    })),
  );
  const words = days
    .map(({ outcome }) => `${chanceFigure(outcome.must)}: ${grouped(Math.floor(outcome.meanWorth))}`)
    .join("; ");
  return (
    <svg
      width={widthPx}
      height={HEIGHT_PX}
      role="img"
      aria-label={`Worth on average against the chance of every must-do done. ${words}. The wish is ${percent(wish, "given")}.`}
    >
      {x.ticks(6).map((value) => (
        <g key={value} className="curve-grid">
          <line x1={x.px(value)} x2={x.px(value)} y1={TOP_PX} y2={bottom} />
          <text x={x.px(value)} y={bottom + 16} textAnchor="middle">
            {percent(value, "given")}
          </text>
        </g>
      ))}
      {y.ticks(5).map((value) => (
        <g key={value} className="curve-grid">
          <line x1={LEFT_PX} x2={widthPx - RIGHT_PX} y1={y.px(value)} y2={y.px(value)} />
          <text x={LEFT_PX - 8} y={y.px(value) + 4} textAnchor="end">
            {grouped(value)}
          </text>
        </g>
      ))}
      <text className="curve-axis" x={widthPx - RIGHT_PX} y={HEIGHT_PX - 8} textAnchor="end">
        every must-do done, of simulated days
      </text>
      <text className="curve-axis" x={4} y={14}>
        worth done on average
      </text>
      <line className="curve-wish" x1={x.px(wish)} x2={x.px(wish)} y1={TOP_PX} y2={bottom} />
      <text className="curve-wish-name" x={x.px(wish) - 5} y={TOP_PX + 10} textAnchor="end">
        wish {percent(wish, "given")}
      </text>
      <polyline className="curve-line" points={days.map(at).join(" ")} />
      {days.map((day, k) => {
        const { must, meanWorth } = day.outcome;
        return (
          <g
            key={day.wish.must}
            className={k === chosen ? "curve-day chosen" : "curve-day"}
            onClick={() => choose(k)}
          >
            <line x1={x.px(must.low)} x2={x.px(must.high)} y1={y.px(meanWorth)} y2={y.px(meanWorth)} />
            <circle cx={x.px(must.share)} cy={y.px(meanWorth)} r={POINT_PX} />
            <circle className="curve-hold" cx={x.px(must.share)} cy={y.px(meanWorth)} r={22} />
            <text x={x.px(must.share)} y={y.px(meanWorth) + feet[k]!} textAnchor="middle">
              {wishesOf(day)}
            </text>
          </g>
        );
      })}
      {present && (
        <g className="curve-present">
          <path d={`M${x.px(present.must.share)} ${y.px(present.meanWorth) - 8} l8 8 l-8 8 l-8 -8 Z`} />
          <text
            x={x.px(present.must.share) + (present.must.share > (1 + from) / 2 ? -12 : 12)}
            y={y.px(present.meanWorth) + 18}
            textAnchor={present.must.share > (1 + from) / 2 ? "end" : "start"}
          >
            the day as it stands
          </text>
        </g>
      )}
    </svg>
  );
}
