/**
 * Simple impact craters: how many, how deep, what shape.
 *
 * Number: cumulative `N(>D) = share 1.54 D^-b Dref^(b-2)` per square metre. 1.54 D^-2 is geometric saturation (Gault
 * 1970, Radio Sci 5:273-291, value from memory); small craters on the Moon stand in equilibrium with b = 2 (Moore,
 * Boyce & Hahn 1980, Moon Planets 23:231-252) at a few percent of it (Minton et al. 2019, Icarus 326:63-87); fresh
 * craters are made with b of about 2.8. Dref, where laws of different b meet, is 10 m (project assumption). Shape:
 * fresh depth from rim to floor 0.2 D, rim height 0.036 D (Pike 1974, Geophys Res Lett 1:291-294: 0.196 D^1.010 and,
 * as quoted, 0.036 D^1.014, km); an old crater is shallower by its `freshness` (project assumption). Bowl: a
 * paraboloid; outside, the rim falls off with the cube of the distance and is gone at three radii. Range: diameters
 * of 1 m to 15 km. Not covered: secondary craters in rays, blocks, slumped walls, central peaks.
 */
const SATURATION = 1.54;
const MEET_M = 10;

/** Rim to floor over diameter of a fresh crater. */
const FRESH_DEPTH = 0.2;
/** Rim height above the ground before, over diameter, of a fresh crater. */
const FRESH_RIM = 0.036;
/** Radii from the centre at which the rim's outer slope ends. */
export const APRON_RADII = 3;

/** Craters larger than `diameterM` per square metre, for `share` of geometric saturation and power `b`. */
export function cratersPerM2(diameterM: number, share: number, b: number): number {
  return share * SATURATION * diameterM ** -b * MEET_M ** (b - 2);
}

/** Rim to floor in m. `freshness` from 0 (gone) to 1 (fresh). */
export function craterDepthM(diameterM: number, freshness: number): number {
  return FRESH_DEPTH * freshness * diameterM;
}

/**
 * Height in m, against the ground before, at `awayM` from the centre of a crater `diameterM` across. `freshness` from
 * 0 (gone) to 1 (fresh).
 */
export function craterHeightM(awayM: number, diameterM: number, freshness: number): number {
  const away = (2 * awayM) / diameterM;
  const rimM = FRESH_RIM * freshness * diameterM;
  if (away <= 1) return rimM - craterDepthM(diameterM, freshness) * (1 - away * away);
  if (away >= APRON_RADII) return 0;
  const gone = APRON_RADII ** -3;
  return (rimM * (away ** -3 - gone)) / (1 - gone);
}
