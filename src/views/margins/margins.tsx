import { useCallback, useMemo, useRef } from "react";
import type { TimeScale } from "../../dayline/index.ts";
import { shownPlan, shownSchedule, shownVerdict } from "../../store/index.ts";
import { useAround, useDesk } from "../context.ts";
import { useDay } from "../day/around.ts";
import type { Brush } from "../line/brush.ts";
import { Canvas } from "../line/canvas.tsx";
import { usePanning } from "../line/panning.ts";
import { LEAST_STRIP_PX, STRIP_GAP_PX, STRIP_PX } from "../line/sizes.ts";
import { CursorValues } from "./cursorvalues.tsx";
import { paintMargins, type RowPlace, rowPx } from "./paintmargins.ts";
import { marginRows } from "./rows.ts";

/** What is left of everything, under the same time axis as the lanes: shape in the middle, worst figure at the right. */
export function Margins(props: { readonly scale: TimeScale; readonly which: "all" | "least" }) {
  const { scale, which } = props;
  const { look } = useAround();
  const { windows } = useDay();
  const plan = useDesk(shownPlan);
  const schedule = useDesk(shownSchedule);
  const verdict = useDesk(shownVerdict);
  const settled = useDesk((state) => (state.preview ? state.verdict : null));
  const stage = useRef<HTMLDivElement>(null);
  const panning = usePanning(stage, scale, windows, false);

  const rows = useMemo(() => marginRows(plan, schedule, verdict, which), [plan, schedule, verdict, which]);
  const before = useMemo(
    () => (settled ? marginRows(plan, plan.schedule, settled, which) : null),
    [plan, settled, which],
  );
  const { places, heightPx } = useMemo(() => placed(rows), [rows]);
  const paint = useCallback(
    (brush: Brush) => paintMargins(brush, places, before, scale),
    [places, before, scale],
  );

  return (
    <section className="margins" aria-label="Margins">
      <ul className="margin-rows" style={{ height: heightPx }}>
        {places.map(({ row, top }, i) => (
          <li key={row.key} style={{ top, height: rowPx(row) }}>
            <span className="margin-label">
              {(i === 0 || places[i - 1]!.row.group !== row.group) && <b>{row.group}</b>}
              <span className="narrow">{row.label}</span>
            </span>
            <span className={`margin-figure ${row.standing}`}>
              {row.standing === "breach" && <span className="unseen">breach: </span>}
              {row.standing === "tight" && <span className="unseen">tight: </span>}
              <b>{row.figure}</b>{" "}
              <span className={row.kind === "least" ? "margin-of narrow" : "unseen"}>{row.of}</span>
            </span>
          </li>
        ))}
      </ul>
      <div
        ref={stage}
        className="margin-stage"
        style={{ width: scale.widthPx, height: heightPx }}
        onPointerDown={(event) => panning.press(event.nativeEvent)}
        onPointerMove={(event) => {
          const box = event.currentTarget.getBoundingClientRect();
          look.setState({ cursorS: scale.at(event.clientX - box.left) });
        }}
        onPointerLeave={() => look.setState({ cursorS: null })}
      >
        <Canvas widthPx={scale.widthPx} heightPx={heightPx} paint={paint} />
        <CursorValues places={places} scale={scale} />
      </div>
    </section>
  );
}

/** Height that the margins want. */
export function marginsPx(crew: number, which: "all" | "least"): number {
  const suit = which === "all" ? 5 * STRIP_PX : LEAST_STRIP_PX + STRIP_PX;
  return crew * (suit + STRIP_GAP_PX) + 2 * STRIP_PX + 8;
}

function placed(rows: ReturnType<typeof marginRows>): { places: readonly RowPlace[]; heightPx: number } {
  let top = 2;
  const places = rows.map((row, i) => {
    if (i > 0 && rows[i - 1]!.group !== row.group) top += STRIP_GAP_PX;
    const place = { row, top };
    top += rowPx(row);
    return place;
  });
  return { places, heightPx: top + 4 };
}
