import type { ReachTrack, Verdict } from "../../answers/index.ts";
import type { Instant } from "../../kernel/index.ts";
import { minutes } from "../../words/index.ts";

/** A walk-back time as far as the verdict says it. */
export type WalkBack =
  | { readonly kind: "known"; readonly seconds: number }
  | { readonly kind: "no way" }
  | { readonly kind: "unknown" };

/** Walk-back from where a task ends. */
function walkBackFromEnd(verdict: Verdict, task: string): WalkBack {
  const seconds = verdict.walkbackS[task];
  if (seconds === null) return { kind: "no way" };
  return seconds === undefined || !Number.isFinite(seconds) || seconds < 0
    ? { kind: "unknown" }
    : { kind: "known", seconds };
}

/** The longest walk-back while a task is under way: at its begin, on the way inside it, and at its end. */
export function walkBackOver(
  verdict: Verdict,
  eva: string | null,
  crew: string,
  task: string,
  { startS, endS }: { readonly startS: Instant; readonly endS: Instant },
): WalkBack {
  const track = verdict.reach.find((one) => one.eva === eva && one.crew === crew) ?? null;
  const inside = (track?.points ?? []).filter(({ atS }) => startS <= atS && atS <= endS);
  return inside.reduce<WalkBack>(
    (worst, { value }) => worseWalkBack(worst, { kind: "known", seconds: value }),
    worseWalkBack(walkBackAt(track, startS), walkBackFromEnd(verdict, task)),
  );
}

/** Walk-back at a moment that the crew member's track marks; unknown between its marks. */
function walkBackAt(track: ReachTrack | null, at: Instant): WalkBack {
  const marked = (track?.points ?? []).filter((point) => point.atS === at).map((point) => point.value);
  return marked.length === 0 ? { kind: "unknown" } : { kind: "known", seconds: Math.max(...marked) };
}

/** The longest walk-back of a track and when; null for an empty one. */
export function farthest(
  track: ReachTrack | null,
): { readonly seconds: number; readonly atS: Instant } | null {
  let worst: { seconds: number; atS: Instant } | null = null;
  for (const { value, atS } of track?.points ?? []) {
    if (worst === null || value > worst.seconds) worst = { seconds: value, atS };
  }
  return worst;
}

/** The worse of two: no way, then unknown, then the longer. */
function worseWalkBack(a: WalkBack, b: WalkBack): WalkBack {
  if (a.kind === "known" && b.kind === "known") return a.seconds >= b.seconds ? a : b;
  if (a.kind === "no way" || b.kind === "no way") return { kind: "no way" };
  return { kind: "unknown" };
}

/** In words: "14 min" (begun minutes counted up), "no way home", "unknown". */
export function walkBackWords(walkBack: WalkBack): string {
  if (walkBack.kind === "known") return minutes(walkBack.seconds, "up");
  return walkBack.kind === "no way" ? "no way home" : "unknown";
}
