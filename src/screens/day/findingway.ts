import type { Finding } from "../../answers/index.ts";
import type { Session } from "../../session/index.ts";
import type { ViewStore } from "../viewstate.ts";
import type { Windowing } from "./windowing.ts";

/** Goes to a finding: chooses it, selects its tasks, brings the time of it into view and says it. */
export function goToFinding(session: Session, view: ViewStore, windows: Windowing, finding: Finding): void {
  const { plan } = session.state.getState();
  const tasks = finding.subjects.filter((subject) => subject.kind === "task").map((subject) => subject.id);
  if (tasks.length > 0) session.select(tasks);
  const placed = plan.schedule.placements.find((one) => tasks.includes(one.task));
  const eva = finding.subjects.find((subject) => subject.kind === "eva");
  if (finding.span) windows.reveal(finding.span);
  else if (placed) windows.reveal({ startS: placed.startS, endS: placed.startS + 600 });
  else if (eva) windows.eva(plan.evas.findIndex((one) => one.id === eva.id));
  view.setState({ chosen: finding, spoken: finding.sentence });
}
