import { useRef } from "react";
import type { OddsReport } from "../../answers/index.ts";
import { fixed, grouped } from "../../words/index.ts";
import { useWidth } from "../width.ts";

const HEIGHT_PX = 74;
const SIDE_PX = 34;
const MID_PX = 38;

/** What the simulated days are worth: from least to greatest, nine days in ten, every second day, the middle, the plan. */
export function WorthSpread({ worth }: { readonly worth: OddsReport["worth"] }) {
  const ref = useRef<HTMLDivElement>(null);
  const widthPx = Math.min(860, useWidth(ref));
  const { planned, mean, standardError, bands, least, greatest } = worth;
  const from = Math.min(least, planned);
  const over = Math.max(1, Math.max(greatest, planned) - from);
  const x = (value: number): number => SIDE_PX + ((value - from) / over) * Math.max(1, widthPx - 2 * SIDE_PX);
  const marks = [least, ...bands, greatest];
  const words = `Worth from ${least} to ${greatest}; nine days in ten ${bands[0]} to ${bands[4]}, every second day ${bands[1]} to ${bands[3]}, middle ${bands[2]}; planned ${planned}.`;
  return (
    <section aria-label="Worth" className="worth-spread">
      <h3>Worth</h3>
      <p>
        Planned {grouped(planned)}, on average {fixed(mean, 1, "down")} (standard error{" "}
        {fixed(standardError, 1, "up")}).
      </p>
      <div ref={ref}>
        {widthPx > 0 && (
          <svg width={widthPx} height={HEIGHT_PX} role="img" aria-label={words}>
            <line x1={x(least)} x2={x(greatest)} y1={MID_PX} y2={MID_PX} className="band-middle" />
            <rect
              x={x(bands[0])}
              width={Math.max(1, x(bands[4]) - x(bands[0]))}
              y={MID_PX - 10}
              height={20}
              className="band-wide"
            />
            <rect
              x={x(bands[1])}
              width={Math.max(1, x(bands[3]) - x(bands[1]))}
              y={MID_PX - 10}
              height={20}
              className="band-half"
            />
            <line x1={x(bands[2])} x2={x(bands[2])} y1={MID_PX - 14} y2={MID_PX + 14} className="band-mark" />
            <path d={`M${x(planned)} ${MID_PX - 12} l-6 -9 h12 Z`} className="band-planned" />
            <text x={x(planned)} y={12} textAnchor={x(planned) > widthPx / 2 ? "end" : "start"}>
              planned {grouped(planned)}
            </text>
            {apart(marks, x).map((value) => (
              <text key={value} x={x(value)} y={HEIGHT_PX - 6} textAnchor="middle">
                {grouped(value)}
              </text>
            ))}
          </svg>
        )}
      </div>
    </section>
  );
}

/** The marks that can be written without touching each other, the outermost first. */
function apart(marks: readonly number[], x: (value: number) => number): readonly number[] {
  const order = [marks.at(0)!, marks.at(-1)!, ...marks.slice(1, -1)];
  return order.reduce<readonly number[]>(
    (kept, one) => (kept.every((other) => Math.abs(x(other) - x(one)) >= 38) ? [...kept, one] : kept),
    [],
  );
}
