import type { Plan } from "../../plan/index.ts";
import { doersOf } from "../../words/index.ts";
import { text } from "./entry.ts";
import { stepLines } from "./stepentry.ts";
import { sheetTable } from "./sheettable.ts";
import type { Field } from "./table.ts";

/** What the crew reads at the lander and when something goes wrong. */

const fields: readonly Field<Plan>[] = [
  steps("Egress", "egress", "In the order in which it is done, before anybody leaves the lander."),
  steps("Ingress", "ingress", "In the order in which it is done, when everybody is back."),
  steps(
    "Emergency",
    "emergency",
    "First what is done whatever happened, then by cause: IF the cause THEN what is done.",
  ),
  {
    label: "Who answers for these texts",
    path: "procedures.authority",
    entry: text,
    width: 60,
    hint: "Without a name the pages say that the texts are the planner's own and are to be replaced.",
  },
];

function steps(label: string, path: string, hint: string): Field<Plan> {
  return {
    label,
    path: `procedures.${path}`,
    entry: stepLines([]),
    entryFor: (plan) => stepLines(doersOf(plan, null)),
    width: 60,
    hint,
  };
}

export const proceduresSheet = sheetTable({
  id: "procedures",
  title: "Egress, ingress, emergency",
  intro: "Printed for every EVA and each crew member. A text that fits one line is read at a glance.",
  columns: [{ label: "Steps", unit: "", width: 60, group: "", align: "start" }],
  lines: fields.map((field) => ({ name: field.label, fields: [field] })),
});
