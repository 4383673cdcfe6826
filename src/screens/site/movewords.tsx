import type { SiteWalks, Verdict } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { counted, lasting, metresMore, placeName } from "../../words/index.ts";

/** What moving a place does to the day, while it is in hand. */
export function MoveWords(props: {
  readonly before: Verdict;
  readonly place: string;
  readonly walks: SiteWalks;
  readonly plan: Plan;
}) {
  const { before, walks, plan } = props;
  const after = walks.verdict;
  const name = placeName(plan, props.place);
  const homeS = walks.places.find((one) => one.id === props.place)?.homeS ?? -1;
  const first = after.findings.find((one) => one.level === "breach");
  return (
    <div className="site-move panel" role="status">
      <b>{name}</b>
      <span>walk back {homeS < 0 ? "impossible: no way" : lasting(homeS, "up")}</span>
      <span>walked {metresMore(after.score.walkM - before.score.walkM)}</span>
      <span className={after.score.breaches > 0 ? "state breach" : "state fine"}>
        {counted(after.score.breaches, "breach", "breaches")}, was {before.score.breaches}
      </span>
      {first && <span className="site-move-why">{first.sentence}</span>}
    </div>
  );
}
