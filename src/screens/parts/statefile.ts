import { fingerprint, type Plan } from "../../plan/index.ts";
import { fileNameOf } from "../../session/files.ts";

/** The name of a file of a plan, with the digits by which its state is known on every page of it: `tarrow-shelf-b4452e9d-day.html`. */
export function stateFile(plan: Plan, ending: string): string {
  return `${fileNameOf(plan.title).replace(/\.json$/, "")}-${fingerprint(plan).slice(0, 8)}-${ending}`;
}
