import { duration } from "../../kernel/index.ts";
import type { Plan, Task } from "../../plan/index.ts";

/** What a new task of a sort begins with; its name, place and worth are the planner's to change. */
export interface TaskTemplate {
  readonly id: string;
  readonly name: string;
  /** What it presets, for the chooser. */
  readonly says: string;
  readonly part: Partial<Task>;
  /** Done at the lander, not at the first station. */
  readonly atLander?: boolean;
}

const minutes = (low: number, likely: number, high: number): Task["duration"] => ({
  likelyS: duration(likely * 60),
  lowS: duration(low * 60),
  highS: duration(high * 60),
});

const steps = (...texts: string[]): Task["steps"] => texts.map((text) => ({ text, cautions: [] }));

/**
 * Sorts of surface work. The efforts are the measured categories that the plan knows. The durations are common
 * practice, no source: round figures to be replaced by what the crew needs in rehearsal.
 */
export const TASK_TEMPLATES: readonly TaskTemplate[] = [
  {
    id: "sample",
    name: "Documented sample",
    says: "sampling, one crew member, 15 min (10 to 25), geology effort",
    part: {
      kind: "sampling",
      duration: minutes(10, 15, 25),
      effort: "geology",
      steps: steps("Photograph before", "Take and bag", "Photograph after", "Call the bag number"),
    },
  },
  {
    id: "core",
    name: "Core",
    says: "sampling, two crew members, 30 min (20 to 45), deployment effort",
    part: {
      kind: "sampling",
      duration: minutes(20, 30, 45),
      effort: "deployment",
      crew: { count: 2, named: [] },
      steps: steps("Clear the spot", "Drive the core", "Draw and cap", "Stow"),
    },
  },
  {
    id: "instrument",
    name: "Instrument to set up",
    says: "deployment, one crew member, 20 min (14 to 30), deployment effort, blast keep-out",
    part: {
      kind: "deployment",
      duration: minutes(14, 20, 30),
      effort: "deployment",
      steps: steps("Carry out and set down", "Level and align", "Connect", "Photograph"),
    },
  },
  {
    id: "panorama",
    name: "Panorama",
    says: "survey, one crew member, 10 min (7 to 15), geology effort",
    part: {
      kind: "survey",
      duration: minutes(7, 10, 15),
      effort: "geology",
      steps: steps("Full circle", "Call the count"),
    },
  },
  {
    id: "upkeep",
    name: "Upkeep at the lander",
    says: "upkeep, one crew member, 15 min (10 to 25), deployment effort",
    atLander: true,
    part: { kind: "upkeep", duration: minutes(10, 15, 25), effort: "deployment" },
  },
  {
    id: "remote",
    name: "Work by command",
    says: "survey, no crew, 20 min (15 to 30)",
    part: { kind: "survey", duration: minutes(15, 20, 30), crew: { count: 0, named: [] } },
  },
];

/** What a task of a sort begins with in `plan`: its name is numbered from the second one on. */
export function taskOf({ name, part, atLander }: TaskTemplate, plan: Plan): Partial<Task> {
  const taken = new Set(plan.tasks.map((task) => task.name));
  let free = name;
  for (let number = 2; taken.has(free); number += 1) free = `${name} ${number}`;
  const lander = plan.site.places.find((place) => place.kind === "lander");
  return { ...part, name: free, ...(atLander && lander ? { place: lander.id } : {}) };
}
