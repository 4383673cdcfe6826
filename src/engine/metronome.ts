/**
 * A worker that does a little work of a known size and says how much longer it took than it would on a core of its own. So the silence of
 * another worker is told from a machine that is busy with other things.
 */

const PIECES = 20;
/** Sums a piece: about a millisecond, several times what a page's clock can tell apart. */
const SUMS = 1_000_000;

/** How much longer the pieces took together than as many of the quickest third: a piece is seldom interrupted, the whole is. */
export function slownessOf(piecesMs: readonly number[], wholeMs: number): number {
  const sorted = [...piecesMs].sort((a, b) => a - b);
  const quickMs = sorted[Math.floor(sorted.length / 3)] ?? 0;
  return quickMs > 0 ? Math.max(1, wholeMs / (quickMs * piecesMs.length)) : 1;
}

/** Works, and says how much slower that went than undisturbed; `nowMs` is the caller's clock. */
export function measured(nowMs: () => number): number {
  const beganMs = nowMs();
  let sum = 0;
  const piecesMs = Array.from({ length: PIECES }, () => {
    const pieceMs = nowMs();
    for (let k = 0; k < SUMS; k += 1) sum = (sum + k) | 0;
    return nowMs() - pieceMs;
  });
  // Asked for, so that the work is not left out.
  return slownessOf(piecesMs, nowMs() - beganMs + (sum === 0.5 ? 1 : 0));
}
