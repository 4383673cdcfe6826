import type { Finding } from "../../answers/index.ts";
import { pulse } from "../../kernel/index.ts";
import type { RuleId } from "../../rules/index.ts";
import type { JudgeRule } from "../finding.ts";
import type { Walkthrough } from "../walkthrough.ts";
import { blastKeepOut } from "./blastKeepOut.ts";
import { carry } from "./carry.ts";
import { container } from "./container.ts";
import { crewSeparation } from "./crewSeparation.ts";
import { distances } from "./distances.ts";
import { drinkingWater } from "./drinkingWater.ts";
import { duty } from "./duty.ts";
import { egressWindow } from "./egressWindow.ts";
import { equipment } from "./equipment.ts";
import { evaBounds } from "./evaBounds.ts";
import { heatStorage } from "./heatStorage.ts";
import { givenLegs } from "./givenLegs.ts";
import { groupLeast, groupMost } from "./groups.ts";
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

/** What finds each flight rule's findings; one that looks at several rules stands at each of them. */
const JUDGED: Readonly<Record<RuleId, JudgeRule>> = {
  "oxygen-reserve": reserveRules,
  "co2-reserve": reserveRules,
  "water-reserve": reserveRules,
  "battery-reserve": reserveRules,
  "heat-storage": heatStorage,
  "drinking-water": drinkingWater,
  "walk-back-emergency": walkBackEmergency,
  "walk-back-consumables": walkBackConsumables,
  "walking-physics": (walkthrough) => [
    ...walkingPhysics(walkthrough),
    ...givenLegs(walkthrough),
    ...insideTasks(walkthrough),
  ],
  "eva-distance": distances,
  "stay-distance": distances,
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
  recharge,
  "lander-stores": landerStores,
  pin,
  "group-most": groupMost,
  "group-least": groupLeast,
  "must-do": mustDo,
};

/** Everything that the flight rules find in a walkthrough. */
export function findingsOf(walkthrough: Walkthrough): Finding[] {
  return [...new Set(Object.values(JUDGED))].flatMap((judge) => {
    pulse();
    return judge(walkthrough);
  });
}
