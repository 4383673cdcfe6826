import { isOver } from "../../session/index.ts";
import { clock, evaName } from "../../words/index.ts";
import { RecallLine } from "./turnback.tsx";
import { useRehearsal, useRehearsalState, useRehearsed } from "./context.ts";

const SPEEDS = [1, 10, 60, 300];

/** The rehearsal's clock, to be read across the room, and what moves it. */
export function ClockBar() {
  const { rehearsal } = useRehearsed();
  const over = useRehearsalState((state) => state.day !== null && isOver(state.day));
  return (
    <section className="rehearsal-clock" aria-label="Clock">
      <p className="rehearsal-met">
        <span className="note">MET</span> <b className="figure">{clock(rehearsal.nowS)}</b>
      </p>
      <Controls over={over} />
      <EvaClocks over={over} />
    </section>
  );
}

/** How long each EVA is out by now, and when it is to go home. */
function EvaClocks({ over }: { readonly over: boolean }) {
  const { plan, rehearsal, standing, recalls } = useRehearsed();
  const { outS, inS } = standing.facts;
  const outside = plan.evas.filter((eva) => outS.has(eva.id) && !inS.has(eva.id));
  return (
    <ul className="rehearsal-pets">
      {outside.map((eva) => (
        <li key={eva.id}>
          <span className="note">{evaName(plan, eva.id)}, PET</span>{" "}
          <b>{clock(rehearsal.nowS - outS.get(eva.id)!)}</b>
          <RecallLine plan={standing.plan} of={recalls.find((one) => one.eva === eva.id)} />
        </li>
      ))}
      {outside.length === 0 && (
        <li className="note">{over ? "The day is over: everybody is back." : "Nobody is out."}</li>
      )}
    </ul>
  );
}

/** Why the clock goes no further. */
const OVER = "The day is over.";

/** What runs and moves the clock, and who makes the calls. */
function Controls({ over }: { readonly over: boolean }) {
  const work = useRehearsal();
  const { rehearsal } = useRehearsed();
  const running = useRehearsalState((state) => state.running);
  const caller = useRehearsalState((state) => state.caller);
  return (
    <div className="rehearsal-controls">
      <button
        type="button"
        className="primary"
        disabled={over && !running}
        title={over && !running ? OVER : undefined}
        onClick={() => (running ? work.hold() : work.run())}
      >
        {running ? "Hold" : "Run"}
      </button>
      <Speeds />
      <div className="pair" role="group" aria-label="Move the clock on">
        <button type="button" disabled={over} title={over ? OVER : undefined} onClick={() => work.goOn(60)}>
          1 min on
        </button>
        <button type="button" disabled={over} title={over ? OVER : undefined} onClick={() => work.goOn(600)}>
          10 min on
        </button>
        <button
          type="button"
          disabled={over}
          title={over ? OVER : undefined}
          onClick={() => work.goOn("next call")}
        >
          To the next call
        </button>
      </div>
      <div className="pair" role="group" aria-label="Who calls begin and end of tasks">
        <button type="button" aria-pressed={caller === "crew"} onClick={() => work.setCaller("crew")}>
          Crew plays by itself
        </button>
        <button type="button" aria-pressed={caller === "trainer"} onClick={() => work.setCaller("trainer")}>
          I call
        </button>
      </div>
      <button
        type="button"
        aria-label="Take back the last call"
        title={
          rehearsal.calls.length === 0
            ? "Nothing has been called yet"
            : "Takes back the last call, and the clock to its time"
        }
        disabled={rehearsal.calls.length === 0}
        onClick={() => work.undoCall()}
      >
        Take back
      </button>
    </div>
  );
}

/** How fast the clock runs. */
function Speeds() {
  const work = useRehearsal();
  const speed = useRehearsalState((state) => state.speed);
  return (
    <div className="pair" role="group" aria-label="Speed">
      {SPEEDS.map((one) => (
        <button
          key={one}
          type="button"
          aria-pressed={speed === one}
          title={one === 1 ? "As time goes" : `${one} seconds of the mission a second`}
          onClick={() => work.setSpeed(one)}
        >
          {one} ×
        </button>
      ))}
    </div>
  );
}
