import { type Plan, remedyHost } from "../plan/index.ts";
import { counted } from "./list.ts";

/**
 * What a rehearsal's crew loses that simulated days do not: work with crew that goes wrong and is made good at the end of another task is
 * lost, since its crew is free for the next one. Null where the plan has none.
 */
export function rehearsalLosesWords({ tasks }: Plan): string | null {
  const lost = tasks.filter((task) => {
    const host = remedyHost(task);
    return task.crew.count > 0 && host !== null && host !== task.id;
  });
  return lost.length === 0
    ? null
    : `A rehearsal makes nothing good at the end of another task: what goes wrong so with ${counted(lost.length, "task")} is lost in it, though not on simulated days.`;
}
