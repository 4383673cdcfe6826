export { MEASURED_KCAL_H, metabolicW } from "./workrate.ts";
export type { Effort } from "./workrate.ts";
export { co2KgPerJ, kcalPerLitreOxygen, oxygenKgPerJ } from "./respiration.ts";
export { absorbedCo2Kg, CO2_PER_LIOH } from "./absorbent.ts";
export { coolingWaterKgS, coolingWh } from "./cooling.ts";
export { absorbentHeatW, heatBalance, heatLoadW } from "./heatbalance.ts";
export type { HeatBalance, HeatLoad } from "./heatbalance.ts";
export { ABSORPTANCE, environmentHeatW, environmentMostW, sinkK, SOLAR_W_M2 } from "./environment.ts";
export { heatLimitS, heatStorageS, storedAfterJ, storedShare } from "./heatstore.ts";
export { DRINKING_KG_H, drinkingS, drinkingWaterKg } from "./drinking.ts";
export { oxygenKgM3, purgeKg, purgeS } from "./purge.ts";
export { batteryS, batteryWh } from "./battery.ts";
export type { PowerMode } from "./battery.ts";
export { sharedEmergencyS, sharedWaterKgS } from "./emergency.ts";
export { carriedKg, CARRY_N, carryLimitKg, carryTrips } from "./carry.ts";
export {
  explainDraw,
  explainDrinking,
  explainEmergency,
  explainHeatStorage,
  explainPurge,
  explainRate,
  explainSurroundings,
} from "./explain.ts";
export { explainWalk, explainWalkbackRate } from "./explainwalk.ts";
export { CONSUMABLES, drawPerSecond, purgeOf, reserves, stocks } from "./suit.ts";
export type { Amounts, Consumable, SuitModel } from "./suit.ts";
export { suitEnvironmentHeatW, electricalW, heatPerSecond, suitIn } from "./worn.ts";
export type { Mode, WornSuit } from "./worn.ts";
export { slopeW } from "./slope.ts";
export { toblerKmH, walkingMs } from "./gait.ts";
export { froudeMs } from "./froude.ts";
export { levelW, speedGrowthW, walkbackW, walkingW } from "./walk.ts";
export type { LevelRate, OnFoot } from "./walk.ts";
export { FASTEST_MS, USUAL_MOST_MS } from "./suitedspeed.ts";
export { runningW } from "./running.ts";
export { loadedWalkW, pandolfW, santeeCorrectionW } from "./pandolf.ts";
export type { LoadedWalk } from "./pandolf.ts";
export { lightWalkW } from "./lightwalk.ts";
export { farthestM, lastsS } from "./reach.ts";
export { apparentWeight, surfaceGravityMs2, weightN } from "./weight.ts";
export { horizonM } from "./horizon.ts";
export { shadowPerHeight } from "./shadow.ts";
export { APRON_RADII, craterDepthM, craterHeightM, cratersPerM2, FRESH_DEPTH, FRESH_RIM } from "./crater.ts";
export { apartDeg, bearingDeg, sunSide } from "./bearing.ts";
export { dipDeg, sightDeg } from "./sight.ts";
export { incidence } from "./shading.ts";
export { moonEarth, moonSun } from "./sky.ts";
export type { Observer, SkyDirection } from "./sky.ts";
export { sunStretches } from "./stretches.ts";
export type { ElevationRange } from "./stretches.ts";
