import { type ReactNode, useState } from "react";
import type { MarginTrack } from "../../answers/index.ts";
import type { CrewMember } from "../../plan/index.ts";
import { clock, evaName, lasting, numberedTask, percent, placeName } from "../../words/index.ts";
import type { CallOut } from "../../session/index.ts";
import { Assumed } from "../parts/assumed.tsx";
import { CONSUMABLE_WORDS, isAssumed } from "../words.ts";
import { useLeaves, useRehearsal, useRehearsed } from "./context.ts";
import { lateWords } from "./callwords.ts";
import { crewNow, type CrewNow, type NextLeave } from "./crewnow.ts";
import { TurnBackLines } from "./turnback.tsx";
import { gaugeFigure, unitOf } from "./gauges.ts";

/** One crew member now: what is under way, what comes next and when to leave for it, the way home, what is left. */
export function CrewCard({ member }: { readonly member: CrewMember }) {
  const day = useRehearsed();
  const now = crewNow(day, member.id, useLeaves());
  const late = now.lateS;
  return (
    <section className="rehearsal-crew" aria-label={member.name}>
      <header>
        <h3>{member.name}</h3>
        <span className="note">{now.eva === null ? "inside" : evaName(day.plan, now.eva)}</span>
        {late !== null && <b className={late > 0 ? "state tight" : "state fine"}>{lateWords(late)}</b>}
      </header>
      <div className="rehearsal-crew-parts">
        <Doing now={now} />
        <Next now={now} />
      </div>
      {now.turnBack && <TurnBackLines plan={day.standing.plan} nowS={day.standing.nowS} of={now.turnBack} />}
      {now.homeward && now.eva !== null && <Home eva={now.eva} />}
      <Levels now={now} member={member} />
    </section>
  );
}

/** When the last task of an EVA is done all go home. */
function Home({ eva }: { readonly eva: string }) {
  const work = useRehearsal();
  const { plan, standing } = useRehearsed();
  const others = standing.placements.some((placement) => placement.eva === eva && placement.state !== "done");
  return (
    <div className="rehearsal-acts">
      <button
        type="button"
        disabled={others}
        title={others ? "Somebody on this EVA still has something to do." : undefined}
        onClick={() => work.call({ kind: "in", eva })}
      >
        Ingress of {evaName(plan, eva)} complete
      </button>
    </div>
  );
}

function Doing({ now }: { readonly now: CrewNow }) {
  const work = useRehearsal();
  const { plan, standing } = useRehearsed();
  const { doing } = now;
  if (!doing) return <p className="note">Nothing under way.</p>;
  const { task, placement } = doing;
  const dueS = placement.startS + standing.facts.lengthS.get(task.id)!;
  const restS = dueS - standing.nowS;
  return (
    <div className="rehearsal-doing">
      <p>
        <span className="note">Now</span> <b>{numberedTask(plan, task.id)}</b>{" "}
        <span className="note">{placeName(plan, task.place)}</span>
      </p>
      <p>
        since {clock(placement.startS)},{" "}
        {restS >= 0 ? `${lasting(restS, "down")} to go` : `${lasting(-restS, "up")} over`}
      </p>
      <progress
        aria-label={`${task.name}, how far`}
        max={dueS - placement.startS}
        value={Math.min(dueS, standing.nowS) - placement.startS}
      />
      <div className="rehearsal-acts">
        <button type="button" onClick={() => work.call({ kind: "ends", task: task.id })}>
          Done
        </button>
        <button type="button" onClick={() => work.call({ kind: "longer", task: task.id, byS: 300 })}>
          5 min longer
        </button>
        <button type="button" onClick={() => work.call({ kind: "left-out", task: task.id })}>
          Give up
        </button>
      </div>
    </div>
  );
}

/** A button that makes a call, or says why it cannot be made now. */
function Act(props: {
  readonly call: CallOut;
  /** What else stands against it. */
  readonly whyNot?: string | null;
  readonly children: ReactNode;
}) {
  const work = useRehearsal();
  const why = props.whyNot ?? work.whyNot(props.call);
  return (
    <button
      type="button"
      disabled={why !== null}
      title={why ?? undefined}
      onClick={() => work.call(props.call)}
    >
      {props.children}
    </button>
  );
}

function Next({ now }: { readonly now: CrewNow }) {
  const work = useRehearsal();
  const { plan, standing } = useRehearsed();
  const { next } = now;
  if (!next) return <p className="note">Nothing more to come.</p>;
  const { task, placement, leave } = next;
  const out = placement.eva === null || standing.facts.outS.has(placement.eva);
  const busy = standing.placements.some(
    (one) => one.state === "under way" && one.crew.some((id) => placement.crew.includes(id)),
  );
  return (
    <div className="rehearsal-next">
      <p>
        <span className="note">Next</span> <b>{numberedTask(plan, task.id)}</b>{" "}
        <span className="note">{placeName(plan, task.place)}</span>
      </p>
      <p>
        begins {clock(placement.startS)}
        <LeaveWords leave={leave} nowS={standing.nowS} />
      </p>
      <div className="rehearsal-acts">
        {!out && placement.eva !== null && (
          <Act call={{ kind: "out", eva: placement.eva }}>Egress of {evaName(plan, placement.eva)}</Act>
        )}
        {out && (
          <Act call={{ kind: "begins", task: task.id }} whyNot={busy ? "Not all of its crew are free" : null}>
            Begins
          </Act>
        )}
        <button type="button" onClick={() => work.call({ kind: "left-out", task: task.id })}>
          Leave out
        </button>
      </div>
    </div>
  );
}

