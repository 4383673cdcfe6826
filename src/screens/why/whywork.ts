import { type Command, type Session, placementsByTask } from "../../session/index.ts";
import type { ViewStore } from "../viewstate.ts";

/** The commands on questions and alternatives: they are there on every screen. */
export function whyWork(session: Session, view: ViewStore): readonly Command[] {
  const now = session.state.getState;
  const benched = (): string | undefined =>
    now().selection.find((task) => !placementsByTask(now()).has(task));
  const onDay = (act: () => void): void => {
    view.setState({ screen: "day" });
    act();
  };
  return [
    {
      id: "why not",
      name: "Why not? Ask about a task on the bench",
      group: "Tasks",
      keys: ["W"],
      where: "line",
      disabledReason: () => (benched() === undefined ? "Select a task on the bench first." : null),
      run: () => onDay(() => void session.askWhy(benched() ?? null)),
    },
    {
      id: "why day",
      name: "Why not? Ask what breaks a rule",
      group: "Plan",
      keys: [],
      where: "page",
      disabledReason: () => (now().verdict.score.breaches === 0 ? "No rule is broken." : null),
      run: () => onDay(() => void session.askWhy(null)),
    },
    {
      id: "stop why",
      name: "Stop looking for why not",
      group: "Plan",
      keys: [],
      where: "page",
      disabledReason: () => (now().why?.running ? null : "No question is being looked into."),
      run: () => session.stopWhy(),
    },
  ];
}
