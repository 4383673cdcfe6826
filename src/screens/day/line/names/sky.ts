import type { ReachTrack } from "../../../../answers/index.ts";
import { awayPx, type Lane, type TimeScale } from "../../../../editor/index.ts";
import type { DayLayout } from "../geometry.ts";
import type { Box, Sky } from "./place.ts";

/** Rows of names lie so far apart; nearer where there is little height. */
const ROW_APART_PX = { tall: 15, low: 14.5 } as const;
/** From this height on a lane has room for rows that are well apart. */
const TALL_PX = 210;
/** Between the ribbon and the middle of the first row, and between the last one and the edge, where findings are marked. */
const FIRST_ROW_PX = 12;
const EDGE_PX = 14;
/** No row stands nearer to the ceiling. */
const CEILING_PX = 8.5;

/** The free sky of a crew lane as it is seen at `scale`, with what stands in it already. */
export function skyOf(layout: DayLayout, lane: Lane, scale: TimeScale, taken: readonly Box[]): Sky {
  const { relief, verdict } = layout;
  const reach = verdict.reach.filter(({ crew }) => crew === lane.crew);
  const outer = (homeS: number): number => awayPx(lane, relief, homeS) + relief.thickPx;
  const columns = Math.ceil(scale.widthPx) + 1;
  const ribbon = new Float32Array(columns);
  const ceiling = new Float32Array(columns).fill(Infinity);
  for (const track of reach) {
    drawInto(ribbon, track.points, scale, outer);
    drawInto(ceiling, track.allowed, scale, outer);
  }
  const apart = lane.heightPx >= TALL_PX ? ROW_APART_PX.tall : ROW_APART_PX.low;
  const level = ceiling.reduce((most, out) => (out < Infinity ? Math.max(most, out) : most), 0);
  const edge = lane.heightPx - EDGE_PX;
  const first = relief.thickPx + FIRST_ROW_PX;
  const rows =
    level === 0
      ? rowsBetween(first, edge, apart)
      : [
          ...rowsBetween(first, level - CEILING_PX, apart),
          ...rowsBetween(Math.max(first, level + CEILING_PX), edge, apart),
        ];
  return { lane: lane.key, ribbon, ceiling, rows, taken, left: 3, right: scale.widthPx - 3 };
}

function rowsBetween(from: number, to: number, apart: number): readonly number[] {
  const rows: number[] = [];
  for (let out = from; out <= to; out += apart) rows.push(out);
  return rows;
}

/** Writes a course into the columns that it runs through. */
function drawInto(
  columns: Float32Array,
  points: ReachTrack["points"],
  scale: TimeScale,
  height: (value: number) => number,
): void {
  for (let i = 1; i < points.length; i += 1) {
    const a = points[i - 1]!;
    const b = points[i]!;
    const from = scale.x(a.atS);
    const to = scale.x(b.atS);
    const first = Math.max(0, Math.floor(from));
    const last = Math.min(columns.length - 1, Math.ceil(to));
    for (let x = first; x <= last; x += 1) {
      const share = to > from ? Math.min(1, Math.max(0, (x - from) / (to - from))) : 0;
      columns[x] = height(a.value + share * (b.value - a.value));
    }
  }
}
