import { canonicalJson, sha256 } from "../kernel/index.ts";
import { fingerprint } from "./fingerprint.ts";
import type { Plan } from "./plan.ts";
import type { About, Hand, Signoff } from "./remarks.ts";

/**
 * What a sign-off is of, as SHA-256 of its canonical JSON: a task or a group of the rules as it stands in the plan; of a page the whole
 * plan whatever it is called, since any change of that may change the page. Null where it is not in the plan.
 */
export function signedValue(plan: Plan, { kind, id }: About): string | null {
  if (kind === "page") return fingerprint({ ...plan, revision: { note: "" } });
  const thing =
    kind === "task"
      ? plan.tasks.find((one) => one.id === id)
      : Object.entries(plan.rules).find(([name]) => name === id)?.[1];
  return thing === undefined ? null : sha256(new TextEncoder().encode(canonicalJson(thing)));
}

/** Whether a sign-off still holds: `changed` since it was given, or what it is about is `gone`. */
export type SignoffState = "holds" | "changed" | "gone";

export function signoffState(plan: Plan, { about, value }: Signoff): SignoffState {
  const now = signedValue(plan, about);
  return now === null ? "gone" : now === value ? "holds" : "changed";
}

/** The hands that a plan went through once this one has it too: the last of them had it last. */
export function handedTo(hands: readonly Hand[], name: string): Hand[] {
  const id = `h${sha256(new TextEncoder().encode(name)).slice(0, 12)}`;
  return [...hands.filter((one) => one.id !== id), { id, name }];
}
