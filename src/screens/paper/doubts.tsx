import { counted, numberedTask } from "../../words/index.ts";
import { useApp, useSession } from "../context.ts";
import type { PaperDoubt } from "../services.ts";

/** What to know before print, each with a way to the place where it is mended. */
export function Doubts({ list, onGo }: { readonly list: readonly PaperDoubt[]; onGo?(): void }) {
  const { session, view } = useApp();
  const plan = useSession((state) => state.plan);
  if (list.length === 0) return null;
  const go = ({ at, tasks }: PaperDoubt): void => {
    onGo?.();
    if (tasks.length > 0) session.select(tasks);
    view.setState(at.screen === "setup" ? { screen: "setup", setupPage: at.page } : { screen: at.screen });
  };
  return (
    <details className="paper-doubts">
      <summary>Before print: {counted(list.length, "thing")} to know</summary>
      <ul>
        {list.map((doubt) => (
          <li key={doubt.words}>
            <button type="button" onClick={() => go(doubt)}>
              <span>{doubt.words}</span>
            </button>
            {doubt.tasks.length > 0 && (
              <span className="note"> {doubt.tasks.map((id) => numberedTask(plan, id)).join("; ")}</span>
            )}
          </li>
        ))}
      </ul>
    </details>
  );
}
