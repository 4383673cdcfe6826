import { useEffect, useMemo } from "react";
import type { MendReport } from "../../answers/index.ts";
import { mendOutcome } from "../../session/index.ts";
import { useAround, useDesk } from "../context.ts";
import { DayChances } from "../daychances.tsx";
import { Dropped, droppedWords, Moved } from "../parts/changelist.tsx";
import "./mended.css";

/** What the last mend made of the day, until the day changes or it is put away. A question why takes its place. */
export function Mended() {
  const outcome = useDesk(mendOutcome);
  const asking = useDesk((state) => state.why !== null);
  return outcome && !asking ? <Outcome outcome={outcome} /> : null;
}

function Outcome({ outcome }: { readonly outcome: MendReport }) {
  const { desk, look } = useAround();
  const { changes } = outcome;
  const plan = useDesk((state) => state.plan);
  const day = useMemo(() => ({ plan, schedule: plan.schedule }), [plan]);
  useEffect(() => {
    const { spoken } = look.getState();
    look.setState({ spoken: `${droppedWords({ plan: desk.state.getState().plan, changes })} ${spoken}` });
  }, [changes, desk, look]);
  return (
    <aside
      className="mended beside"
      aria-label="Mended"
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.preventDefault();
        event.stopPropagation();
        desk.closeRun();
      }}
    >
      <header className="beside-head">
        <h2>Mended</h2>
        <button
          type="button"
          className="quiet"
          aria-label="Close what was mended"
          onClick={() => desk.closeRun()}
        >
          ×
        </button>
      </header>
      <div className="beside-body" tabIndex={0} role="region" aria-label="What the mend changed">
        <Dropped plan={plan} changes={changes} />
        <div>
          <button type="button" onClick={() => desk.undo()}>
            Take the mend back
          </button>
        </div>
        <p>
          <b>Chances now:</b> <DayChances day={day} />
        </p>
        <Moved plan={plan} changes={changes} />
      </div>
    </aside>
  );
}
