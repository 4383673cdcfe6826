import { useEffect, useState } from "react";
import { lasting, percent } from "../../words/index.ts";
import { useApp, useSession, useView } from "../context.ts";
import { aimOf, alongCurve, packForOf, placeWords } from "../packfor.ts";
import { Menu } from "../parts/menu.tsx";
import { refuse } from "../viewstate.ts";

const LENGTHS = [2, 5, 15, 60];
const NOTHING = "Nothing to pack yet.";

/**
 * Pack and mend: set to work, and stopped with the best so far or without it. No button is disabled in earnest: the keyboard stays
 * where it was pressed, at the start, while work is done and after it.
 */
export function Runner() {
  const { session, view } = useApp();
  const run = useSession((state) => state.run);
  const nothing = useSession((state) => state.plan.tasks.length === 0);
  const packFor = useView((view) => view.packFor);
  // Not the first thing to press beside a clock that runs: it packs the plan, and the rehearsal has its own.
  const apart = useView((view) => view.screen === "rehearsal");
  const [seconds, setSeconds] = useState(5);
  const running = run?.running ?? false;
  useRunKeys(running);

  if (running && run) {
    const { best } = run;
    return (
      <div className="runner running" role="group" aria-label={run.kind === "pack" ? "Packing" : "Mending"}>
        <button
          type="button"
          className="primary"
          aria-disabled={!best}
          title={best ? undefined : "No better day yet"}
          onClick={() => best && session.stopPack("take best")}
        >
          Take this day <kbd>Enter</kbd>
        </button>
        <button type="button" onClick={() => session.stopPack("leave")}>
          Stop <kbd>Esc</kbd>
        </button>
      </div>
    );
  }
  return (
    <div className="runner" role="group" aria-label="Packer">
      <button
        type="button"
        className={apart ? "" : "primary"}
        aria-disabled={nothing}
        title={
          nothing
            ? NOTHING
            : `${apart ? "The plan, not the rehearsal, which has Pack from here. " : ""}Fill the day from the bench within ${lasting(seconds, "down")}, keeping what is pinned`
        }
        onClick={() =>
          nothing ? refuse(view, NOTHING) : void session.pack({ seed: 1, seconds, ...aimOf(packFor) })
        }
      >
        Pack
      </button>
      <Menu
        className={nothing || apart ? "" : "primary"}
        name=""
        label="How to pack"
        title="How to pack, and mend"
        atEnd
      >
        <Choices seconds={seconds} setSeconds={setSeconds} />
      </Menu>
    </div>
  );
}

/** What a pack is for and how long it may take, and the way to mend a broken day instead. */
function Choices(props: { readonly seconds: number; readonly setSeconds: (seconds: number) => void }) {
  const { seconds, setSeconds } = props;
  const { session, view } = useApp();
  const breaches = useSession((state) => state.verdict.score.breaches);
  const packFor = useView((view) => view.packFor);
  const wish = useSession((state) => state.plan.odds.wish);
  return (
    <>
      <label className="menu-field">
        <span>How long to search</span>
        <select value={seconds} onChange={(event) => setSeconds(Number(event.target.value))}>
          {LENGTHS.map((length) => (
            <option key={length} value={length}>
              {length} s
            </option>
          ))}
        </select>
      </label>
      <label
        className="menu-field"
        title={`How sure every must-do is to be done: from the most worth when everything takes its likely time to 99 % of simulated days, each with the most worth on average that leaves. The wish of the plan is ${percent(wish.must, "given")}; home ${percent(wish.home, "given")} throughout.`}
      >
        <span>What to pack for</span>
        <select
          value={String(packFor)}
          onChange={(event) => view.setState({ packFor: packForOf(event.target.value) })}
        >
          {alongCurve(wish.must).map((place) => (
            <option key={place} value={place}>
              {placeWords(place, wish.must)}
            </option>
          ))}
        </select>
      </label>
      {breaches > 0 && (
        <>
          <hr />
          <button
            type="button"
            className="quiet"
            title="Repair the broken day with the fewest changes"
            onClick={() => void session.mend({ seed: 1, seconds })}
          >
            Mend
          </button>
        </>
      )}
    </>
  );
}

/** What keeps its own Enter and Escape. */
const OWN_KEYS = "button, a, input, select, textarea, dialog, [role=menu], [popover]";

/** While the packer is at work Enter takes the day that stands there and Escape stops, wherever no control has these keys. */
function useRunKeys(running: boolean): void {
  const { session } = useApp();
  useEffect(() => {
    if (!running) return;
    const down = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey) return;
      const target = event.target instanceof Element ? event.target : null;
      if (event.key === "Escape" && !target?.closest("dialog, [role=menu], input, select, textarea"))
        session.stopPack("leave");
      else if (event.key === "Enter" && !target?.closest(OWN_KEYS) && session.state.getState().run?.best)
        session.stopPack("take best");
      else return;
      event.preventDefault();
    };
    window.addEventListener("keydown", down);
    return () => window.removeEventListener("keydown", down);
  }, [running, session]);
}
