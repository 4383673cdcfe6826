import { grouped, percentLeft, signed } from "../../dayline/index.ts";
import { type FromAsk, packStands, shownVerdict } from "../../store/index.ts";
import { useDesk } from "../context.ts";
import { From } from "../from/from.tsx";
import { useCalm } from "../settled.ts";
import { marginCause, worstMargin } from "../words.ts";
import { boundWords } from "./boundwords.ts";

/** The day in five figures, to be read across the room; while a task is in hand, with what it changes. */
export function ScoreLine() {
  const plan = useDesk((state) => state.plan);
  const verdict = useCalm(useDesk(shownVerdict));
  const change = useCalm(useDesk((state) => state.preview?.difference.score ?? null));
  const { score } = verdict;
  const tight = verdict.findings.filter((finding) => finding.level === "tight").length;
  const worst = worstMargin(verdict);
  // What the packer proved and what plain insertion reaches, while its schedule is the plan's.
  const packed = useDesk(packStands);
  const margin = score.worstMargin / 10_000;
  const marginState =
    worst === null ? "" : margin < 0 ? "breach" : margin < plan.rules.reserve.tight ? "tight" : "fine";
  return (
    <section className="score" aria-label="Score">
      <Figure
        state={score.breaches > 0 ? "breach" : "fine"}
        value={String(score.breaches)}
        name={score.breaches === 1 ? "breach" : "breaches"}
        more={tight > 0 ? `${tight} tight` : "none tight"}
        change={change?.breaches ?? 0}
        better="less"
      />
      <Figure
        state={score.mustLeftOut > 0 ? "open" : "fine"}
        value={`${verdict.mustPlaced} of ${verdict.mustTotal}`}
        name="must-do placed"
        more={score.mustLeftOut > 0 ? `${score.mustLeftOut} left out` : "all of them"}
        change={change ? -change.mustLeftOut : 0}
        better="more"
      />
      <Figure
        state="plain"
        value={grouped(score.worth)}
        ask={{ what: "worth" }}
        name="worth"
        aside={packed && boundWords(packed.verdict.score.worth, packed.bound)}
        more={`${verdict.placed} of ${plan.tasks.length} tasks${packed ? `, plain insertion ${grouped(packed.greedy.worth)}` : ""}`}
        change={change?.worth ?? 0}
        better="more"
      />
      <Figure
        state={marginState === "" ? "plain" : marginState}
        value={worst === null ? "none" : percentLeft(margin)}
        ask={
          worst && { what: "left", eva: worst.eva, crew: worst.crew, consumable: worst.consumable, atS: null }
        }
        name="worst margin"
        more={worst === null ? "nobody goes out" : marginCause(plan, worst)}
        change={change ? Math.floor(change.worstMargin / 100) : 0}
        better="more"
        unit={Math.abs(Math.floor((change?.worstMargin ?? 0) / 100)) === 1 ? " pt" : " pts"}
      />
      <Figure
        state="plain"
        value={`${(Math.ceil(score.walkM / 100) / 10).toFixed(1)} km`}
        ask={{ what: "walked" }}
        name="walked"
        more="all crew"
        change={change?.walkM ?? 0}
        better="less"
        unit=" m"
      />
    </section>
  );
}

const STATE_WORDS = { breach: "broken", tight: "tight", open: "open", fine: "good", plain: "" } as const;

function Figure(props: {
  readonly state: keyof typeof STATE_WORDS;
  readonly value: string;
  /** What the value is asked by, from what it comes. */
  readonly ask?: FromAsk | null;
  readonly name: string;
  /** What is known of the figure beside its name; null for nothing. */
  readonly aside?: string | null;
  readonly more: string;
  readonly change: number;
  readonly better: "more" | "less";
  readonly unit?: string;
}) {
  const { change, state } = props;
  const worse = props.better === "more" ? change < 0 : change > 0;
  return (
    <div className={`score-figure ${state}`}>
      <span className="figure">
        {props.ask ? (
          <From of={props.name} ask={props.ask}>
            {props.value}
          </From>
        ) : (
          props.value
        )}
      </span>
      <span className="score-name">
        <span>
          <b>{props.name}</b> {props.aside && <span className="score-aside">{props.aside} </span>}
          {change !== 0 && (
            <span className={worse ? "score-change worse" : "score-change better"}>
              {signed(change)}
              {props.unit} {worse ? "worse" : "better"}
            </span>
          )}
        </span>
        <span className="note">{props.more}</span>
      </span>
      {STATE_WORDS[state] !== "" && <span className="unseen">({STATE_WORDS[state]})</span>}
    </div>
  );
}
