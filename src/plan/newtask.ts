import type { Task } from "./task.ts";

/** What a task begins with of which nothing was said. Its worth is not 0: packing takes nobody out for what is worth nothing. */
export const NEW_TASK = {
  walkM: 0,
  crew: { count: 1, named: [] },
  worth: 10,
  must: false,
  windows: [],
  relay: false,
  equipment: [],
  massOutKg: 0,
  cautions: [],
  steps: [],
  notes: "",
} satisfies Partial<Task>;
