import type { Plan, Schedule } from "../../../src/plan/index.ts";
import { check, judgeFor } from "../../../src/check/index.ts";
import { instant } from "../../../src/kernel/index.ts";
import type { Placement } from "../../../src/plan/index.ts";

/**
 * The best day by trying them all: every task on the bench or at every start on a grid with every crew of every EVA, the judge
 * asked of each whole day that would be better than the best so far. For plans whose every number of time is a multiple of the
 * grid; then times on the grid lose nothing, as all rules that bind are bounds on differences of times. Pairs for which `exclude` holds
 * are never on one day: only what more placements cannot mend may be said there.
 */
export function bestOfAll(
  plan: Plan,
  gridS: number,
  exclude: (a: Placement, b: Placement) => boolean = () => false,
): { mustLeftOut: number; worth: number } {
  const judge = judgeFor(plan);
  const options = plan.tasks.map((_, i) => placementsOf(plan, i, gridS));
  const total = plan.tasks.reduce((sum, task) => sum + task.worth, 0);
  const value = plan.tasks.map((task) => (task.must ? total + 1 : 0) + task.worth);
  // What may still be gained from task i on.
  const rest = [...value, 0];
  for (let i = plan.tasks.length - 1; i >= 0; i -= 1) rest[i] = value[i]! + rest[i + 1]!;
  let best = -1;
  let found: Schedule = { placements: [] };
  const chosen: Placement[] = [];
  const descend = (i: number, sum: number): void => {
    if (sum + rest[i]! <= best) return;
    if (i === plan.tasks.length) {
      const schedule = { placements: [...chosen] };
      if (judge(schedule).score.breaches > 0) return;
      best = sum;
      found = schedule;
      return;
    }
    for (const option of options[i]!) {
      if (chosen.some((one) => exclude(one, option))) continue;
      chosen.push(option);
      descend(i + 1, sum + value[i]!);
      chosen.pop();
    }
    descend(i + 1, sum);
  };
  descend(0, 0);
  const { score } = check(plan, found);
  return { mustLeftOut: score.mustLeftOut, worth: score.worth };
}

/** Every placement of a task on the grid that the judge accepts when it is asked of nothing but windows, pins and EVA bounds. */
function placementsOf(plan: Plan, i: number, gridS: number): Placement[] {
  const task = plan.tasks[i]!;
  const crews =
    task.crew.count === 0 ? [{ eva: null, crew: [] as string[] }] : crewsOf(plan, task.crew.count);
  // Rests and staying together are mended by others: somebody's wait, somebody else near.
  const { rules } = plan;
  const judge = judgeFor({
    ...plan,
    links: [],
    rules: {
      ...rules,
      work: { ...rules.work, level: "warning" },
      separation: { ...rules.separation, level: "warning" },
    },
  });
  const list: Placement[] = [];
  for (let startS = 0; startS <= plan.stay.lengthS; startS += gridS)
    for (const { eva, crew } of crews) {
      const placement = { task: task.id, eva, crew, startS: instant(startS) };
      // Whatever one placement breaks alone, without links, more placements do not mend.
      if (judge({ placements: [placement] }).score.breaches === 0) list.push(placement);
    }
  return list;
}

function crewsOf(plan: Plan, count: number): { eva: string; crew: string[] }[] {
  return plan.evas.flatMap(({ id, crew }) => {
    if (count === 1) return crew.map((one) => ({ eva: id, crew: [one] }));
    return count === crew.length ? [{ eva: id, crew: [...crew] }] : [];
  });
}
