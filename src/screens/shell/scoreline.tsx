import { packStands, shownVerdict } from "../../session/index.ts";
import { grouped, metres, percent } from "../../words/index.ts";
import { useDesk } from "../context.ts";
import { useCalm } from "../settled.ts";
import { marginCause, worstMargin } from "../words.ts";
import { boundWords } from "./boundwords.ts";
import { ChanceFigures } from "./chancefigures.tsx";
import { ScoreFigure } from "./scorefigure.tsx";

/** The day in eight figures, its chances first, to be read across the room; while a task is in hand, with what it changes. */
export function ScoreLine() {
  const plan = useDesk((state) => state.plan);
  const verdict = useCalm(useDesk(shownVerdict));
  const change = useCalm(useDesk((state) => state.preview?.difference.score ?? null));
  const { score } = verdict;
  const tight = verdict.findings.filter((finding) => finding.level === "tight").length;
  const worst = worstMargin(verdict);
  // What the packer proved, while its schedule is the plan's.
  const packed = useDesk(packStands);
  const margin = score.worstMargin / 10_000;
  const marginState =
    worst === null ? "" : margin < 0 ? "breach" : margin < plan.rules.reserve.tight ? "tight" : "fine";
  return (
    <section className="score" aria-label="Score">
      <ChanceFigures />
      <ScoreFigure
        state={score.breaches > 0 ? "breach" : "fine"}
        value={String(score.breaches)}
        name={score.breaches === 1 ? "breach" : "breaches"}
        more={tight > 0 ? `${tight} tight` : "none tight"}
        change={change?.breaches ?? 0}
        better="less"
      />
      <ScoreFigure
        state={score.mustLeftOut > 0 ? "open" : "fine"}
        value={`${verdict.mustPlaced} of ${verdict.mustTotal}`}
        name="must-do placed"
        more={score.mustLeftOut > 0 ? `${score.mustLeftOut} left out` : ""}
        change={change ? -change.mustLeftOut : 0}
        better="more"
      />
      <ScoreFigure
        state="plain"
        value={grouped(score.worth)}
        ask={{ what: "worth" }}
        name="worth"
        aside={packed && boundWords(packed.verdict.score.worth, packed.bound)}
        more={`${verdict.placed} of ${plan.tasks.length} tasks`}
        change={change?.worth ?? 0}
        better="more"
      />
      <ScoreFigure
        state={marginState === "" ? "plain" : marginState}
        value={worst === null ? "none" : percent(margin, "down")}
        ask={
          worst && { what: "left", eva: worst.eva, crew: worst.crew, consumable: worst.consumable, atS: null }
        }
        name="worst margin"
        more={worst === null ? "nobody goes out" : marginCause(plan, worst)}
        change={change ? Math.floor(change.worstMargin / 100) : 0}
        better="more"
        unit={Math.abs(Math.floor((change?.worstMargin ?? 0) / 100)) === 1 ? " pt" : " pts"}
      />
      <ScoreFigure
        state="plain"
        value={metres(score.walkM, "up")}
        ask={{ what: "walked" }}
        name="walked, all crew"
        more=""
        change={change?.walkM ?? 0}
        better="less"
        unit=" m"
      />
    </section>
  );
}
