import type { Term } from "./flat.ts";
import type { Frame } from "./model.ts";

/**
 * group-most, group-least and what repeats count (S17): terms of the score, for each that a group lacks `dear` less, and less than whole
 * worth for repeats. Named `lacks...` and `less...` in the answer.
 */
export function groups({ model, plan, done }: Frame, dear: number): Term[] {
  const index = new Map(plan.tasks.map((task, i) => [task.id, i]));
  return plan.groups.flatMap(({ tasks, least, most, shares }, g): Term[] => {
    const members = tasks.map((id) => index.get(id)!);
    const sum = members.map((i): Term => [1, done[i]!]);
    if (most !== undefined) model.atMost(sum, most);
    const lacks = model.whole(0, least, `lacks${g}`);
    model.atLeast([...sum, [1, lacks]], least);
    const terms: Term[] = [[-dear, lacks]];
    if (shares.length === 0) return terms;
    // In the order of worth each that is done has the rank of how many before it are done too.
    const inOrder = members.toSorted((a, b) => plan.tasks[b]!.worth - plan.tasks[a]!.worth);
    inOrder.forEach((i, n) => {
      const before = inOrder.slice(0, n).map((j): Term => [1, done[j]!]);
      const { worth } = plan.tasks[i]!;
      const less = model.whole(0, worth, `less${g}x${i}`);
      shares.forEach((share, k) => {
        const takes = worth - Math.floor((worth * share) / 100);
        const last = k === shares.length - 1;
        // It takes off at least this much where no more than so many, and no fewer unless it is the last share, are done before.
        const few = model.whetherAtMost([...before, [1, model.whole(0, 0)]], k);
        const fewer = model.whetherAtMost([...before, [1, model.whole(0, 0)]], k - 1);
        const here = model.bit();
        model.clause([here, fewer], last ? [done[i]!] : [done[i]!, few]);
        model.atLeast([[1, less]], takes, [here]);
      });
      terms.push([-1, less]);
    });
    return terms;
  });
}
