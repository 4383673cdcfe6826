import { useEffect } from "react";
import { useApp, useSession, useView } from "../context.ts";

/** Says to who is here for the first time that the open plan is there to look around in, and how to begin one. */
export function Greeting() {
  const { session, view } = useApp();
  const shown = useView((state) => state.greeting);
  const empty = useSession((state) => state.plan.tasks.length === 0);
  // The steps lead on from an empty plan.
  useEffect(() => {
    if (shown && empty) view.setState({ greeting: false });
  }, [shown, empty, view]);
  if (!shown || empty) return null;
  return (
    <section className="first-steps first-steps-greeting" aria-label="First look">
      <p>A ready plan is open, to look around in: pack it, drag it, break it.</p>
      <button type="button" className="primary" onClick={() => session.newPlan()}>
        Begin a plan of your own
      </button>
      <a href="tutorial.md" target="_blank" rel="noreferrer">
        The tutorial
      </a>
      <button type="button" className="quiet" onClick={() => view.setState({ greeting: false })}>
        Put away
      </button>
    </section>
  );
}
