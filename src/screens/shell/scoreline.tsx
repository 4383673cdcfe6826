import type { Verdict } from "../../answers/index.ts";
import { scoreChange, shownVerdict } from "../../session/index.ts";
import { briefly, grouped, percent } from "../../words/index.ts";
import { useSession } from "../context.ts";
import { useCalmSession } from "../settled.ts";
import { isWorstAssumed, marginCause, marginState, worstMargin } from "../words.ts";
import { ChanceFigures } from "./chancefigures.tsx";
import { OpenCells } from "./opencells.tsx";
import { ScoreFigure } from "../parts/scorefigure.tsx";

/** The day in a few figures, its chances first, to be read across the room; while a task is in hand or the packer is at work, with what changes. */
export function ScoreLine() {
  const plan = useSession((state) => state.plan);
  const [verdict, change] = useCalmSession((state) => [shownVerdict(state), scoreChange(state)] as const);
  const { score } = verdict;
  const worst = worstMargin(verdict);
  const margin = score.worstMargin / 10_000;
  const assumed = isWorstAssumed(plan, verdict);
  return (
    <section className="score" aria-label="Score">
      <ChanceFigures />
      <Breaches verdict={verdict} change={change?.breaches ?? 0} />
      {score.mustLeftOut > 0 && (
        <ScoreFigure
          state="open"
          value={`${verdict.mustPlaced} of ${verdict.mustTotal}`}
          name="must-do placed"
          change={change ? -change.mustLeftOut : 0}
          better="more"
        />
      )}
      <ScoreFigure
        state="plain"
        value={grouped(score.worth)}
        request={{ what: "worth" }}
        name="worth"
        says={`worth, ${verdict.placed} of ${plan.tasks.length}`}
        change={change?.worth ?? 0}
        better="more"
      />
      <ScoreFigure
        state={marginState(plan, worst && margin, assumed)}
        assumed={assumed}
        value={worst === null ? "–" : percent(margin, "down")}
        request={
          worst && { what: "left", eva: worst.eva, crew: worst.crew, consumable: worst.consumable, atS: null }
        }
        name="worst margin"
        says={worst === null ? "nobody goes out" : marginCause(plan, worst, briefly)}
        change={change ? Math.floor(change.worstMargin / 100) : 0}
        better="more"
        unit={Math.abs(Math.floor((change?.worstMargin ?? 0) / 100)) === 1 ? " pt" : " pts"}
      />
      <OpenCells />
    </section>
  );
}

/** How many rules are broken, and how many kept by little. None of nothing is no news: where no work is placed nothing is judged. */
function Breaches({ verdict, change }: { readonly verdict: Verdict; readonly change: number }) {
  const { breaches } = verdict.score;
  const name = breaches === 1 ? "breach" : "breaches";
  if (verdict.placed === 0 && verdict.findings.length === 0)
    return (
      <ScoreFigure
        state="plain"
        value="–"
        name={name}
        says="nothing to judge"
        change={change}
        better="less"
      />
    );
  const tight = verdict.findings.filter((finding) => finding.level === "tight").length;
  return (
    <ScoreFigure
      state={breaches > 0 ? "breach" : "fine"}
      value={String(breaches)}
      name={name}
      says={`${name}, ${tight} tight`}
      change={change}
      better="less"
    />
  );
}
