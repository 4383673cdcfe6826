import { type Plan, remediesAfter, stepCrew } from "../../plan/index.ts";
import { minutes, taskNumber } from "../../words/index.ts";
import type { Block } from "./flow.ts";
import { cautionForms, remedyForm, type Setting } from "./forms.ts";

/** What may have to be made good at the end of a task, under IF: all of its steps stand inside the form, so that nobody does them without. */
export function remedyBlocks(
  plan: Plan,
  task: string,
  crew: readonly string[],
  member: string,
  setting: Setting,
): Block[] {
  return remediesAfter(plan, task).flatMap(({ of, what, remedy }) => {
    const when = of.id === task ? what : `${taskNumber(plan, of.id)} ${of.name}: ${what}`;
    const steps = remedy.steps.map((step) => {
      const doers = stepCrew(step, crew, plan.crew);
      const who = doers.map((id) => plan.crew.find((one) => one.id === id)?.name ?? id).join("+");
      const sentence = step.when === undefined ? step.text : `IF ${step.when} THEN ${step.text}`;
      return {
        text: doers.length === crew.length ? sentence : `${who}: ${sentence}`,
        blank: doers.includes(member) ? step.blank : undefined,
      };
    });
    const head = `${remedy.name}, about ${minutes(remedy.duration.likelyS, "up")}`;
    return [
      ...cautionForms(
        remedy.steps.flatMap(({ cautions }) => cautions),
        setting,
      ),
      ...remedyForm(when, head, steps, setting),
    ];
  });
}

/** What the console reads beside a task: what may have to be made good at its end. */
export function remedyWords(plan: Plan, task: string): string {
  return remediesAfter(plan, task)
    .map(({ of, what, remedy }) => {
      const whose = of.id === task ? "" : `${taskNumber(plan, of.id)} `;
      return `. IF ${whose}${what} THEN ${remedy.name}, about ${minutes(remedy.duration.likelyS, "up")}`;
    })
    .join("");
}
