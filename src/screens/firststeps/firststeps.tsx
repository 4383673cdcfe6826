import { Suspense, useEffect } from "react";
import { useApp, useSession, useView } from "../context.ts";
import { fetched, OnDemand } from "../ondemand.tsx";
import { KEPT, put } from "./shown.ts";

/** Only whoever begins a plan needs the strip: the first load goes without its code. */
const strip = fetched(async () => (await import("./strip.tsx")).Strip);

/** The strip that leads from an empty plan to a packed day; it stays until it is put away. */
export function FirstSteps() {
  const { session, view, memory } = useApp();
  const shown = useView((state) => state.firstSteps);
  const empty = useSession((state) => state.plan.tasks.length === 0);
  useEffect(() => {
    const kept = memory.get(KEPT);
    if (kept === "shown" || (kept === null && empty)) put(view, memory, true);
  }, [empty, view, memory]);
  useEffect(
    () =>
      session.commands.add([
        {
          id: "firststeps",
          name: () => `${view.getState().firstSteps ? "Put away" : "Show"} the steps to a packed day`,
          group: "View",
          keys: [],
          where: "page",
          disabledReason: () => null,
          run: () => put(view, memory, !view.getState().firstSteps),
        },
      ]),
    [session, view, memory],
  );
  if (!shown) return null;
  return (
    <OnDemand name="steps to a packed day">
      <Suspense fallback={<div className="first-steps" />}>
        <strip.Screen />
      </Suspense>
    </OnDemand>
  );
}
