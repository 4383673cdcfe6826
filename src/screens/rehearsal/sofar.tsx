import { isLost } from "../../session/index.ts";
import { briefly, counted, grouped, metres, percent } from "../../words/index.ts";
import { ScoreFigure } from "../parts/scorefigure.tsx";
import { marginCause, worstMargin } from "../words.ts";
import { useRehearsal, useRehearsed } from "./around.ts";
import { aheadBreaches } from "./broken.ts";

/** The rehearsal in five figures: what is done, and what will be left if all goes on like this. */
export function SoFar() {
  const work = useRehearsal();
  const day = useRehearsed();
  const { plan, verdict } = day;
  const debrief = work.debrief();
  if (!debrief) return null;
  const broken = aheadBreaches(day).length;
  const worst = worstMargin(verdict);
  const lost = debrief.rows.filter((row) => row.must && isLost(row)).length;
  const margin = worst?.margin ?? 0;
  return (
    <section className="score" aria-label="Rehearsal so far">
      <ScoreFigure
        state={broken > 0 ? "breach" : "fine"}
        value={String(broken)}
        name={broken === 1 ? "breach" : "breaches"}
        more="beside those planned"
        change={0}
        better="less"
      />
      <ScoreFigure
        state={lost > 0 ? "open" : "plain"}
        value={`${debrief.mustDone} of ${debrief.mustPlanned}`}
        name="must-do done"
        more={lost > 0 ? `of those planned, ${lost} lost` : "of those planned"}
        change={0}
        better="more"
      />
      <ScoreFigure
        state="plain"
        value={grouped(debrief.worthDone)}
        name="worth done"
        more={`of ${grouped(debrief.worthPlanned)} planned, ${counted(debrief.done, "task")}`}
        change={0}
        better="more"
      />
      <ScoreFigure
        state={
          worst === null
            ? "plain"
            : margin < 0
              ? "breach"
              : margin < plan.rules.reserve.tight
                ? "tight"
                : "fine"
        }
        value={worst === null ? "none" : percent(margin, "down")}
        name="worst margin"
        more={worst === null ? "nobody goes out" : marginCause(plan, worst, briefly)}
        change={0}
        better="more"
      />
      <ScoreFigure
        state="plain"
        value={metres(verdict.score.walkM, "up")}
        name="walked"
        more="when all are back"
        change={0}
        better="less"
      />
    </section>
  );
}
