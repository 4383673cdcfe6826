import { useState } from "react";
import { counted, grouped, lasting, percent } from "../../words/index.ts";
import { useAround, useDesk, useLook } from "../context.ts";
import { aimOf, alongCurve, packForOf, placeWords } from "../packfor.ts";

const LENGTHS = [2, 5, 15, 60];

/**
 * Pack and mend: set to work, watched, and stopped with the best so far or without it. No button is disabled in earnest:
 * the keyboard stays where it was pressed, at the start, while work is done and after it.
 */
export function Runner() {
  const { desk, look } = useAround();
  const run = useDesk((state) => state.run);
  const breaches = useDesk((state) => state.verdict.score.breaches);
  const [seconds, setSeconds] = useState(5);
  const packFor = useLook((look) => look.packFor);
  const wish = useDesk((state) => state.plan.odds.wish);
  const running = run?.running ?? false;

  if (running && run) {
    const { progress, bestVerdict } = run;
    const done = progress ? Math.min(1, progress.seconds / run.seconds) : 0;
    const chances = progress?.wished
      ? `, done on average ${grouped(Math.floor(progress.wished.meanWorth))}, must-do ${Math.floor(progress.wished.must * 100)} %, home ${Math.floor(progress.wished.home * 100)} % of the days searched with`
      : "";
    const best = bestVerdict
      ? `best: worth ${grouped(bestVerdict.score.worth)}, ${counted(bestVerdict.score.breaches, "breach", "breaches")}, must-do ${bestVerdict.mustPlaced} of ${bestVerdict.mustTotal}${chances}`
      : "nothing yet";
    return (
      <div className="runner running" role="group" aria-label={run.kind === "pack" ? "Packing" : "Mending"}>
        <div className="run-state" title={best}>
          <progress value={done} max={1} aria-label="Time used" />
          <span>
            {run.kind === "pack" ? "Packing" : "Mending"}{" "}
            {progress
              ? `${lasting(Math.floor(progress.seconds), "down")} of ${lasting(run.seconds, "down")}`
              : "…"}
          </span>
          <span className="note">{best}</span>
        </div>
        <button
          type="button"
          className="primary"
          aria-disabled={!run.best}
          onClick={() => run.best && desk.stopPack("take best")}
        >
          Take best
        </button>
        <button type="button" onClick={() => desk.stopPack("leave")}>
          Stop
        </button>
      </div>
    );
  }
  return (
    <div className="runner" role="group" aria-label="Packer">
      <div className="run-choices">
        <select
          aria-label="How long to search"
          value={seconds}
          onChange={(event) => setSeconds(Number(event.target.value))}
        >
          {LENGTHS.map((length) => (
            <option key={length} value={length}>
              {length} s
            </option>
          ))}
        </select>
        <select
          aria-label="What to pack for"
          title={`How sure every must-do is to be done: from the most worth when everything takes its likely time to 99 % of simulated days, each with the most worth on average that leaves. The wish of the plan is ${percent(wish.must, "given")}; home ${percent(wish.home, "given")} throughout.`}
          value={String(packFor)}
          onChange={(event) => look.setState({ packFor: packForOf(event.target.value) })}
        >
          {alongCurve(wish.must).map((place) => (
            <option key={place} value={place}>
              {placeWords(place, wish.must)}
            </option>
          ))}
        </select>
      </div>
      <button
        type="button"
        className="primary"
        title="Fill the day from the bench, keeping what is pinned"
        onClick={() => void desk.pack({ seed: 1, seconds, ...aimOf(packFor) })}
      >
        Pack
      </button>
      <button
        type="button"
        title="Repair a broken day with the fewest changes"
        aria-disabled={breaches === 0}
        onClick={() => breaches > 0 && void desk.mend({ seed: 1, seconds })}
      >
        Mend
      </button>
    </div>
  );
}
