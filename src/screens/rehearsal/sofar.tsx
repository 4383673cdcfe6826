import { useContext } from "react";
import { createPortal } from "react-dom";
import { isLost } from "../../session/index.ts";
import type { Verdict } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { briefly, counted, grouped, metres, percent } from "../../words/index.ts";
import { ScoreFigure } from "../parts/scorefigure.tsx";
import { isWorstAssumed, marginCause, marginState, worstMargin } from "../words.ts";
import { FiguresPlace } from "../toprow.ts";
import { useRehearsal, useRehearsed } from "./context.ts";
import { aheadBreaches } from "./broken.ts";

/** The rehearsal in five figures, in the top row: what is done, and what will be left if all goes on like this. */
export function SoFar() {
  const work = useRehearsal();
  const day = useRehearsed();
  const { plan, verdict } = day;
  const place = useContext(FiguresPlace);
  const debrief = work.debrief();
  if (!debrief || !place) return null;
  const broken = aheadBreaches(day).length;
  const lost = debrief.rows.filter((row) => row.must && isLost(row)).length;
  return createPortal(
    <section className="score" aria-label="Rehearsal so far">
      <ScoreFigure
        state={broken > 0 ? "breach" : "fine"}
        value={String(broken)}
        name={broken === 1 ? "breach" : "breaches"}
        says={broken === 1 ? "new breach" : "new breaches"}
        more="beside those planned"
        change={0}
        better="less"
      />
      <ScoreFigure
        state={lost > 0 ? "open" : "plain"}
        value={`${debrief.mustDone} of ${debrief.mustPlanned}`}
        name="must-do done"
        says={lost > 0 ? `must-do done, ${lost} lost` : "must-do done"}
        more="of those planned"
        change={0}
        better="more"
      />
      <ScoreFigure
        state="plain"
        value={grouped(debrief.worthDone)}
        name="worth done"
        says={`worth, of ${grouped(debrief.worthPlanned)}`}
        more={`planned, ${counted(debrief.done, "task")} done`}
        change={0}
        better="more"
      />
      <WorstFigure plan={plan} verdict={verdict} />
      <ScoreFigure
        state="plain"
        value={metres(verdict.score.walkM, "up")}
        name="walked"
        says="walked, all back"
        change={0}
        better="less"
      />
    </section>,
    place,
  );
}

/** The margin that comes closest to its limit, or goes beyond it. */
function WorstFigure(props: { readonly plan: Plan; readonly verdict: Verdict }) {
  const { plan, verdict } = props;
  const worst = worstMargin(verdict);
  const assumed = isWorstAssumed(plan, verdict);
  const common = { name: "worst margin", change: 0, better: "more" } as const;
  if (worst === null) return <ScoreFigure {...common} state="plain" value="–" says="nobody goes out" />;
  const { margin } = worst;
  return (
    <ScoreFigure
      {...common}
      state={marginState(plan, margin, assumed)}
      assumed={assumed}
      value={percent(margin, "down")}
      says={marginCause(plan, worst, briefly)}
    />
  );
}
