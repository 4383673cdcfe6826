import type { Finding, FitBand, VerdictChange } from "../../answers/index.ts";
import type { Block } from "../../editor/index.ts";

/** A stretch in which two tasks lie over each other for one of the crew. */
export interface Overlap {
  readonly lane: string;
  readonly startS: number;
  readonly endS: number;
  /** The one in hand. */
  readonly block: Block;
}

/** Where tasks in hand lie over others of the same lane. */
export function overlapsOf(blocks: readonly Block[], inHand: readonly string[]): readonly Overlap[] {
  const going = new Set(inHand);
  return blocks
    .filter(({ task }) => going.has(task))
    .flatMap((block) =>
      blocks
        .filter(
          (other) =>
            other.lane === block.lane &&
            !going.has(other.task) &&
            other.startS < block.endS &&
            block.startS < other.endS,
        )
        .map((other) => ({
          lane: block.lane,
          startS: Math.max(block.startS, other.startS),
          endS: Math.min(block.endS, other.endS),
          block,
        })),
    );
}

/** Most minutes that are pinned: more would stand in each other's way, and the side has them all. */
const MOST_PINS = 2;

/** The breaches that a move makes or makes worse, by the minute at which they begin, the first ones. */
export function pinsOf({ gained, worse }: Pick<VerdictChange, "gained" | "worse">): readonly {
  readonly atS: number;
  readonly finding: Finding;
}[] {
  const pins = new Map<number, Finding>();
  for (const finding of [...gained, ...worse.map((one) => one.finding)])
    if (finding.level === "breach" && finding.span !== null && !pins.has(finding.span.startS))
      pins.set(finding.span.startS, finding);
  return [...pins]
    .map(([atS, finding]) => ({ atS, finding }))
    .toSorted((a, b) => a.atS - b.atS)
    .slice(0, MOST_PINS);
}

/** A first and a last start, seconds. */
export interface Starts {
  readonly firstS: number;
  readonly lastS: number;
}

/**
 * The stretch of starts that fit on a lane and lies nearest to `atS`: with all others where they are, and if they slide. Starts on the
 * plan's grid, so that none is said that would not be taken.
 */
export function nearestStarts(
  bands: readonly FitBand[],
  lane: string,
  atS: number,
  gridS: number,
): { readonly fixed: Starts | null; readonly sliding: Starts | null } {
  const own = bands.filter(({ crew }) => crew.includes(lane));
  const nearest = (kind: "fixed" | "sliding"): Starts | null =>
    own
      .flatMap((band) => band[kind])
      .map(({ startS, endS }) => ({
        firstS: Math.ceil(startS / gridS) * gridS,
        // Half open: the end itself is no start any more.
        lastS: Math.floor((endS - 1) / gridS) * gridS,
      }))
      .filter(({ firstS, lastS }) => firstS <= lastS)
      .reduce<Starts | null>((best, one) => (best && away(best, atS) <= away(one, atS) ? best : one), null);
  return { fixed: nearest("fixed"), sliding: nearest("sliding") };
}

function away({ firstS, lastS }: Starts, atS: number): number {
  return Math.max(firstS - atS, atS - lastS, 0);
}
