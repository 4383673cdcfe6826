import "./rehearsal.css";
import { type RefObject, useEffect, useRef, useState } from "react";
import { sameSchedule } from "../../plan/index.ts";
import type { RehearsalWork } from "../../session/index.ts";
import { rehearsalLosesWords } from "../../words/index.ts";
import { useSession } from "../context.ts";
import { download } from "../parts/files.ts";
import { Ahead } from "./ahead.tsx";
import { RehearsalContext, useRehearsal, useRehearsalState, useRehearsed } from "./context.ts";
import { ClockBar } from "./clockbar.tsx";
import { CrewCard } from "./crewcard.tsx";
import { DebriefPart } from "./debriefpart.tsx";
import { Log } from "./log.tsx";
import { SoFar } from "./sofar.tsx";
import { Strips } from "./strips.tsx";
import { ThrowIn } from "./throwin.tsx";

/** The day run against a clock: slips and faults thrown at it, planned anew on the way, and planned held against actual at the end. */
export function RehearsalView({ work }: { readonly work: RehearsalWork }) {
  return (
    <RehearsalContext value={work}>
      <Rehearsing />
    </RehearsalContext>
  );
}

function Rehearsing() {
  const there = useRehearsalState((state) => state.day !== null);
  const sheet = useKeyboardOn(there);
  return (
    <div className="sheet rehearsal" ref={sheet}>
      {there ? <UnderWay /> : <Begin />}
    </div>
  );
}

/** Where the button goes that began or ended a rehearsal, the keyboard goes on at the one that comes next: to run, to begin. */
function useKeyboardOn(there: boolean): RefObject<HTMLDivElement | null> {
  const ref = useRef<HTMLDivElement>(null);
  const was = useRef(there);
  useEffect(() => {
    if (was.current !== there && document.activeElement === document.body)
      ref.current?.querySelector<HTMLElement>("button.primary:not(:disabled)")?.focus();
    was.current = there;
  }, [there]);
  return ref;
}

function Begin() {
  const work = useRehearsal();
  const placed = useSession((state) => state.plan.schedule.placements.length);
  const loses = useSession((state) => rehearsalLosesWords(state.plan));
  const trouble = useRehearsalState((state) => state.trouble);
  const [refused, refuse] = useState<string | null>(null);
  return (
    <>
      <header className="sheet-head">
        <h2>Rehearsal</h2>
      </header>
      <div className="rehearsal-begin">
        <p>
          Runs the day as it stands against a clock. The crew plays by itself, with durations drawn between
          low and high, or you call when a task begins and ends. Throw in slips and faults, let what is to
          come be planned anew, and hold planned against actual at the end. The plan itself stays as it is.
        </p>
        {loses !== null && <p>{loses}</p>}
        <form
          onSubmit={(event) => {
            event.preventDefault();
            const field = event.currentTarget.elements.namedItem("seed") as HTMLInputElement;
            work.begin(Math.max(0, Math.round(field.valueAsNumber) || 0));
          }}
        >
          <label>
            <span className="note">Seed of the drawn durations</span>
            <input name="seed" type="number" min={0} max={4_294_967_295} step={1} defaultValue={1} required />
          </label>
          <button
            type="submit"
            className="primary"
            disabled={placed === 0}
            title={placed === 0 ? "Nothing is placed yet." : undefined}
          >
            Begin with the day as it stands
          </button>
          <OpenFile refuse={refuse} />
        </form>
        {placed === 0 && <p className="note">Nothing is placed yet: lay or pack a day first.</p>}
        {trouble !== null && (
          <p className="state breach" role="alert">
            {trouble}
          </p>
        )}
        {refused !== null && <p className="state breach">The file was not opened: {refused}.</p>}
      </div>
    </>
  );
}

function OpenFile({ refuse }: { readonly refuse: (why: string | null) => void }) {
  const work = useRehearsal();
  return (
    <label className="button">
      Open a rehearsal file
      <input
        type="file"
        className="unseen"
        accept=".json,application/json"
        onChange={(event) => {
          const file = event.target.files?.[0];
          if (file) void file.text().then((text) => refuse(work.open(text)));
        }}
      />
    </label>
  );
}

function UnderWay() {
  const work = useRehearsal();
  const [part, show] = useState<Part>("live");
  const save = (): void => download("rehearsal.json", [work.fileText() ?? ""], "application/json");
  return (
    <>
      <SoFar />
      <Head part={part} onShow={show} onSave={save} />
      <Unkept onSave={save} />
      {part === "debrief" ? <DebriefPart /> : <Live />}
    </>
  );
}

/** What is looked at of a rehearsal. */
type Part = "live" | "debrief";

/** Which day is rehearsed, what is looked at of it, and how it is saved and ended. */
function Head(props: {
  readonly part: Part;
  readonly onShow: (part: Part) => void;
  readonly onSave: () => void;
}) {
  const { part, onShow, onSave } = props;
  const { plan } = useRehearsed();
  const open = useSession((state) => state.plan);
  const another = open.title !== plan.title || !sameSchedule(open.schedule, plan.schedule);
  return (
    <header className="sheet-head">
      <h2>Rehearsal</h2>
      <span className="note rehearsal-of">
        {plan.title}
        {another &&
          ". The open plan is another one by now: this is the day as it was when the rehearsal began."}
      </span>
      <div className="pair" role="group" aria-label="What to look at">
        <button type="button" aria-pressed={part === "live"} onClick={() => onShow("live")}>
          Clock
        </button>
        <button type="button" aria-pressed={part === "debrief"} onClick={() => onShow("debrief")}>
          Debrief
        </button>
      </div>
      <button type="button" onClick={onSave}>
        Save as a file
      </button>
      <End />
    </header>
  );
}

/** Ends the rehearsal, which is asked once more: a second press of the same key goes on with it. */
function End() {
  const work = useRehearsal();
  const [ending, end] = useState(false);
  const [asked, ask] = useState(false);
  return ending ? (
    <span
      className="pair"
      role="group"
      aria-label="End the rehearsal"
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        end(false);
        event.stopPropagation();
      }}
    >
      <button type="button" className="danger" onClick={() => work.end()}>
        End and forget it
      </button>
      <button type="button" autoFocus onClick={() => end(false)}>
        Go on
      </button>
    </span>
  ) : (
    <button
      type="button"
      autoFocus={asked}
      onClick={() => {
        ask(true);
        end(true);
      }}
    >
      End…
    </button>
  );
}

/** Says why the rehearsal is not kept in this browser, where it is not. */
function Unkept({ onSave }: { readonly onSave: () => void }) {
  const unkept = useRehearsalState((state) => state.unkept);
  if (unkept === null) return null;
  return (
    <div className="rehearsal-unkept" role="alert">
      <p>
        <b className="state breach">Not kept.</b> {unkept} It is gone when this page is left or loaded again.
        A file keeps it, up to the moment at which it is saved.
      </p>
      <button type="button" className="primary" onClick={onSave}>
        Save it now
      </button>
    </div>
  );
}

/** The day as it runs: clock, strips, crew, what is to come, and what is thrown in. */
function Live() {
  const { plan } = useRehearsed();
  return (
    <>
      <ClockBar />
      <Strips />
      <div className="rehearsal-parts">
        <div className="rehearsal-crews">
          {plan.crew.map((member) => (
            <CrewCard key={member.id} member={member} />
          ))}
        </div>
        <Ahead />
        <ThrowIn />
        <Log />
      </div>
    </>
  );
}
