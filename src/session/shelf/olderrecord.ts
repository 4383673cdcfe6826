import { done, isRecord, type Outcome } from "../../kernel/index.ts";
import { type Fault, parseText, patchSchema, type Plan, VERSION } from "../../plan/index.ts";
import { emptyHistory, type History, readHistory } from "../history.ts";
import type { StoredPlan } from "./records.ts";

/** The plan in a record of the browser's store, of whatever age, or every fault found. */
export function planIn({ text, givenUp }: StoredPlan): Outcome<Plan, readonly Fault[]> {
  const read = parseText(text);
  return read.ok ? done(withGivenUp(read.value, givenUp)) : read;
}

/**
 * The steps of a record that can be taken back or done again. Those of an older format are about fields as they were then: they are
 * gone, before one of them puts such a field into the plan.
 */
export function historyIn({ text, history }: StoredPlan): History {
  const written: unknown = JSON.parse(text);
  return isRecord(written) && written["version"] === VERSION ? readHistory(history) : emptyHistory;
}

/**
 * `plan` with what its variants give up, as it lay beside the plan in the browser's store before a file had room for it (format 1):
 * a list of pairs of a variant's id and a sentence, an owner and changes by path. What cannot be read is left out.
 */
function withGivenUp(plan: Plan, found: unknown): Plan {
  if (!Array.isArray(found)) return plan;
  const beside = new Map(
    found.flatMap((entry: unknown) => (Array.isArray(entry) ? [[entry[0], entry[1]] as const] : [])),
  );
  const variants = plan.variants.map((variant) => {
    const one = beside.get(variant.id);
    if (variant.givesUp || !isRecord(one) || typeof one["sentence"] !== "string") return variant;
    const patch = patchSchema.safeParse(one["changes"]);
    const owner = typeof one["owner"] === "string" ? one["owner"] : null;
    return patch.success
      ? { ...variant, givesUp: { sentence: one["sentence"], owner, patch: patch.data } }
      : variant;
  });
  return { ...plan, variants };
}
