import type { FlightRule } from "../finding.ts";
import { blastKeepOut } from "./blastKeepOut.ts";
import { carry } from "./carry.ts";
import { container } from "./container.ts";
import { crewSeparation } from "./crewSeparation.ts";
import { distances } from "./distances.ts";
import { drinkingWater } from "./drinkingWater.ts";
import { duty } from "./duty.ts";
import { equipment } from "./equipment.ts";
import { evaBounds } from "./evaBounds.ts";
import { heatStorage } from "./heatStorage.ts";
import { givenLegs } from "./givenLegs.ts";
import { hotKeepOut } from "./hotKeepOut.ts";
import { insideTasks } from "./insideTasks.ts";
import { landerStores } from "./landerStores.ts";
import { light } from "./light.ts";
import { linkApart } from "./linkApart.ts";
import { linkCrew } from "./linkCrew.ts";
import { linkEva } from "./linkEva.ts";
import { linkLag } from "./linkLag.ts";
import { linkNeeds } from "./linkNeeds.ts";
import { mustDo } from "./mustDo.ts";
import { noWay } from "./noWay.ts";
import { oneAtATime } from "./oneAtATime.ts";
import { pin } from "./pin.ts";
import { recharge } from "./recharge.ts";
import { relay } from "./relay.ts";
import { reserveRules } from "./reserves.ts";
import { returnMass } from "./returnMass.ts";
import { stayBlocks } from "./stayBlocks.ts";
import { suitWornOnce } from "./suitWornOnce.ts";
import { sun } from "./sun.ts";
import { sunAngle } from "./sunAngle.ts";
import { taskCrew } from "./taskCrew.ts";
import { timeWindow } from "./timeWindow.ts";
import { walkBackConsumables } from "./walkBackConsumables.ts";
import { walkBackEmergency } from "./walkBackEmergency.ts";
import { walkingPhysics } from "./walkingPhysics.ts";
import { workAndRest } from "./workAndRest.ts";

/** Every flight rule of RULES.md, in its order. */
export const FLIGHT_RULES: readonly FlightRule[] = [
  reserveRules,
  heatStorage,
  drinkingWater,
  walkBackEmergency,
  walkBackConsumables,
  walkingPhysics,
  givenLegs,
  insideTasks,
  distances,
  crewSeparation,
  carry,
  returnMass,
  container,
  equipment,
  timeWindow,
  sun,
  light,
  sunAngle,
  relay,
  linkLag,
  linkNeeds,
  linkCrew,
  linkEva,
  linkApart,
  taskCrew,
  oneAtATime,
  noWay,
  blastKeepOut,
  hotKeepOut,
  workAndRest,
  evaBounds,
  stayBlocks,
  duty,
  suitWornOnce,
  recharge,
  landerStores,
  pin,
  mustDo,
];
