import { duration } from "../../kernel/index.ts";
import { allCautions, freshNumber, NEW_TASK, type Task } from "../../plan/index.ts";
import { unpinned } from "../../session/index.ts";
import { taskNumber } from "../../words/index.ts";
import { BY_NAME, listTable } from "./listtable.ts";
import { TASK_FIELDS } from "./task/fields.ts";
import { isTooLong } from "./task/toolong.ts";
import { TASK_TEMPLATES, taskOf } from "./tasktemplates.ts";

/** The requests for work. */
export const taskTable = listTable<Task>({
  id: "tasks",
  title: "Tasks",
  intro: "All requests for work, placed or not. What does not fit the day stays on the bench.",
  one: "task",
  list: "tasks",
  kind: "task",
  prefix: "task",
  sorts: TASK_TEMPLATES.map((template) => ({
    name: template.name,
    says: template.says,
    part: (plan) => taskOf(template, plan),
  })),
  ...BY_NAME,
  numberOf: (row, plan) => taskNumber(plan, row.id),
  fields: Object.values(TASK_FIELDS),
  sets: [
    { name: "What", groups: ["Called", "Request", "Duration", "If it is lost"] },
    { name: "Who", groups: ["Who"] },
    { name: "Where", groups: ["Where"] },
    { name: "Carries", groups: ["With", "Brought back"] },
    { name: "When", groups: ["When", "Pinned"] },
    { name: "Paper", groups: ["Called", "Cuff checklist"] },
  ],
  lacks: [
    { words: "longer than there is time for", is: isTooLong },
    {
      words: "no low or high duration",
      is: ({ duration: { lowS, highS } }) => lowS === undefined || highS === undefined,
    },
    { words: "no steps", is: ({ steps }) => steps.length === 0 },
    { words: "no caution", is: (task) => task.crew.count > 0 && allCautions(task).length === 0 },
    {
      words: "a caution without class",
      is: (task) => allCautions(task).some((one) => one.class === undefined),
    },
    { words: "a sample of no mass", is: ({ sample }) => sample?.massKg === 0 },
    { words: "a sample of no volume", is: ({ sample }) => sample?.volumeL === 0 },
    { words: "no number of bags", is: ({ sample }) => sample !== undefined && sample.bags === undefined },
    {
      words: "not given whether it comes back",
      is: ({ massOutKg, returns }) => massOutKg > 0 && returns === undefined,
    },
  ],
  blank: (plan, id) => {
    const place = plan.site.places.find((one) => one.kind === "station") ?? plan.site.places[0];
    return {
      id,
      number: freshNumber(plan.tasks),
      name: `New task ${plan.tasks.length + 1}`,
      kind: "sampling",
      ...(place ? { place: place.id } : {}),
      ...NEW_TASK,
      duration: { likelyS: duration(900) },
      effort: "geology",
    };
  },
  // A second task at the same pinned time would only stand in the first one's way.
  copy: (row, id, plan) => ({
    ...unpinned(row, ["start", "eva", "crew"]),
    id,
    number: freshNumber(plan.tasks),
    name: `${row.name} (copy)`,
  }),
});