/** When to leave for what is next, as the judge has tested it on the day as it goes on. */
function LeaveWords({ leave, nowS }: { readonly leave: NextLeave; readonly nowS: number }) {
  if (leave === null) return null;
  switch (leave.kind) {
    case "untested":
      return <span className="note">, leave by not worked out</span>;
    case "gone":
      return <>, should be on the way by now</>;
    case "at once":
      return leave.atS > nowS ? (
        <>
          , <b>leave as soon as free</b>, at {clock(leave.atS)}
        </>
      ) : (
        <>
          , <b>leave at once</b>
        </>
      );
    case "by":
      return leave.atS < nowS ? (
        <>, should be on the way since {clock(leave.atS)}</>
      ) : (
        <>
          , <b>leave by {clock(leave.atS)}</b>
        </>
      );
  }
}

/** What is left of each consumable now, or goes out with a suit before the first egress, and above the reserve when back. A gauge can be read out beside it. */
export function Levels({ now, member }: { readonly now: CrewNow; readonly member: CrewMember }) {
  const { plan } = useRehearsed();
  const levels = now.levels.length > 0 ? now.levels : now.outgoing;
  if (levels.length === 0) return null;
  return (
    <>
      <p className="note rehearsal-when">Left now, and above the reserve when back</p>
      <ul className="rehearsal-levels">
        {levels.map(({ track, nowLeft }) => {
          const name = CONSUMABLE_WORDS[track.consumable];
          return (
            <li key={track.consumable} className={track.margin < 0 ? "breach" : ""}>
              <span>{name}</span>
              <Level
                of={`${member.name}, ${name} left`}
                stock={track.stock}
                reserve={track.reserve}
                left={nowLeft}
              />
              <b>
                {gaugeFigure(nowLeft, track.consumable, "down")} {unitOf(track.consumable)}
              </b>
              <span className="note" title="Above the reserve when back inside, if all goes on like this">
                {percent(track.margin, "down")} above reserve
                <Assumed when={isAssumed(plan, track)} />
              </span>
            </li>
          );
        })}
      </ul>
      <Gauge levels={levels} member={member} />
    </>
  );
}

/** A stock as a bar, with its reserve marked. */
function Level(props: {
  readonly of: string;
  readonly stock: number;
  readonly reserve: number;
  readonly left: number;
}) {
  const { of, stock, reserve, left: nowLeft } = props;
  const share = (value: number): string =>
    `${stock > 0 ? Math.min(100, Math.max(0, (100 * value) / stock)) : 0}%`;
  return (
    <span
      className="rehearsal-level"
      role="meter"
      aria-label={of}
      aria-valuemin={0}
      aria-valuemax={stock}
      aria-valuenow={Math.max(0, nowLeft)}
    >
      <i style={{ width: share(nowLeft) }} />
      <u style={{ left: share(reserve) }} />
    </span>
  );
}

/** A gauge that is read out: what is to come is then held against it. */
function Gauge({ levels, member }: { readonly levels: CrewNow["levels"]; readonly member: CrewMember }) {
  const work = useRehearsal();
  const [which, choose] = useState<MarginTrack["consumable"]>("oxygen");
  return (
    <form
      className="rehearsal-gauge"
      onSubmit={(event) => {
        event.preventDefault();
        const form = event.currentTarget;
        const left = form.elements.namedItem("left") as HTMLInputElement;
        const read = left.valueAsNumber;
        if (!Number.isFinite(read) || read < 0) return;
        const why = work.call({ kind: "reading", crew: member.id, consumable: which, left: read });
        if (why === null) return form.reset();
        left.setCustomValidity(why);
        left.reportValidity();
      }}
    >
      <select
        aria-label={`${member.name}, gauge`}
        value={which}
        onChange={(event) => {
          choose(event.target.value as typeof which);
          (event.target.form!.elements.namedItem("left") as HTMLInputElement).setCustomValidity("");
        }}
      >
        {levels.map(({ track }) => (
          <option key={track.consumable} value={track.consumable}>
            {CONSUMABLE_WORDS[track.consumable]}
          </option>
        ))}
      </select>
      <span>reads</span>
      <input
        name="left"
        type="number"
        min={0}
        step="any"
        required
        onInput={(event) => event.currentTarget.setCustomValidity("")}
        aria-label={`${member.name}, the gauge reads, ${unitOf(which)}`}
      />
      <span>{unitOf(which)}</span>
      <button type="submit">Read out</button>
    </form>
  );
}
