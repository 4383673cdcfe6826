/** A point of the curve on the page, px, and what is written beside it. */
export interface LabelledPoint {
  readonly x: number;
  readonly y: number;
  readonly words: string;
}

/** Where words stand from their point, px: their middle to the right, their foot downwards. */
export interface WordsPlace {
  readonly dx: number;
  readonly dy: number;
}

/** What words keep clear of, px. */
export interface InTheWay {
  /** Ends of the picture, which no word crosses. */
  readonly left: number;
  readonly right: number;
  /** The line of the wish, drawn from top to bottom. */
  readonly wishX: number;
  /** The wish's own words. */
  readonly wish: WordsBox;
}

/** The box of words, px. */
export interface WordsBox {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Half a letter's width and a line's height at the size of the picture's words, px. */
const HALF_LETTER_PX = 3.6;
const LINE_PX = 14;
/** From a foot down to what hangs below it, px. */
const BELOW_FOOT_PX = 3;
/** From a point to the foot of words above it, and of words below it, px. */
const FEET_PX = [-12, 22];
/** Half a point with some air, px. */
const POINT_PX = 8;
/** Between words and the line of the wish, px. */
const AIR_PX = 5;

/** The box of words with their middle at `x` and their foot at `foot`, px. */
export function boxOf(words: string, x: number, foot: number): WordsBox {
  const half = words.length * HALF_LETTER_PX;
  return {
    left: x - half,
    right: x + half,
    top: foot + BELOW_FOOT_PX - LINE_PX,
    bottom: foot + BELOW_FOOT_PX,
  };
}

/**
 * Where the words of each point stand: above it, else under it, each straight over the point or aside of the wish's line, so that
 * they lie on no line, no other words and no other point. Where nothing is free they stand above.
 */
export function layWords(points: readonly LabelledPoint[], way: InTheWay): readonly WordsPlace[] {
  const written: WordsBox[] = [way.wish];
  return points.map((point, own) => {
    const others = points.filter((_, k) => k !== own).map(pointBox);
    const isFree = ({ dx, dy }: WordsPlace): boolean => {
      const box = boxOf(point.words, point.x + dx, point.y + dy);
      const crosses = box.left < way.wishX + AIR_PX && box.right > way.wishX - AIR_PX;
      return !crosses && ![...written, ...others].some((one) => overlap(one, box));
    };
    const places = placesOf(point, way);
    const place = places.find(isFree) ?? places[0]!;
    written.push(boxOf(point.words, point.x + place.dx, point.y + place.dy));
    return place;
  });
}

/** Places for the words of a point in order of liking, all inside the picture. */
function placesOf({ x, words }: LabelledPoint, { left, right, wishX }: InTheWay): readonly WordsPlace[] {
  const half = words.length * HALF_LETTER_PX;
  const inside = (at: number): number => Math.max(left + half, Math.min(right - half, at));
  const asides = [x, wishX - AIR_PX - half, wishX + AIR_PX + half, x - half - POINT_PX, x + half + POINT_PX];
  const moves = asides
    .map((at) => inside(at) - x)
    // Farther off they would be another point's.
    .filter((dx) => Math.abs(dx) <= half + 2 * POINT_PX)
    .sort((a, b) => Math.abs(a) - Math.abs(b));
  return moves.flatMap((dx) => FEET_PX.map((dy) => ({ dx, dy })));
}

function pointBox({ x, y }: LabelledPoint): WordsBox {
  return { left: x - POINT_PX, right: x + POINT_PX, top: y - POINT_PX, bottom: y + POINT_PX };
}

function overlap(a: WordsBox, b: WordsBox): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
