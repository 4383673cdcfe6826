import type { Picture } from "../../session/index.ts";

const ROW = 22;
const WHOLE = 1000;

/** A plan's day drawn small: a row a crew member, EVAs as bands, tasks in the colours of their kinds. */
export function DayPicture({ picture }: { readonly picture: Picture | null }) {
  const rows = picture?.rows ?? [];
  const height = Math.max(2, rows.length) * ROW;
  const empty = rows.every((row) => row.blocks.length === 0);
  return (
    <svg
      className="day-picture"
      viewBox={`0 0 ${WHOLE} ${height}`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      {rows.map((row, k) => (
        <g key={k} transform={`translate(0 ${k * ROW})`}>
          <line x1={0} x2={WHOLE} y1={ROW - 1} y2={ROW - 1} className="shelf-ground" />
          {row.outings.map(([from, to]) => (
            <rect
              key={from}
              x={from}
              width={Math.max(4, to - from)}
              y={3}
              height={ROW - 6}
              className="shelf-outing"
            />
          ))}
          {row.blocks.map(([from, to, kind]) => (
            <rect
              key={`${from} ${kind}`}
              x={from}
              width={Math.max(5, to - from)}
              y={5}
              height={ROW - 10}
              className={`block-${kind}`}
            />
          ))}
        </g>
      ))}
      {empty && <line x1={0} x2={WHOLE} y1={height / 2} y2={height / 2} className="shelf-bare" />}
    </svg>
  );
}
