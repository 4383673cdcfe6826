import { type Command, type Desk, placementsByTask } from "../../session/index.ts";
import type { Look } from "../look.ts";

/** The commands on questions and alternatives: they are there on every screen. */
export function whyWork(desk: Desk, look: Look): readonly Command[] {
  const now = desk.state.getState;
  const benched = (): string | undefined =>
    now().selection.find((task) => !placementsByTask(now()).has(task));
  const onDay = (ask: () => void): void => {
    look.setState({ screen: "day" });
    ask();
  };
  return [
    {
      id: "why not",
      name: "Why not? Ask about a task on the bench",
      group: "Tasks",
      keys: ["W"],
      where: "line",
      disabledReason: () => (benched() === undefined ? "Select a task on the bench first." : null),
      run: () => onDay(() => void desk.askWhy(benched() ?? null)),
    },
    {
      id: "why day",
      name: "Why not? Ask what breaks a rule",
      group: "Plan",
      keys: [],
      where: "page",
      disabledReason: () => (now().verdict.score.breaches === 0 ? "No rule is broken." : null),
      run: () => onDay(() => void desk.askWhy(null)),
    },
    {
      id: "stop why",
      name: "Stop looking for why not",
      group: "Plan",
      keys: [],
      where: "page",
      disabledReason: () => (now().why?.running ? null : "No question is being looked into."),
      run: () => desk.stopWhy(),
    },
  ];
}
