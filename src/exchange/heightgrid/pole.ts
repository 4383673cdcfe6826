/** What cannot be read where no pole is named. */
export const NO_POLE = "polar stereographic about a pole it does not name";

/**
 * Polar stereographic writers put into one number the pole, or the parallel at which the scale is true: `lat_0` becomes the
 * pole, and a parallel goes into `lat_ts`. False where no pole is named.
 */
export function settlePole(values: Map<string, number>): boolean {
  const origin = values.get("lat_0") ?? 0;
  if (origin === 0) return false;
  if (Math.abs(origin) < 90) values.set("lat_ts", origin);
  values.set("lat_0", origin < 0 ? -90 : 90);
  return true;
}
