/**
 * Heat that a suit takes from the ground and the sun, by sun elevation.
 *
 * Model, a project assumption: an upright insulated cylinder in radiative balance. Taken up per m2 of its side:
 * `a S cos e / pi` from the sun, `1/2 em (1 - A) S sin e` of the ground's own heat (local balance, view factor one
 * half), `1/2 a A S sin e` reflected by it; let out `em sigma T^4`. Through the insulation goes
 * `k (uptake / em - sigma T^4)`, k the area times the effective emittance. Clean white cloth: a 0.18 and em 0.84; ground
 * albedo A 0.12, k 0.2 m2, inner face at 300 K: values from memory.
 * Two allowances on the hot side, whatever the date and the cloth: the sun at its nearest in the year, 3.4 % over the mean of
 * 1361 W/m2 (Kopp & Lean 2011, Geophys Res Lett 38:L01706; 3.4 % is twice the eccentricity of 0.0167), and a tenth of the cloth under
 * dust as dark as the ground, 1 - A (project assumption). Range: sun elevations of 0 to 90 degrees, level ground, midday to dusk.
 * Not covered: rocks and walls about, contact with the ground, more dust than a tenth, ground that still cools or warms.
 */
const MEAN_SOLAR_W_M2 = 1361;
const NEAREST_OVER_MEAN = 1.034;
const ALBEDO = 0.12;
const CLEAN_ABSORPTANCE = 0.18;
const DUSTY_SHARE = 0.1;
const EMITTANCE = 0.84;

/** Sunlight that is reckoned with, W/m2. */
export const SOLAR_W_M2 = MEAN_SOLAR_W_M2 * NEAREST_OVER_MEAN;
/** Share of sunlight that the cloth takes up, dust reckoned in. */
export const ABSORPTANCE = CLEAN_ABSORPTANCE + DUSTY_SHARE * (1 - ALBEDO - CLEAN_ABSORPTANCE);
const STEFAN_W_M2_K4 = 5.670374419e-8;
const INNER_K = 300;
const INSULATION_M2 = 0.2;

/** Share of the sun's light that reaches the side of the cylinder over the ground, by emission and by reflection. */
const FROM_GROUND = 0.5 * (EMITTANCE * (1 - ALBEDO) + ABSORPTANCE * ALBEDO);
/** Where `a cos e / pi + FROM_GROUND sin e` is greatest. */
const HOTTEST_DEG = (Math.atan2(FROM_GROUND, ABSORPTANCE / Math.PI) * 180) / Math.PI;
/** Just over the horizon, where the sun already counts. */
const LOWEST_DEG = 1e-9;

/**
 * Heat in W from the surroundings into a suit; negative where it loses heat. `null` elevation: in shadow, ground
 * cold.
 */
export function environmentHeatW(elevationDeg: number | null, insulationM2 = INSULATION_M2): number {
  const uptake = elevationDeg === null || elevationDeg <= 0 ? 0 : uptakeW(elevationDeg);
  return insulationM2 * (uptake / EMITTANCE - STEFAN_W_M2_K4 * INNER_K ** 4);
}

/**
 * The greatest heat in W from the surroundings on sunlit ground while the sun's elevation stays from `leastDeg` to
 * `greatestDeg`; below the horizon as in shadow. The heat grows to one greatest value and falls beyond it.
 */
export function environmentMostW(
  leastDeg: number,
  greatestDeg: number,
  insulationM2 = INSULATION_M2,
): number {
  return environmentHeatW(hottestDeg(leastDeg, greatestDeg), insulationM2);
}

/** The elevation from `leastDeg` to `greatestDeg` at which the heat is greatest; not above 0 where the sun stays down. */
export function hottestDeg(leastDeg: number, greatestDeg: number): number {
  if (greatestDeg <= 0) return greatestDeg;
  return Math.max(Math.min(greatestDeg, Math.max(leastDeg, HOTTEST_DEG)), LOWEST_DEG);
}

function uptakeW(elevationDeg: number): number {
  const elevation = (elevationDeg * Math.PI) / 180;
  const sun = (ABSORPTANCE * SOLAR_W_M2 * Math.cos(elevation)) / Math.PI;
  const ground = FROM_GROUND * SOLAR_W_M2 * Math.sin(elevation);
  return sun + ground;
}
