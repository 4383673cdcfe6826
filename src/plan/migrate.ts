import { done, failed, isRecord, type Outcome } from "../kernel/index.ts";
import type { Fault } from "./fault.ts";
import { VERSION } from "./plan.ts";

/**
 * What each version of the format adds to the one before. An older document is brought up one step after the other, before
 * it is read: the schema knows only the newest.
 *
 * 1 to 2: a variant may say what it gives up of the plan; before, a file had no room for it.
 */
const STEPS: Readonly<
  Record<number, (data: Readonly<Record<string, unknown>>) => Readonly<Record<string, unknown>>>
> = {
  1: (data) => ({ ...data, version: 2 }),
};

/** A document as the newest version of the format has it, or why that is not possible; what is no document is left as it is. */
export function migrated(data: unknown): Outcome<unknown, readonly Fault[]> {
  if (!isRecord(data)) return done(data);
  const { version } = data;
  if (typeof version !== "number") return done(data);
  if (version > VERSION) {
    const message = `the file is of version ${version}, from a newer program; versions up to ${VERSION} can be read`;
    return failed([{ path: "version", message }]);
  }
  const step = STEPS[version];
  return step ? migrated(step(data)) : done(data);
}
