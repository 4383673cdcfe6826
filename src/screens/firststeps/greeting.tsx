import { useEffect } from "react";
import { useAround, useDesk, useLook } from "../context.ts";

/** Says to who is here for the first time that the open plan is there to look around in, and how to begin one. */
export function Greeting() {
  const { desk, look } = useAround();
  const shown = useLook((state) => state.greeting);
  const empty = useDesk((state) => state.plan.tasks.length === 0);
  // The steps lead on from an empty plan.
  useEffect(() => {
    if (shown && empty) look.setState({ greeting: false });
  }, [shown, empty, look]);
  if (!shown || empty) return null;
  return (
    <section className="first-steps first-steps-greeting" aria-label="First look">
      <p>A ready plan is open, to look around in: pack it, drag it, break it.</p>
      <button type="button" className="primary" onClick={() => desk.newPlan()}>
        Begin a plan of your own
      </button>
      <a href="tutorial.md" target="_blank" rel="noreferrer">
        The tutorial
      </a>
      <button type="button" className="quiet" onClick={() => look.setState({ greeting: false })}>
        Put away
      </button>
    </section>
  );
}
