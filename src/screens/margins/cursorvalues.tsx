import { type TimeScale, valueAt } from "../../editor/index.ts";
import { lasting, metres, percent } from "../../words/index.ts";
import { useView } from "../context.ts";
import type { RowPlace } from "./paintmargins.ts";
import { loadText, type MarginRow } from "./rows.ts";
import { spareOf } from "./spare.ts";

/** What every margin is at the time under the pointer, beside the cursor's line. */
export function CursorValues(props: { readonly places: readonly RowPlace[]; readonly scale: TimeScale }) {
  const { scale } = props;
  const cursorS = useView((view) => (view.inHand ? null : view.cursorS));
  if (cursorS === null) return null;
  const x = scale.x(cursorS);
  const flip = x > scale.widthPx - 110;
  return (
    <div
      className={flip ? "cursor-values before" : "cursor-values"}
      style={{ transform: `translateX(${x}px)` }}
      aria-hidden="true"
    >
      {props.places.map(({ row, top, heightPx }) => {
        const text = valueText(row, cursorS);
        if (text === null) return null;
        return (
          <span key={row.key} style={{ top, height: heightPx }}>
            <b>{text}</b>
          </span>
        );
      })}
    </div>
  );
}

/** A row's value at `atS` in few words, rounded to the safe side; null where there is none. */
export function valueText(row: MarginRow, atS: number): string | null {
  switch (row.kind) {
    case "least": {
      const shares = row.outings.flat().flatMap((track) => valueAt(spareOf(track), atS) ?? []);
      return shares.length === 0 ? null : percent(Math.min(...shares), "down");
    }
    case "stock": {
      const track = row.tracks.find((one) => valueAt(one, atS) !== null);
      return track ? percent((valueAt(track, atS)! - track.reserve) / track.stock, "down") : null;
    }
    case "spare": {
      const values = row.tracks.map((one) => valueAt(one, atS)).filter((value) => value !== null);
      return values.length === 0 ? null : lasting(Math.min(...values), "down");
    }
    case "apart": {
      const values = row.tracks.map((one) => valueAt(one, atS)).filter((value) => value !== null);
      return values.length === 0 ? null : metres(Math.max(...values), "up");
    }
    case "load": {
      const value = row.tracks.map((one) => valueAt(one, atS)).find((one) => one !== null) ?? null;
      return value === null ? null : loadText(value, row.unit);
    }
  }
}
