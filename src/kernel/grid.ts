/** The first whole multiple of `gridS` that is not before `atS`, both whole seconds. */
export function gridFrom(atS: number, gridS: number): number {
  const over = (atS % gridS) | 0;
  return over > 0 ? atS - over + gridS : atS - over;
}

/** The last whole multiple of `gridS` that is not after `atS`, both whole seconds. */
export function gridTo(atS: number, gridS: number): number {
  const over = (atS % gridS) | 0;
  return over < 0 ? atS - over - gridS : atS - over;
}
