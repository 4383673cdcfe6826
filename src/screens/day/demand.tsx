import { useMemo } from "react";
import { demandAndSupply } from "../../session/index.ts";
import { counted, crewName, evaName, lasting } from "../../words/index.ts";
import { useSession } from "../context.ts";

/**
 * Before anything is on the line: the crew time that is asked for and the crew time at hand, on one scale. Ways and rests
 * are in neither: they are not known before there is a day.
 */
export function DemandLine() {
  const empty = useSession(
    (state) => state.plan.schedule.placements.length === 0 && state.run?.running !== true,
  );
  const plan = useSession((state) => state.plan);
  const sums = useMemo(() => demandAndSupply(plan), [plan]);
  if (!empty || sums.demandS === 0) return null;
  const { demandS, mustS, thereS, tasks, must, outings } = sums;
  const most = Math.max(demandS, thereS);
  const wide = (seconds: number): string => `${(seconds / most) * 100}%`;
  const tooMuchS = demandS - thereS;
  return (
    <section className="asked" aria-label="Crew time asked and at hand">
      <header className="part-head">
        <h2>Crew time asked and at hand</h2>
        <span className="note">h:mm</span>
      </header>
      <p>
        <b>Asked</b> {lasting(demandS, "up")} in {counted(tasks, "task")}
      </p>
      <div className="asked-bar" aria-hidden="true">
        <span className="asked-must" style={{ width: wide(mustS) }} />
        <span className="asked-rest" style={{ width: wide(demandS - mustS) }} />
      </div>
      <p className="note">
        must-do first: {lasting(mustS, "up")} in {counted(must, "task")}
      </p>
      <p>
        <b>At hand</b> {lasting(thereS, "down")} in {counted(outings.length, "outing")}
      </p>
      <div className="asked-bar" aria-hidden="true">
        {outings.map(({ eva, crew, workS }) => (
          <span
            key={`${eva} ${crew}`}
            className="asked-there"
            style={{ width: wide(workS) }}
            title={`${evaName(plan, eva)}, ${crewName(plan, crew)}: ${lasting(workS, "down")}`}
          />
        ))}
        {tooMuchS > 0 && <span className="asked-over" style={{ width: wide(tooMuchS) }} />}
      </div>
      <p className="note">egress and ingress taken off, ways and rests not counted</p>
      <p className={tooMuchS > 0 ? "state breach" : "state fine"}>
        {tooMuchS > 0
          ? `${lasting(tooMuchS, "up")} too much, before any way or rest`
          : `${lasting(-tooMuchS, "down")} left for ways and rests`}
      </p>
    </section>
  );
}
