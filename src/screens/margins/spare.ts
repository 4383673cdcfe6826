import type { MarginTrack } from "../../answers/index.ts";
import type { Course } from "../../editor/index.ts";
import { remembered } from "../../kernel/index.ts";

/**
 * What a suit has to spare over an EVA: what is left, less the reserve, less an even use of the rest until ingress, as a share of
 * the stock. It begins and ends at the margin; a dip is a stretch that is dearer than the rest. The even use is that of `even`, the
 * day before a move, or the track's own: against the day before the course leaves where the move costs.
 */
export function spareOf(track: MarginTrack, even: MarginTrack = track): Course {
  return sparesOf(track)(even);
}

/** The judge tells the same track while an EVA stays as it is: by it, and by the even use. */
const sparesOf = remembered((track: MarginTrack) =>
  remembered((even: MarginTrack): Course => worked(track, even)),
);

function worked(track: MarginTrack, even: MarginTrack): Course {
  const first = even.points[0];
  const last = even.points.at(-1);
  const endS = track.points.at(-1)?.atS;
  if (!first || !last || endS === undefined || last.atS <= first.atS) return { points: [] };
  const perS = (first.value - last.value) / (last.atS - first.atS);
  return {
    points: track.points.map(({ atS, value }) => ({
      atS,
      value: (value - track.reserve - perS * (endS - atS)) / track.stock,
    })),
  };
}

/** The lowest point of a course; null of an empty one. */
export function lowest({ points }: Course): Course["points"][number] | null {
  return points.reduce<Course["points"][number] | null>(
    (low, point) => (low === null || point.value < low.value ? point : low),
    null,
  );
}

/** The one of an outing's consumables that comes home with least; null of none. */
export function leastOf(tracks: readonly MarginTrack[]): MarginTrack | null {
  return tracks.reduce<MarginTrack | null>((a, b) => (a === null || b.margin < a.margin ? b : a), null);
}

/** An outing's consumables as they were among the outings of the day before; none where it was not there. */
export function earlierOf(
  before: readonly (readonly MarginTrack[])[],
  tracks: readonly MarginTrack[],
): readonly MarginTrack[] {
  return before.find((one) => one[0]?.eva === tracks[0]?.eva) ?? [];
}

/** What a consumable has to spare, against its own even use in `earlier`, the same outing before a move. */
export function courseOf(track: MarginTrack, earlier: readonly MarginTrack[]): Course {
  return spareOf(
    track,
    earlier.find((one) => one.consumable === track.consumable),
  );
}
