import { done, failed, type Outcome } from "../kernel/index.ts";
import { duplicateKeys, parseText, type Plan } from "../plan/index.ts";
import { faultWords } from "../plan/faultwords.ts";
import { type Rehearsal, rehearsalSchema, VERSION } from "./call.ts";

/** A rehearsal with the plan that it began with, as one file. */
export interface RehearsalFile {
  readonly plan: Plan;
  readonly rehearsal: Rehearsal;
}

/** The file's text, of the plan's own text. */
export function rehearsalText(rehearsal: Rehearsal, planText: string): string {
  return `${JSON.stringify(rehearsal).slice(0, -1)},"plan":${planText}}`;
}

/** Whether a text says of itself that it is a rehearsal, sound or not. */
export function isRehearsalText(text: string): boolean {
  try {
    const found: unknown = JSON.parse(text);
    return (
      typeof found === "object" && found !== null && Reflect.get(found, "format") === "lopeline-rehearsal"
    );
  } catch {
    return false;
  }
}

/** The rehearsal in a text, or why there is none. Its calls are not held against its plan: `callFaults` does that. */
export function readRehearsal(text: string): Outcome<RehearsalFile, string> {
  let found: unknown;
  try {
    found = JSON.parse(text);
  } catch {
    return failed("it is no JSON text");
  }
  if (typeof found !== "object" || found === null || !("plan" in found))
    return failed("it holds no rehearsal");
  const { plan, ...rest } = found;
  const version = "version" in rest ? rest.version : VERSION;
  if (typeof version === "number" && version > VERSION)
    return failed(`it is of version ${version}, from a newer program; version ${VERSION} can be read`);
  const rehearsal = rehearsalSchema.safeParse(rest, { error: faultWords });
  if (!rehearsal.success) {
    const [first] = rehearsal.error.issues;
    return failed(`${first?.path.join(".") ?? ""} ${first?.message ?? "it has faults"}`.trim());
  }
  const [twice] = duplicateKeys(text);
  if (twice) return failed(`${twice.path} ${twice.message}`);
  const made = parseText(JSON.stringify(plan));
  if (!made.ok)
    return failed(`its plan: ${made.error[0]?.path ?? ""} ${made.error[0]?.message ?? ""}`.trim());
  return done({ plan: made.value, rehearsal: rehearsal.data });
}
