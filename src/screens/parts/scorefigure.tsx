import type { ExplainRequest } from "../../answers/index.ts";
import { signed } from "../../words/index.ts";
import { Assumed } from "./assumed.tsx";
import { From } from "./from/from.tsx";

const STATE_WORDS = { breach: "broken", tight: "tight", open: "open", fine: "good", plain: "" } as const;

/** One figure of the score: value, what a move changes, name, and what more there is to say where there is room. */
export function ScoreFigure(props: {
  readonly state: keyof typeof STATE_WORDS;
  readonly value: string;
  /** What the value is asked by, from what it comes. */
  readonly request?: ExplainRequest | null;
  readonly name: string;
  /** What stands below the figure; the name where left out. */
  readonly says?: string;
  readonly more?: string | null;
  readonly change: number;
  readonly better: "more" | "less";
  readonly unit?: string;
  /** It rests on what nobody has given. */
  readonly assumed?: boolean;
}) {
  const { change, state, says = props.name, more = null } = props;
  const worse = props.better === "more" ? change < 0 : change > 0;
  return (
    <div className={`score-figure ${state}`} role="group" aria-label={props.name} title={more ?? undefined}>
      <span className="figure">
        {props.request ? (
          <From of={props.name} request={props.request}>
            {props.value}
          </From>
        ) : (
          props.value
        )}
        <Assumed when={props.assumed === true} />
        <ScoreChange by={change} worse={worse} unit={props.unit} />
      </span>
      <span className="score-name">
        {says}
        {more !== null && <span className="score-more"> {more}</span>}
      </span>
      {STATE_WORDS[state] !== "" && <span className="unseen">({STATE_WORDS[state]})</span>}
    </div>
  );
}

/** What a move changes of a figure; nothing where it changes nothing. */
export function ScoreChange(props: {
  readonly by: number;
  readonly worse: boolean;
  readonly unit?: string | undefined;
}) {
  if (props.by === 0) return null;
  return (
    <i className={props.worse ? "score-change worse" : "score-change better"}>
      {signed(props.by)}
      {props.unit}
      <span className="unseen"> {props.worse ? "worse" : "better"}</span>
    </i>
  );
}
