import type { BenchReason } from "../../answers/index.ts";
import type { Placement, Plan, Task } from "../../plan/index.ts";
import {
  briefly,
  clock,
  crewName,
  evaName,
  lasting,
  numberedSentence,
  placeName,
  touchdownMs,
  utcClock,
} from "../../words/index.ts";
import {
  benchSays,
  isBenchCurrent,
  chancesNow,
  findingsOfTask,
  fromChance,
  shownVerdict,
} from "../../session/index.ts";
import { slackWords, standingAgainst, WISH_STATE, wishWords } from "../chancewords.ts";
import { useApp, useSession, useSessionList } from "../context.ts";
import { From } from "../parts/from/from.tsx";
import { useCalm, useCalmSession } from "../settled.ts";
import { LEVEL_WORDS } from "../words.ts";

interface Placed {
  readonly plan: Plan;
  readonly task: Task;
  readonly placement: Placement;
}

/** Letters of a name here: each of four people keeps to a line or so of the narrowest side. */
const NAME_LETTERS = 28;

/** Where a placed task stands: when, who, where, and the way back from there. */
export function Standing({ plan, task, placement }: Placed) {
  const { eva, crew } = placement;
  const who = [evaName(plan, eva), ...crew.map((one) => crewName(plan, one))];
  const end = task.endPlace === task.place ? undefined : task.endPlace;
  const where = [task.place, ...(end === undefined ? [] : [end])].map((one) => placeName(plan, one));
  return (
    <dl className="task-standing">
      <Times plan={plan} task={task} placement={placement} />
      <div>
        <dt>Who</dt>
        <dd title={who.join(", ")}>
          {briefly(who[0]!, NAME_LETTERS)}
          {crew.length > 0 &&
            `, ${who
              .slice(1)
              .map((one) => briefly(one, NAME_LETTERS))
              .join(" and ")}`}
        </dd>
      </div>
      <div>
        <dt>Where</dt>
        <dd title={where.join(" to ")}>{where.map((one) => briefly(one, NAME_LETTERS)).join(" to ")}</dd>
      </div>
      {crew.length > 0 && <WalkBack task={task} />}
      <Simulated task={task} />
    </dl>
  );
}

/** From when to when, by every clock that runs. */
function Times({ plan, task, placement }: Placed) {
  const { startS, eva, crew } = placement;
  const outings = useSession((state) => shownVerdict(state).outings);
  const outing = outings.find((one) => one.eva === eva && crew.includes(one.crew));
  const endS = startS + task.duration.likelyS;
  const zero = touchdownMs(plan);
  return (
    <>
      <div>
        <dt>MET</dt>
        <dd>
          <b>{clock(startS)}</b> to {clock(endS)}
        </dd>
      </div>
      {outing && (
        <div>
          <dt title="Time from egress">PET</dt>
          <dd>
            {clock(startS - outing.span.startS)} to {clock(endS - outing.span.startS)}
          </dd>
        </div>
      )}
      {zero !== null && (
        <div>
          <dt>UTC</dt>
          <dd>
            {utcClock(zero, startS)} to {utcClock(zero, endS)}
          </dd>
        </div>
      )}
    </>
  );
}

function WalkBack({ task }: { readonly task: Task }) {
  const walkback = useSession((state) => shownVerdict(state).walkbackS[task.id]);
  return (
    <div>
      <dt>Walk-back</dt>
      <dd>
        {walkback === undefined || walkback === null ? (
          "no way home known"
        ) : (
          <From of={`walk-back and rates of ${task.name}`} request={{ what: "task", task: task.id }}>
            {lasting(walkback, "up")}
          </From>
        )}
      </dd>
    </div>
  );
}

/** What the simulated days say of the task: its chance beside the wish, and its slack. */
function Simulated({ task }: { readonly task: Task }) {
  const [report] = useCalmSession((state) => [chancesNow(state)] as const);
  const one = report?.tasks.find((other) => other.task === task.id);
  if (!report || !one) return null;
  const { done, slackS } = one;
  return (
    <>
      <div>
        <dt>Done on</dt>
        <dd>
          <From of={`${task.name} done`} known={() => fromChance(report, `${task.name} done`, done)}>
            {done.words}
          </From>{" "}
          of simulated days
          {task.must && (
            <>
              ,{" "}
              <span className={`state ${WISH_STATE[standingAgainst(done, report.wish.must)]}`}>
                {wishWords(standingAgainst(done, report.wish.must), report.wish.must)}
              </span>
            </>
          )}
        </dd>
      </div>
      {slackS !== null && (
        <div>
          <dt>Slack</dt>
          <dd title="Latest start, from which every must-do task after it can still be done, less the start on each simulated day, on average. By times alone: rests to come, greatest lags and consumables are not in it.">
            {slackS >= 60 ? slackWords(slackS).replace("slack ", "") : slackWords(slackS)}
            {slackS >= 60 && (
              <span className="note"> by times alone, what is optional after it left out</span>
            )}
          </dd>
        </div>
      )}
    </>
  );
}

/** Why a task is on the bench, and the place that the packer would take at once, when there is one. */
export function OnBench({ task, reason }: { readonly task: Task; readonly reason: BenchReason | null }) {
  const { session } = useApp();
  const plan = useSession((state) => state.plan);
  const says = useSession((state) => benchSays(state, task.id));
  const isCurrent = useSession(isBenchCurrent);
  const placement = isCurrent ? (reason?.fitsAt ?? null) : null;
  return (
    <div className="task-bench">
      <p>
        <b>On the bench.</b> {says === null ? "Why is not known yet." : numberedSentence(plan, says)}
      </p>
      {placement && (
        <button type="button" onClick={() => session.place(task.id, placement)}>
          Place at {clock(placement.startS)}
          {placement.eva !== null && `, ${evaName(plan, placement.eva)}`}
        </button>
      )}
    </div>
  );
}

/** What the judge finds about the task. */
export function TaskFindings({ task }: { readonly task: Task }) {
  const findings = useCalm(useSessionList((state) => findingsOfTask(state, task.id)));
  if (findings.length === 0) return null;
  return (
    <ul className="task-findings" aria-label={`Findings on ${task.name}`}>
      {findings.map((finding, index) => (
        <li key={index}>
          <span className={`state ${finding.level}`}>{LEVEL_WORDS[finding.level]}</span> {finding.sentence}
        </li>
      ))}
    </ul>
  );
}
