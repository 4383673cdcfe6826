import type { Verdict } from "../../answers/index.ts";
import { type Plan, tasksById } from "../../plan/index.ts";
import { isOver, type Proposal, type Rehearsed } from "../../session/index.ts";
import { clock, counted, crewName, grouped, listed, numberedTask, percent } from "../../words/index.ts";
import { averageWorth, chanceFigure } from "../chancewords.ts";
import { ChanceAgainstWish } from "../daychances.tsx";
import { Prose } from "../parts/prose.tsx";
import { Dropped, Moved } from "../parts/changelist.tsx";
import { readFindings } from "../words.ts";
import { useRehearsal, useRehearsalState, useRehearsed } from "./context.ts";
import { Breaches } from "./breaches.tsx";
import { aheadBreaches } from "./broken.ts";
import { lateWords } from "./callwords.ts";

/** What is to come if all goes on like this, what would break, and a new plan for it. */
export function Ahead() {
  const day = useRehearsed();
  const toCome = day.standing.placements.filter((placement) => placement.state === "to come");
  const findings = aheadBreaches(day);
  return (
    <section className="rehearsal-ahead" aria-label="To come">
      <header>
        <h3>To come</h3>
        <span className="note">{counted(toCome.length, "task")}, if all goes on like this</span>
      </header>
      {!isOver(day) && <Anew broken={findings.length > 0} />}
      {findings.length > 0 && <Breaches plan={day.plan} findings={findings} label="What would break" />}
      {toCome.length > 0 && <ToCome placements={toCome} />}
      {toCome.length === 0 && <p className="note">Nothing more.</p>}
    </section>
  );
}

/** What will be done, when, and how that is against the plan. */
function ToCome({ placements }: { readonly placements: Rehearsed["standing"]["placements"] }) {
  const { plan } = useRehearsed();
  const tasks = tasksById(plan);
  const was = new Map(plan.schedule.placements.map((placement) => [placement.task, placement.startS]));
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">Begins</th>
          <th scope="col">Task</th>
          <th scope="col">Who</th>
          <th scope="col">Against the plan</th>
        </tr>
      </thead>
      <tbody>
        {placements.map((placement) => {
          const task = tasks.get(placement.task);
          const startS = was.get(placement.task);
          if (!task) return null;
          return (
            <tr key={placement.task}>
              <td>{clock(placement.startS)}</td>
              <th scope="row">
                {numberedTask(plan, task.id)} {task.must && <span className="note">must-do</span>}
              </th>
              <td>{placement.crew.map((id) => crewName(plan, id)).join(", ") || "by command"}</td>
              <td>{startS === undefined ? "added" : lateWords(placement.startS - startS)}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** A new plan for what is to come: asked for, looked at, taken or left. */
function Anew({ broken }: { readonly broken: boolean }) {
  const work = useRehearsal();
  const { plan, verdict } = useRehearsed();
  const planning = useRehearsalState((state) => state.planning);
  const proposal = useRehearsalState((state) => state.proposal);
  const trouble = useRehearsalState((state) => state.trouble);
  return (
    <div className="rehearsal-anew" aria-live="polite">
      <div className="rehearsal-acts">
        <button
          type="button"
          className={broken ? "primary" : ""}
          disabled={planning !== null}
          title="What has begun stays; as little as possible of the rest changes"
          onClick={() => void work.planAnew("mend")}
        >
          Mend from here
        </button>
        <button
          type="button"
          disabled={planning !== null}
          title="What has begun stays; the rest is packed again for the chances that the plan wants"
          onClick={() => void work.planAnew("pack")}
        >
          Pack from here
        </button>
        {planning !== null && <span className="note">Working out a new plan from now on…</span>}
      </div>
      {trouble !== null && <p className="state breach">{trouble}</p>}
      {proposal && (
        <div className="rehearsal-proposal">
          <p>
            <b>
              {proposal.how === "mend" ? "Mended" : "Packed"} as of {clock(proposal.requestedS)}:
            </b>{" "}
            <Prose
              words={`worth from ${grouped(verdict.score.worth)} to ${grouped(proposal.verdict.score.worth)}, worst margin from ${percent(verdict.score.worstMargin / 10_000, "down")} to ${percent(proposal.verdict.score.worstMargin / 10_000, "down")}, ${counted(proposal.verdict.score.breaches, "breach", "breaches")}.`}
            />
          </p>
          <Left plan={plan} verdict={proposal.verdict} />
          <Chances proposal={proposal} />
          {proposal.changes.length === 0 ? (
            <p>Nothing changes.</p>
          ) : (
            <Dropped plan={plan} changes={proposal.changes} />
          )}
          <div className="rehearsal-acts">
            <button type="button" className="primary" onClick={() => work.take()}>
              Take it
            </button>
            <button type="button" onClick={() => work.leave()}>
              Leave it
            </button>
          </div>
          <Moved plan={plan} changes={proposal.changes} />
        </div>
      )}
    </div>
  );
}

/** What a new plan leaves broken, such as what has happened already. */
function Left({ plan, verdict }: { readonly plan: Plan; readonly verdict: Verdict }) {
  const broken = readFindings(verdict.findings).filter(({ level }) => level === "breach");
  if (broken.length === 0) return null;
  return <Breaches plan={plan} findings={broken} label="What stays broken" />;
}

/** What the rest of the day comes to, as it would go on and with the proposal. */
function Chances({ proposal: { chances, givenUp } }: { readonly proposal: Proposal }) {
  const { plan } = useRehearsed();
  if (!chances) return <p className="note">The chances of both are being counted…</p>;
  const { before, after } = chances;
  return (
    <>
      <p>
        Every must-do done from {chanceFigure(before.must)} to{" "}
        <ChanceAgainstWish report={after} kind="must" />, everybody home from {chanceFigure(before.home)} to{" "}
        <ChanceAgainstWish report={after} kind="home" />, worth on average from {averageWorth(before)} to{" "}
        {averageWorth(after)}.
      </p>
      <p className="note">
        {grouped(after.days)} simulated days from now on: what has begun stays as it went, the crew acts by
        the plan’s rules.
        {givenUp.length > 0 &&
          ` Given up already and not counted: ${listed(givenUp.map((id) => numberedTask(plan, id)))}.`}
      </p>
    </>
  );
}
