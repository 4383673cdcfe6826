import { FORMAT, type PlanInput, VERSION } from "../../plan.ts";
import { demoCrew, demoEvas, demoSuits } from "./crew.ts";
import { demoContainers, demoEquipment } from "./gear.ts";
import { shelfGround } from "./ground.ts";
import { demoLinks } from "./links.ts";
import { tarrowShelf } from "./site.ts";
import { demoStay } from "./stay.ts";
import { demoTasks } from "./tasks/index.ts";

/**
 * The plan that the program opens with: a full stay whose requests are more than the crew can do.
 *
 * There is: 2 crew members x (390 - 18 - 22 min on EVA 1 + 420 - 15 - 25 min on EVA 2) = 1460 crew-minutes.
 * Asked for: 1651 crew-minutes of tasks and 346 of walking, counted as one round past all places by both of them;
 * 1997 / 1460 = 1.37. With two rests of 10 min for each of them on each outing, 2077 / 1460 = 1.42.
 * The must-do tasks take 415 crew-minutes of it.
 */
export function demoPlan(): PlanInput {
  return {
    format: FORMAT,
    version: VERSION,
    title: "Tarrow Shelf, two outings",
    notes:
      "Invented training plan: no real site, crew, vehicle or mission. The requests ask for about 40 % more " +
      "crew time than there is. For planning and training only.",
    site: tarrowShelf,
    ground: shelfGround,
    stay: demoStay,
    crew: demoCrew,
    suits: demoSuits,
    stores: { oxygenKg: 8, waterKg: 40, batteryWh: 4000, absorbentChanges: 6 },
    evas: demoEvas,
    equipment: demoEquipment,
    containers: demoContainers,
    tasks: demoTasks,
    links: demoLinks,
    rules: {
      returnMass: { greatestKg: 52, source: "The ascent vehicle's limit. Invented." },
      walkback: {
        source:
          "Speed: 30 min at 3.6 km/h is 1.8 km, published in prose. Emergency oxygen of 36 min is this plan's own.",
      },
    },
    schedule: { placements: [] },
  };
}
