import { random } from "../../src/kernel/index.ts";
import { parse, type Plan } from "../../src/plan/index.ts";
import type { PlanInput } from "../../src/plan/plan.ts";
import { largePlan } from "../../src/plan/large/index.ts";
import { districtsOf } from "../../src/plan/large/ground.ts";
import { linksOf } from "../../src/plan/large/links.ts";
import { tasksOf } from "../../src/plan/large/tasks.ts";

const PAIR = ["ev1", "ev2"];

/**
 * The working size: `tasks` requests for two crew members and three EVAs, made from `seed` as the large ready plan is, with all
 * that it has of windows, relay passes, sun ranges, two-person tasks, shared tools, samples and links.
 */
export function workingPlan(seed: number, tasks = 60): Plan {
  const large = largePlan(seed);
  const stream = random(seed);
  const districts = districtsOf(stream.split());
  const evas = large.evas.filter((eva) => eva.crew.every((id) => PAIR.includes(id)));
  const list = tasksOf(stream.split(), tasks, districts, evas);
  const input: PlanInput = {
    ...large,
    title: `${tasks} tasks, 2 crew members, ${evas.length} EVAs, seed ${seed}`,
    site: {
      ...large.site,
      places: [large.site.places[0]!, ...districts.flatMap((district) => district.places)],
    },
    crew: large.crew.filter((member) => PAIR.includes(member.id)),
    evas,
    tasks: list,
    links: linksOf(stream.split(), Math.floor(tasks / 2), list),
  };
  const read = parse(input);
  if (read.ok) return read.value;
  throw new Error(read.error.map((fault) => `${fault.path}: ${fault.message}`).join("\n"));
}
