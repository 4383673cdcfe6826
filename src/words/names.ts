import type { Plan } from "../plan/index.ts";

/** Names of the things of a plan. An id that names nothing stands for itself: it is what somebody has to look for. */

/** The name of the one called `id` in a list. */
export function nameIn(list: readonly { readonly id: string; readonly name: string }[], id: string): string {
  return list.find((one) => one.id === id)?.name ?? id;
}

/** A task's name. */
export function taskName({ tasks }: Pick<Plan, "tasks">, id: string): string {
  return nameIn(tasks, id);
}

/** A crew member's name. */
export function crewName({ crew }: Pick<Plan, "crew">, id: string): string {
  return nameIn(crew, id);
}

/** An EVA's name; remote work has none. */
export function evaName({ evas }: Pick<Plan, "evas">, id: string | null): string {
  return id === null ? "Remote" : nameIn(evas, id);
}

/** A place's name; `no place` where a task has none. */
export function placeName({ site }: Pick<Plan, "site">, id: string | undefined): string {
  return id === undefined ? "no place" : nameIn(site.places, id);
}
