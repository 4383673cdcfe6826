import type { z } from "zod";
import { done, failed, type Outcome } from "../kernel/index.ts";
import { duplicateKeys } from "./duplicatekeys.ts";
import type { Fault } from "./fault.ts";
import { faultWords } from "./faultwords.ts";
import { migrated } from "./migrate.ts";
import { type Plan, planSchema } from "./plan.ts";
import { referenceFaults } from "./references.ts";
import { oversized } from "./siteload.ts";
import { numbered } from "./tasknumber.ts";

/** A file larger than this is refused before it is read. */
export const LARGEST_TEXT = 32 * 1024 * 1024;

/**
 * A plan from the text of a file, or every fault found, never both. Text that is too long or no JSON gives one
 * fault at path "".
 */
export function parseText(text: string): Outcome<Plan, readonly Fault[]> {
  if (text.length > LARGEST_TEXT) {
    const megabytes = Math.ceil(text.length / 1024 / 1024);
    return failed([
      {
        path: "",
        message: `the file is too large: ${megabytes} MB, at most ${LARGEST_TEXT / 1024 / 1024} MB are read`,
      },
    ]);
  }
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (error) {
    return failed([
      { path: "", message: `this is not JSON: ${error instanceof Error ? error.message : "unreadable"}` },
    ]);
  }
  const large = oversized(data);
  if (large.length > 0) return failed(large);
  const twice = duplicateKeys(text);
  return twice.length > 0 ? failed(twice) : parse(data);
}

/** A plan from outside data, or every fault found. The only door through which data becomes a Plan. */
export function parse(data: unknown): Outcome<Plan, readonly Fault[]> {
  const known = migrated(data);
  if (!known.ok) return known;
  const read = planSchema.safeParse(known.value, { error: faultWords });
  if (!read.success) return failed(read.error.issues.flatMap(faultsOf));
  const dangling = referenceFaults(read.data);
  if (dangling.length > 0) return failed(dangling);
  return done({ ...read.data, tasks: numbered(read.data.tasks) });
}

function faultsOf(issue: z.core.$ZodIssue): Fault[] {
  const path = issue.path.join(".");
  if (issue.code === "unrecognized_keys") {
    return issue.keys.map((key) => ({
      path: path === "" ? key : `${path}.${key}`,
      message: "there is no field of this name; maybe misspelt",
    }));
  }
  return [{ path, message: issue.message }];
}
