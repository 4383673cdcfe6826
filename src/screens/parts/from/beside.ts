const EDGE_PX = 8;
const GAP_PX = 4;
const MOST = 0.7;

/**
 * Where a box so high goes that answers for what stands at `at`: below it, or above where it fits better there. It never
 * covers it, and has at most the room that is there.
 */
export function beside(
  at: { readonly top: number; readonly bottom: number },
  heightPx: number,
  windowPx: number,
): { readonly top: number; readonly mostPx: number } {
  const below = windowPx - EDGE_PX - at.bottom - GAP_PX;
  const above = at.top - GAP_PX - EDGE_PX;
  const wanted = Math.min(heightPx, windowPx * MOST);
  if (below >= wanted || below >= above) return { top: at.bottom + GAP_PX, mostPx: Math.min(wanted, below) };
  const mostPx = Math.min(wanted, above);
  return { top: at.top - GAP_PX - mostPx, mostPx };
}
