import { grouped, percent } from "../../words/index.ts";
import type { ChancesReport, WishedDay } from "../../answers/index.ts";
import { axisScale } from "../../editor/index.ts";
import { chanceFigure } from "../chancewords.ts";
import { edgeOf } from "./curveedge.ts";
import { boxOf, type InTheWay, layWords, type WordsBox, type WordsPlace } from "./curvelabels.ts";

const HEIGHT_PX = 300;
const LEFT_PX = 62;
const RIGHT_PX = 20;
const TOP_PX = 26;
const BOTTOM_PX = HEIGHT_PX - 44;
const POINT_PX = 6;

/** A day along the curve, with all the wishes for which it is the best that was found. */
export interface CurveDay extends WishedDay {
  readonly wishes: readonly number[];
}

interface PictureProps {
  readonly widthPx: number;
  readonly days: readonly CurveDay[];
  readonly wish: number;
  /** Chances of the day as it stands; null while they are not known. */
  readonly present: ChancesReport | null;
  readonly chosen: number | null;
  readonly choose: (day: number) => void;
}

/** The days as points: chance of every must-do done to the right, worth on average upwards, with the sampling interval and the wish. */
export function CurvePicture(props: PictureProps) {
  const { widthPx, days, wish, present, chosen, choose } = props;
  const axes = axesOf(props);
  const at = ({ outcome }: WishedDay): string =>
    `${axes.x.px(outcome.must.share)},${axes.y.px(outcome.meanWorth)}`;
  const places = wordsPlaces(axes, props);
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
      <Grid axes={axes} widthPx={widthPx} />
      <WishLine axes={axes} wish={wish} />
      <polyline className="curve-line" points={edgeOf(days).map(at).join(" ")} />
      <DayPoints axes={axes} places={places.days} days={days} chosen={chosen} choose={choose} />
      {present && <PresentPoint axes={axes} place={places.present} present={present} />}
    </svg>
  );
}

/** Where a chance and a worth lie in the picture. */
interface Axes {
  readonly x: ReturnType<typeof axisScale>;
  readonly y: ReturnType<typeof axisScale>;
}

/** Axes on which every day, the wish and the day as it stands have their place. */
function axesOf({ widthPx, days, wish, present }: PictureProps): Axes {
  const worths = [...days.map(({ outcome }) => outcome.meanWorth), ...(present ? [present.meanWorth] : [])];
  const least = Math.min(...worths);
  const most = Math.max(...worths);
  const pad = Math.max(1, (most - least) * 0.12);
  const lows = [...days.map(({ outcome }) => outcome.must.low), ...(present ? [present.must.low] : []), wish];
  const from = Math.max(0, Math.floor(Math.min(...lows) * 20) / 20);
  return {
    x: axisScale([from, 1], [LEFT_PX, widthPx - RIGHT_PX]),
    y: axisScale([least - pad, most + pad], [BOTTOM_PX, TOP_PX]),
  };
}

const PRESENT_WORDS = "the day as it stands";

const wishWords = (wish: number): string => `wish ${percent(wish, "given")}`;
const soughtWords = ({ wishes }: CurveDay): string =>
  `for ${wishes.map((one) => percent(one, "given")).join(", ")}`;

/** Between the wish's line and its words, and where their foot is. */
const WISH_ASIDE_PX = 5;
const WISH_FOOT_PX = TOP_PX + 10;

/** The box of the wish's words: left of its line, but where figures of the axis stand there right of it. */
function wishBox(wish: number, wishX: number): WordsBox {
  const box = boxOf(wishWords(wish), wishX, WISH_FOOT_PX);
  const widthPx = box.right - box.left;
  const left = wishX - WISH_ASIDE_PX - widthPx;
  return left >= LEFT_PX
    ? { ...box, left, right: left + widthPx }
    : { ...box, left: wishX + WISH_ASIDE_PX, right: wishX + WISH_ASIDE_PX + widthPx };
}

/** Where the words of each day and of the day as it stands have room. */
function wordsPlaces(
  { x, y }: Axes,
  { widthPx, days, wish, present }: PictureProps,
): { readonly days: readonly WordsPlace[]; readonly present: WordsPlace } {
  const wishX = x.px(wish);
  const way: InTheWay = { left: LEFT_PX, right: widthPx - 4, wishX, wish: wishBox(wish, wishX) };
  const laid = layWords(
    [
      ...days.map((day) => ({
        x: x.px(day.outcome.must.share),
        y: y.px(day.outcome.meanWorth),
        words: soughtWords(day),
      })),
      ...(present ? [{ x: x.px(present.must.share), y: y.px(present.meanWorth), words: PRESENT_WORDS }] : []),
    ],
    way,
  );
  return { days: laid, present: laid[days.length] ?? { dx: 0, dy: 0 } };
}

/** Lines to read values off, with what the axes are of. */
function Grid({ axes: { x, y }, widthPx }: { readonly axes: Axes; readonly widthPx: number }) {
  return (
    <>
      {x.ticks(6).map((value) => (
        <g key={value} className="curve-grid">
          <line x1={x.px(value)} x2={x.px(value)} y1={TOP_PX} y2={BOTTOM_PX} />
          <text x={x.px(value)} y={BOTTOM_PX + 16} textAnchor="middle">
            {percent(value, "given")}
          </text>
        </g>
      ))}
      {y
        .ticks(5)
        .filter(Number.isInteger)
        .map((value) => (
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
    </>
  );
}

function WishLine({ axes: { x }, wish }: { readonly axes: Axes; readonly wish: number }) {
  const wishX = x.px(wish);
  const isLeft = wishBox(wish, wishX).right < wishX;
  return (
    <>
      <line className="curve-wish" x1={wishX} x2={wishX} y1={TOP_PX} y2={BOTTOM_PX} />
      <text
        className="curve-wish-name"
        x={wishX + (isLeft ? -WISH_ASIDE_PX : WISH_ASIDE_PX)}
        y={WISH_FOOT_PX}
        textAnchor={isLeft ? "end" : "start"}
      >
        {wishWords(wish)}
      </text>
    </>
  );
}

/** Every day with its sampling interval and the wishes for which it is the best that was found. */
function DayPoints({
  axes: { x, y },
  places,
  days,
  chosen,
  choose,
}: { readonly axes: Axes; readonly places: readonly WordsPlace[] } & Pick<
  PictureProps,
  "days" | "chosen" | "choose"
>) {
  return days.map((day, k) => {
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
        <text x={x.px(must.share) + places[k]!.dx} y={y.px(meanWorth) + places[k]!.dy} textAnchor="middle">
          {soughtWords(day)}
        </text>
      </g>
    );
  });
}

function PresentPoint({
  axes: { x, y },
  place,
  present: { must, meanWorth },
}: {
  readonly axes: Axes;
  readonly place: WordsPlace;
  readonly present: ChancesReport;
}) {
  return (
    <g className="curve-present">
      <path d={`M${x.px(must.share)} ${y.px(meanWorth) - 8} l8 8 l-8 8 l-8 -8 Z`} />
      <text x={x.px(must.share) + place.dx} y={y.px(meanWorth) + place.dy} textAnchor="middle">
        {PRESENT_WORDS}
      </text>
    </g>
  );
}
