import { useMemo } from "react";
import { type TimeScale, valueAt } from "../../editor/index.ts";
import { lasting, metres, percent } from "../../words/index.ts";
import { useView } from "../context.ts";
import { wholeMinute } from "../wholeminute.ts";
import { measuring } from "../day/line/names/usenames.ts";
import { facePx, font } from "../parts/canvas/brush.ts";
import { loadText, type MarginRow, type RowPlace } from "./rows.ts";
import { courseOf, earlierOf, leastOf } from "./spare.ts";
import { besideLine, outingsOf, textsIn } from "./striptexts.ts";

/** The face of a value, as the style sheet has it, and what its box adds to the text. */
const VALUE_FACE = font(12, 700, "normal");
const AROUND_PX = 8;

/** What every margin is at the time under the pointer, beside the cursor's line, and never on what the strip says of its worst. */
export function CursorValues(props: {
  readonly places: readonly RowPlace[];
  /** The rows of the day before a move, which the strips are held against; null for none. */
  readonly before: readonly MarginRow[] | null;
  readonly scale: TimeScale;
}) {
  const { places, before, scale } = props;
  const cursorS = useView((view) => (view.inHand ? null : view.cursorS));
  const pointed = cursorS !== null;
  const written = useMemo(() => {
    const ctx = pointed ? measuring() : null;
    const texts = (place: RowPlace) => textsIn(place, sameRow(before, place.row), scale, ctx!);
    return new Map(ctx ? places.map((place) => [place.row.key, texts(place)]) : []);
  }, [places, before, scale, pointed]);
  if (cursorS === null) return null;
  const ctx = measuring();
  const x = scale.x(cursorS);
  return (
    <div className="cursor-values" aria-hidden="true">
      {places.map(({ row, top, heightPx }) => {
        const text = valueText(row, wholeMinute(cursorS), sameRow(before, row));
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

/** The row of the same suit and kind in the day before; undefined for none. */
function sameRow(before: readonly MarginRow[] | null, row: MarginRow): MarginRow | undefined {
  return before?.find(({ key }) => key === row.key);
}

/**
 * A row's value at `atS` in few words, rounded to the safe side; null where there is none. Of a suit it is that of the filled course,
 * held against `before` as the strip is: else the pointer would read less than the strip calls its least.
 */
export function valueText(row: MarginRow, atS: number, before?: MarginRow): string | null {
  switch (row.kind) {
    case "least": {
      const shares = row.outings.flatMap((tracks) => {
        const worst = leastOf(tracks);
        return (worst && valueAt(courseOf(worst, earlierOf(outingsOf(before), tracks)), atS)) ?? [];
      });
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
