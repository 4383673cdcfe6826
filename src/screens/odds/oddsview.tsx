import { useLook, useAround } from "../context.ts";
import { Late } from "./late.tsx";
import { OddsPart } from "./oddspart.tsx";

/** What may come of the day: the odds that it holds, and what to drop when it runs late. */
export function OddsView() {
  const { look } = useAround();
  const part = useLook((state) => state.oddsPart);
  return (
    <div className="sheet odds">
      <header className="sheet-head">
        <h2>{part === "odds" ? "Odds" : "If late"}</h2>
        <div className="pair" role="group" aria-label="What to look at">
          <button
            type="button"
            aria-pressed={part === "odds"}
            onClick={() => look.setState({ oddsPart: "odds" })}
          >
            Odds
          </button>
          <button
            type="button"
            aria-pressed={part === "late"}
            onClick={() => look.setState({ oddsPart: "late" })}
          >
            If late
          </button>
        </div>
      </header>
      {part === "odds" ? <OddsPart /> : <Late />}
    </div>
  );
}
