import "./odds.css";
import { useLook, useAround } from "../context.ts";
import type { LookState } from "../look.ts";
import { Curve } from "./curve.tsx";
import { Late } from "./late.tsx";
import { OddsPart } from "./oddspart.tsx";

type Part = LookState["oddsPart"];

const PARTS: Readonly<Record<Part, string>> = { odds: "Odds", curve: "Curve", late: "If late" };

/** What may come of the day: the odds that it holds, and what to drop when it runs late. */
export function OddsView() {
  const { look } = useAround();
  const part = useLook((state) => state.oddsPart);
  return (
    <div className="sheet odds">
      <header className="sheet-head">
        <h2>{PARTS[part]}</h2>
        <div className="pair" role="group" aria-label="What to look at">
          {(Object.keys(PARTS) as Part[]).map((one) => (
            <button
              key={one}
              type="button"
              aria-pressed={part === one}
              onClick={() => look.setState({ oddsPart: one })}
            >
              {PARTS[one]}
            </button>
          ))}
        </div>
      </header>
      {part === "odds" ? <OddsPart /> : part === "curve" ? <Curve /> : <Late />}
    </div>
  );
}
