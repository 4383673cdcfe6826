import type { TaskInput } from "../../parts.ts";
import { cowlTasks } from "./cowl.ts";
import { openingTasks } from "./opening.ts";
import { osierTasks } from "./osier.ts";
import { powerTasks } from "./power.ts";
import { shelfTasks } from "./shelf.ts";
import { unitTasks } from "./units.ts";

/** All requests of the demo plan, in the order in which the bench first shows them. */
export const demoTasks: TaskInput[] = [
  ...openingTasks,
  ...powerTasks,
  ...unitTasks,
  ...shelfTasks,
  ...osierTasks,
  ...cowlTasks,
];
