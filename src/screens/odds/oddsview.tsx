import "./odds.css";
import { useView, useApp } from "../context.ts";
import type { ViewState } from "../viewstate.ts";
import { Curve } from "./curve.tsx";
import { Late } from "./late.tsx";
import { OddsPart } from "./oddspart.tsx";

type Part = ViewState["oddsPart"];

const PARTS: Readonly<Record<Part, string>> = { odds: "Odds", curve: "Curve", late: "If late" };

/** What may come of the day: the odds that it holds, and what to drop when it runs late. */
export function OddsView() {
  const { view } = useApp();
  const part = useView((state) => state.oddsPart);
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
              onClick={() => view.setState({ oddsPart: one })}
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
