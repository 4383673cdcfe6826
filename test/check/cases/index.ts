import type { RuleId } from "../../../src/rules/index.ts";
import type { Pairs } from "../pair.ts";
import { blastKeepOut } from "./blast-keep-out.ts";
import { container } from "./container.ts";
import { crewSeparation } from "./crew-separation.ts";
import { evaDistance, stayDistance } from "./distances.ts";
import { duty } from "./duty.ts";
import { egressWindow } from "./egress-window.ts";
import { equipment } from "./equipment.ts";
import { evaBounds } from "./eva-bounds.ts";
import { walkingPhysics as legPhysics } from "./given-legs.ts";
import { groupLeast, groupMost } from "./groups.ts";
import { hotKeepOut } from "./hot-keep-out.ts";
import { walkingPhysics as insidePhysics } from "./inside-tasks.ts";
import { landerStores } from "./lander-stores.ts";
import { light, sunAngle } from "./light.ts";
import { linkApart, linkCrew, linkEva, linkLag, linkNeeds } from "./links.ts";
import { mustDo } from "./must-do.ts";
import { noWay } from "./no-way.ts";
import { oneAtATime } from "./one-at-a-time.ts";
import { pin } from "./pin.ts";
import { recharge } from "./recharge.ts";
import { relay } from "./relay.ts";
import { batteryReserve, co2Reserve, oxygenReserve, waterReserve } from "./reserves.ts";
import { returnMass } from "./return-mass.ts";
import { stayBlocks } from "./stay-blocks.ts";
import { recharge as suitRecharge, suitWornOnce } from "./suit-worn-once.ts";
import { carry, drinkingWater, heatStorage } from "./suits.ts";
import { sun } from "./sun.ts";
import { taskCrew } from "./task-crew.ts";
import { timeWindow } from "./time-window.ts";
import { walkBackConsumables } from "./walk-back-consumables.ts";
import { walkBackEmergency } from "./walk-back-emergency.ts";
import { walkingPhysics } from "./walking-physics.ts";
import { workAndRest } from "./work-and-rest.ts";

/** Every flight rule's cases: at least one pair a rule, or this does not compile. `../pairs.test.ts` holds the judge to them. */
export const CASES: Readonly<Record<RuleId, Pairs>> = {
  "oxygen-reserve": oxygenReserve,
  "co2-reserve": co2Reserve,
  "water-reserve": waterReserve,
  "battery-reserve": batteryReserve,
  "heat-storage": heatStorage,
  "drinking-water": drinkingWater,
  "walk-back-emergency": walkBackEmergency,
  "walk-back-consumables": walkBackConsumables,
  "walking-physics": [...walkingPhysics, ...legPhysics, ...insidePhysics],
  "eva-distance": evaDistance,
  "stay-distance": stayDistance,
  "crew-separation": crewSeparation,
  carry,
  "return-mass": returnMass,
  container,
  equipment,
  "time-window": timeWindow,
  "egress-window": egressWindow,
  sun,
  light,
  "sun-angle": sunAngle,
  relay,
  "link-lag": linkLag,
  "link-needs": linkNeeds,
  "link-crew": linkCrew,
  "link-eva": linkEva,
  "link-apart": linkApart,
  "task-crew": taskCrew,
  "one-at-a-time": oneAtATime,
  "no-way": noWay,
  "blast-keep-out": blastKeepOut,
  "hot-keep-out": hotKeepOut,
  "work-and-rest": workAndRest,
  "eva-bounds": evaBounds,
  "stay-blocks": stayBlocks,
  duty,
  "suit-worn-once": suitWornOnce,
  recharge: [...recharge, ...suitRecharge],
  "lander-stores": landerStores,
  pin,
  "group-most": groupMost,
  "group-least": groupLeast,
  "must-do": mustDo,
};
