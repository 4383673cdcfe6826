import { useMemo } from "react";
import { type TimeScale, valueAt } from "../../editor/index.ts";
import { lasting, metres, percent } from "../../words/index.ts";
import { useView } from "../context.ts";
import { wholeMinute } from "../wholeminute.ts";
import { measuring } from "../day/line/names/usenames.ts";
import { facePx, font } from "../parts/canvas/brush.ts";
import { loadText, type MarginRow, type RowPlace } from "./rows.ts";
import { besideLine, textsIn } from "./striptexts.ts";
import { spareOf } from "./spare.ts";

/** The face of a value, as the style sheet has it, and what its box adds to the text. */
const VALUE_FACE = font(12, 700, "normal");
const AROUND_PX = 8;

/** What every margin is at the time under the pointer, beside the cursor's line, and never on what the strip says of its worst. */
export function CursorValues(props: { readonly places: readonly RowPlace[]; readonly scale: TimeScale }) {
  const { places, scale } = props;
  const cursorS = useView((view) => (view.inHand ? null : view.cursorS));
  const pointed = cursorS !== null;
  const written = useMemo(() => {
    const ctx = pointed ? measuring() : null;
    return new Map(ctx ? places.map((place) => [place.row.key, textsIn(place, scale, ctx)]) : []);
  }, [places, scale, pointed]);
  if (cursorS === null) return null;
  const ctx = measuring();
  const x = scale.x(cursorS);
  return (
    <div className="cursor-values" aria-hidden="true">
      {places.map(({ row, top, heightPx }) => {
        const text = valueText(row, wholeMinute(cursorS));
        if (text === null) return null;
        const wide = Math.ceil(ctx ? facePx(ctx, VALUE_FACE, text) : 0) + AROUND_PX;
        const left = besideLine(x, wide, written.get(row.key) ?? [], scale.widthPx);
        return (
          <span key={row.key} style={{ top, height: heightPx, transform: `translateX(${left}px)` }}>
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
