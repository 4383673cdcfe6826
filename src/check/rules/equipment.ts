import { listed, met } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import type { Placed } from "../placed.ts";
import { instant } from "../../kernel/index.ts";

interface Use {
  readonly placed: Placed;
  readonly count: number;
}

/** equipment: at no moment is more of an equipment in use than there is. */
export const equipment: JudgeRule = ({ prepared, placed }) => {
  const uses = new Map<string, Use[]>();
  for (const one of placed) {
    for (const { equipment: id, count } of one.task.equipment) {
      if (one.span.startS >= one.span.endS) continue;
      const list = uses.get(id);
      if (list) list.push({ placed: one, count });
      else uses.set(id, [{ placed: one, count }]);
    }
  }
  return prepared.plan.equipment.flatMap(({ id, name, count }) => {
    const list = uses.get(id) ?? [];
    const busiest = busiestOf(list);
    if (busiest.count <= count) return [];
    const at = busiest.atS;
    const during = list.filter(({ placed: { span } }) => span.startS <= at && at < span.endS);
    const endS = Math.min(...during.map((use) => use.placed.span.endS));
    const tasks = [...new Map(during.map(({ placed: { task } }) => [task.id, task.name]))];
    return [
      finding(
        "equipment",
        "breach",
        [about("equipment", id), ...tasks.map(([task]) => about("task", task))],
        {
          span: { startS: instant(at), endS: instant(endS) },
          need: busiest.count,
          have: count,
          unit: "count",
          sentence: `${name}: ${busiest.count} in use at ${met(at)} by ${listed(tasks.map(([, called]) => called))}, ${count === 0 ? "there is none" : `there ${count === 1 ? "is" : "are"} ${count}`}.`,
        },
      ),
    ];
  });
};

/** The greatest use and when it is first reached. */
function busiestOf(uses: readonly Use[]): { readonly count: number; readonly atS: number } {
  const changes = uses.flatMap(({ placed: { span }, count }) => [
    { atS: span.startS, by: count },
    { atS: span.endS, by: -count },
  ]);
  // What ends at an instant is free for what starts at it.
  changes.sort((a, b) => a.atS - b.atS || a.by - b.by);
  let inUse = 0;
  let busiest = { count: 0, atS: 0 };
  for (const { atS, by } of changes) {
    inUse += by;
    if (inUse > busiest.count) busiest = { count: inUse, atS };
  }
  return busiest;
}
