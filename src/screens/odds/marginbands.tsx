import { memo, useRef } from "react";
import type { Bands, MarginOdds, OddsReport } from "../../answers/index.ts";
import { metTicks, type TimeScale, timeScale } from "../../editor/index.ts";
import type { Plan } from "../../plan/index.ts";
import { fromMargin } from "../../session/index.ts";
import { crewName, evaName, percent } from "../../words/index.ts";
import { From } from "../parts/from/from.tsx";
import { tickLabel } from "../parts/ticklabel.ts";
import { CONSUMABLE_WORDS } from "../words.ts";
import { useWidth } from "../width.ts";

const HEIGHT_PX = 96;
const FOOT_PX = 16;
const LEAST_PX = 230;
const GAP_PX = 16;

/** What each suit has left over time on the simulated days: the middle, the half around it, and nine tenths. */
export function MarginBands({ plan, report }: { readonly plan: Plan; readonly report: OddsReport }) {
  const { margins } = report;
  const ref = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(ref);
  // Four consumables: in one row, in two, or one below the other.
  const fitting = Math.floor((widthPx + GAP_PX) / (LEAST_PX + GAP_PX));
  const columns = fitting >= 4 ? 4 : fitting >= 2 ? 2 : 1;
  const eachPx = Math.floor((widthPx - (columns - 1) * GAP_PX) / columns);
  const outings = [...new Set(margins.map(({ eva, crew }) => `${eva}|${crew}`))];
  return (
    <section aria-label="Margins over time" className="odds-bands">
      <h3>Margins over time</h3>
      <p className="note">
        Full tint: every second day. Pale: nine days in ten. Line: the middle. Below the dashed line lies the
        reserve. Figures: left above the reserve at the limit of the EVA, of the stock; days that close later
        go lower.
      </p>
      <div ref={ref}>
        {widthPx > 0 &&
          outings.map((key) => {
            const own = margins.filter(({ eva, crew }) => `${eva}|${crew}` === key);
            const first = own[0]!;
            return (
              <div key={key} className="bands-outing">
                <h4>
                  {crewName(plan, first.crew)}, {evaName(plan, first.eva)}
                </h4>
                <div className="bands-row" style={{ gridTemplateColumns: `repeat(${columns}, 1fr)` }}>
                  {own.map((one) => (
                    <Chart key={one.consumable} report={report} margin={one} widthPx={eachPx} />
                  ))}
                </div>
              </div>
            );
          })}
      </div>
    </section>
  );
}

/** The course of one consumable on the simulated days, and what is left of it at the limit of the EVA. */
const Chart = memo(function Chart(props: {
  readonly report: OddsReport;
  readonly margin: MarginOdds;
  readonly widthPx: number;
}) {
  const { report, margin, widthPx } = props;
  const last = margin.points.at(-1);
  if (!last) return null;
  const name = CONSUMABLE_WORDS[margin.consumable];
  const end = (band: 0 | 2): string =>
    percent((last.left[band] - margin.reserve) / Math.max(1e-9, margin.stock), "down");
  const words = `${name}: at the limit of the EVA ${end(2)} above the reserve or less on every second day, ${end(0)} or less on one day in twenty.`;
  return (
    <figure className="odds-band">
      <figcaption>
        <b>{name}</b>{" "}
        <From of={`${name} left on every second day`} known={() => fromMargin(report, margin, 2)}>
          {end(2)}
        </From>{" "}
        <span className="note">
          1 day in 20:{" "}
          <From of={`${name} left on one day in twenty`} known={() => fromMargin(report, margin, 0)}>
            {end(0)}
          </From>{" "}
          or less
        </span>
      </figcaption>
      <svg width={widthPx} height={HEIGHT_PX + FOOT_PX} role="img" aria-label={words}>
        <BandsPicture margin={margin} widthPx={widthPx} />
      </svg>
    </figure>
  );
});

/** The bands over time, with the reserve below them and the hours under them. */
function BandsPicture({ margin, widthPx }: { readonly margin: MarginOdds; readonly widthPx: number }) {
  const { points, stock, reserve } = margin;
  const startS = points[0]?.atS ?? 0;
  const scale = timeScale({ startS, endS: Math.max(points.at(-1)?.atS ?? 0, startS + 60) }, widthPx);
  const least = Math.min(0, ...points.map((point) => point.left[0]));
  const y = (left: number): number => 2 + ((stock - left) / Math.max(1e-9, stock - least)) * (HEIGHT_PX - 4);
  return (
    <>
      <rect width={widthPx} height={HEIGHT_PX} className="band-ground" />
      <rect y={y(reserve)} width={widthPx} height={HEIGHT_PX - y(reserve)} className="band-reserve" />
      <path d={area(points, scale, y, 0, 4)} className="band-wide" />
      <path d={area(points, scale, y, 1, 3)} className="band-half" />
      <path d={course(points, scale, y, 2)} className="band-middle" />
      <line x1={0} x2={widthPx} y1={y(reserve)} y2={y(reserve)} className="band-floor" />
      <Hours scale={scale} widthPx={widthPx} />
    </>
  );
}

function Hours({ scale, widthPx }: { readonly scale: TimeScale; readonly widthPx: number }) {
  return metTicks(scale, 64).map((tick) => (
    <g key={tick.atS}>
      <line
        x1={scale.x(tick.atS)}
        x2={scale.x(tick.atS)}
        y1={HEIGHT_PX}
        y2={HEIGHT_PX + 4}
        className="chance-rule"
      />
      <text {...tickLabel(scale.x(tick.atS), widthPx)} y={HEIGHT_PX + 14}>
        {tick.label}
      </text>
    </g>
  ));
}

type Points = MarginOdds["points"];
type Which = keyof Bands & (0 | 1 | 2 | 3 | 4);

function course(points: Points, scale: TimeScale, y: (left: number) => number, which: Which): string {
  return points.map(({ atS, left }, i) => `${i === 0 ? "M" : "L"}${scale.x(atS)} ${y(left[which])}`).join("");
}

function area(
  points: Points,
  scale: TimeScale,
  y: (left: number) => number,
  low: Which,
  high: Which,
): string {
  const back = points.toReversed().map(({ atS, left }) => `L${scale.x(atS)} ${y(left[low])}`);
  return `${course(points, scale, y, high)}${back.join("")}Z`;
}
