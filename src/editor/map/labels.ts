/** Where names go on a map so that none lies over another. Pure geometry in pixels. */
export interface LabelWish {
  readonly key: string;
  /** The thing that is named. */
  readonly x: number;
  readonly y: number;
  /** Radius kept free about it. */
  readonly radiusPx: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Laid first, and laid in any case when it is `Infinity`. */
  readonly rank: number;
}

export interface LabelPlace {
  readonly key: string;
  /** Left and top of the label's box. */
  readonly left: number;
  readonly top: number;
}

/** An upright box. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const GAP_PX = 4;
/** Between names side by side: a letter's width, or two of them read as one. */
const ASIDE_PX = 6;
const FARTHER_PX = [0, 14, 30, 50, 75];

/**
 * Left and top of every label that finds room: beside its thing, else above or below it, else at a corner. Higher
 * ranks choose first; those that find no room are left out, but for infinite ones, which look farther away as well. Nothing lies beyond `widthPx` and `heightPx`,
 * nor on what is `kept` free for the map's own signs.
 */
export function layLabels(
  wishes: readonly LabelWish[],
  widthPx: number,
  heightPx: number,
  kept: readonly Box[] = [],
): LabelPlace[] {
  const signs = wishes.map(({ x, y, radiusPx }) => ({
    left: x - radiusPx,
    top: y - radiusPx,
    right: x + radiusPx,
    bottom: y + radiusPx,
  }));
  const taken: Box[] = [...signs, ...kept];
  const order = wishes
    .map((wish, own) => ({ wish, own }))
    .sort((a, b) => b.wish.rank - a.wish.rank || a.own - b.own);
  const places: LabelPlace[] = [];
  for (const { wish, own } of order) {
    if (!isSeen(wish, widthPx, heightPx)) continue;
    const boxes = wish.rank === Infinity ? FARTHER_PX.flatMap((px) => around(wish, px)) : around(wish, 0);
    const inside = boxes.filter(
      (box) => box.left >= 0 && box.top >= 0 && box.right <= widthPx && box.bottom <= heightPx,
    );
    const free = inside.find((box) => taken.every((other, k) => k === own || !overlap(box, other)));
    const box = free ?? (wish.rank === Infinity ? (inside[0] ?? boxes[0]) : undefined);
    if (!box) continue;
    taken.push({ ...box, left: box.left - ASIDE_PX, right: box.right + ASIDE_PX });
    places.push({ key: wish.key, left: box.left, top: box.top });
  }
  return places;
}

/** True for what lies in a picture of this size. */
export function isSeen({ x, y }: LabelWish, widthPx: number, heightPx: number): boolean {
  return x >= 0 && y >= 0 && x <= widthPx && y <= heightPx;
}

/** Boxes for a label about its thing, in order of liking, `fartherPx` farther away than beside it. */
export function around({ x, y, radiusPx, widthPx, heightPx }: LabelWish, fartherPx: number): Box[] {
  const away = radiusPx + GAP_PX + fartherPx;
  const at = (left: number, top: number): Box => ({
    left,
    top,
    right: left + widthPx,
    bottom: top + heightPx,
  });
  const right = x + away;
  const left = x - away - widthPx;
  return [
    at(right, y - heightPx / 2),
    at(left, y - heightPx / 2),
    at(x - widthPx / 2, y - away - heightPx),
    at(x - widthPx / 2, y + away),
    at(right, y - heightPx - 1 - fartherPx),
    at(right, y + 1 + fartherPx),
    at(left, y - heightPx - 1 - fartherPx),
    at(left, y + 1 + fartherPx),
  ];
}

/** True where two boxes share more than an edge. */
export function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
