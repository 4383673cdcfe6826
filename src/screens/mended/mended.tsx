import "../theme/why.css";
import { useEffect } from "react";
import type { MendReport } from "../../answers/index.ts";
import { isMendLast, mendOutcome } from "../../session/index.ts";
import { useApp, useSession } from "../context.ts";
import { ShownDayChances } from "../daychances.tsx";
import { Dropped, droppedWords, Moved } from "../parts/changelist.tsx";
import "./mended.css";

/** What the last mend made of the day, until the day changes or it is put away. A question why takes its place. */
export function Mended() {
  const outcome = useSession(mendOutcome);
  const isWhyOpen = useSession((state) => state.why !== null);
  return outcome && !isWhyOpen ? <Outcome outcome={outcome} /> : null;
}

function Outcome({ outcome }: { readonly outcome: MendReport }) {
  const { session, view } = useApp();
  const { changes } = outcome;
  const plan = useSession((state) => state.plan);
  const isLast = useSession(isMendLast);
  useEffect(() => {
    const { spoken } = view.getState();
    view.setState({ spoken: `${droppedWords({ plan: session.state.getState().plan, changes })} ${spoken}` });
  }, [changes, session, view]);
  return (
    <aside
      className="mended beside"
      aria-label="Mended"
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.preventDefault();
        event.stopPropagation();
        session.closeRun();
      }}
    >
      <header className="beside-head">
        <h2>Mended</h2>
        <button
          type="button"
          className="quiet cross"
          aria-label="Close what was mended"
          onClick={() => session.closeRun()}
        >
          ×
        </button>
      </header>
      <div className="beside-body" tabIndex={0} role="region" aria-label="What the mend changed">
        <Dropped plan={plan} changes={changes} />
        {isLast && (
          <div>
            <button type="button" onClick={() => session.undo()}>
              Take the mend back
            </button>
          </div>
        )}
        <div>
          <b>Chances now:</b> <ShownDayChances />
        </div>
        <Moved plan={plan} changes={changes} />
      </div>
    </aside>
  );
}
