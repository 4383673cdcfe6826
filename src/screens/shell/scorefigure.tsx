import type { FromAsk } from "../../answers/index.ts";
import { signed } from "../../words/index.ts";
import { From } from "../from/from.tsx";

const STATE_WORDS = { breach: "broken", tight: "tight", open: "open", fine: "good", plain: "" } as const;

/** One figure of the score: value, name, what more there is to say, and what a move changes. */
export function ScoreFigure(props: {
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
    <div className={`score-figure ${state}`} role="group" aria-label={props.name}>
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
        {props.more !== "" && <span className="note">{props.more}</span>}
      </span>
      {STATE_WORDS[state] !== "" && <span className="unseen">({STATE_WORDS[state]})</span>}
    </div>
  );
}
