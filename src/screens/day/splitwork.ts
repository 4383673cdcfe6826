import { otherPart, splitAfterS } from "../../plan/index.ts";
import type { Command, Session } from "../../session/index.ts";
import { clock, lasting } from "../../words/index.ts";
import type { ViewStore } from "../viewstate.ts";

/** The commands that make two tasks of one and one of two. */
export function splitWork(session: Session, view: ViewStore): readonly Command[] {
  const now = () => session.state.getState();
  /** The task to split and how long its first part lasts; null where none can be. */
  const cut = (): { readonly task: string; readonly afterS: number } | null => {
    const { selection, plan } = now();
    const [task] = selection;
    if (task === undefined || selection.length !== 1) return null;
    // A menu lies over the time under the pointer: the time it was opened at counts then.
    const { cursorS, menu } = view.getState();
    const afterS = splitAfterS(plan, task, menu?.atS ?? cursorS);
    return afterS === null ? null : { task, afterS };
  };
  const pair = (): readonly [string, string] | null => {
    const { selection, plan } = now();
    const [a, b] = selection;
    if (a === undefined || selection.length > 2) return null;
    const other = b ?? otherPart(plan, a);
    return other === null ? null : [a, other];
  };
  const work = (
    id: string,
    name: Command["name"],
    keys: readonly string[],
    disabledReason: Command["disabledReason"],
    run: Command["run"],
  ): Command => ({ id, name, group: "Tasks", keys, where: "line", disabledReason, run });
  const sayRefused = (refused: string | null): void => {
    if (refused !== null) view.setState({ spoken: refused });
  };

  return [
    work(
      "split",
      () => {
        const at = cut();
        return at === null ? "Split in two" : `Split in two ${whereWords(session, at)}`;
      },
      ["S"],
      () => {
        if (now().selection.length !== 1) return "Select one task first.";
        const at = cut();
        return at ? session.hinderedSplit(at.task, at.afterS) : "It is too short: both parts need a minute.";
      },
      () => {
        const at = cut();
        if (at) sayRefused(session.splitTask(at.task, at.afterS));
      },
    ),
    work(
      "merge",
      "Merge into one",
      ["Shift+S"],
      () => {
        const two = pair();
        return two ? session.hinderedMerge(...two) : "Select two tasks, or a part of a split one.";
      },
      () => {
        const two = pair();
        if (two) sayRefused(session.mergeTasks(...two));
      },
    ),
  ];
}

/** `at 2:14` on the line, `after 0:10` on the bench. */
function whereWords(
  session: Session,
  { task, afterS }: { readonly task: string; readonly afterS: number },
): string {
  const { placements } = session.state.getState().plan.schedule;
  const placement = placements.find((one) => one.task === task);
  return placement ? `at ${clock(placement.startS + afterS)}` : `after ${lasting(afterS, "up")}`;
}
