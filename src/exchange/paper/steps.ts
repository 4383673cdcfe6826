import { type Plan, type Step, stepCrew } from "../../plan/index.ts";
import type { Block } from "./flow.ts";
import type { Tag } from "./page.ts";
import { itemOf } from "./pieces.ts";
import { cautionForms, ifThenForm, ownStep, partnerStep, type Setting } from "./forms.ts";

/** Stands where steps would: an empty page would say that there is nothing to do. */
export const NO_STEPS = "No steps for this in the plan.";

/**
 * Steps as one crew member reads them: what guards a step before it, their own and everybody's with a box, a partner's indented. A step has
 * the same number on everybody's paper; what is done only IF something is so has none.
 */
export function stepBlocks(
  plan: Plan,
  steps: readonly Step[],
  crew: readonly string[],
  member: string,
  setting: Setting,
): Block[] {
  let number = 0;
  let list: Tag = { role: "L" };
  return steps.flatMap((step) => {
    const doers = stepCrew(step, crew, plan.crew);
    const isMine = doers.includes(member);
    const who = doers.map((id) => plan.crew.find((one) => one.id === id)?.name ?? id).join("+");
    const guards = cautionForms(step.cautions, setting);
    // What guards a step is read before it: the list is broken there.
    if (guards.length > 0) list = { role: "L" };
    if (step.when !== undefined) {
      const named = doers.length === crew.length || (isMine && doers.length === 1) ? "" : who;
      return [
        ...guards,
        ...itemOf(list, ifThenForm(step.when, step.text, named, setting, isMine ? step.blank : undefined)),
      ];
    }
    number += 1;
    return [
      ...guards,
      ...itemOf(
        list,
        isMine
          ? ownStep(number, step.text, setting, step.blank)
          : partnerStep(who, number, step.text, setting),
      ),
    ];
  });
}
