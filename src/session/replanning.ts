import type { StoreApi } from "zustand/vanilla";
import type { ChancesReport, Verdict } from "../answers/index.ts";
import type { Engine } from "../engine/calls.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import type { DayStanding } from "../rehearsal/index.ts";
import { scheduleChanges } from "../words/index.ts";
import type { Session } from "./session.ts";
import { wordsOf } from "./files.ts";
import { pastLimits } from "./pastlimits.ts";
import type { JudgeFor } from "./ports.ts";
import type { Proposal, Rehearsed, RehearsalState } from "./rehearsalstate.ts";

/** A new schedule for the rest of a rehearsed day: asked for, offered, taken or left. */
export interface Replanning {
  /** Asks for a schedule of what is to come: with the fewest changes, or with the most worth. */
  anew(how: Proposal["how"]): Promise<void>;
  take(): void;
  /** Gives up what is asked for or offered. */
  drop(): void;
}

const PLAN_S = 5;
const TOO_OLD = "The new schedule is older than what has begun since. Ask for another one.";

export function replanningOf(
  session: Pick<Session, "chancesOf">,
  ports: { readonly engine: Pick<Engine, "mend" | "pack">; readonly judgeFor: JudgeFor },
  state: Pick<StoreApi<RehearsalState>, "getState" | "setState">,
  replanned: (schedule: Schedule) => void,
): Replanning {
  let current: AbortController | null = null;

  const drop = (): void => {
    current?.abort();
    current = null;
    state.setState({ planning: null, proposal: null });
  };

  return {
    drop,
    async anew(how) {
      const { day } = state.getState();
      if (!day) return;
      drop();
      const mine = new AbortController();
      current = mine;
      state.setState({ planning: how, trouble: null });
      const { rehearsal } = day;
      const { ahead, judge, keep, plan } = lookedFor(day, ports.judgeFor);
      const options = { seed: rehearsal.seed, seconds: PLAN_S, from: plan.schedule, keep };
      try {
        const answer =
          how === "mend"
            ? await ports.engine.mend(plan, { schedule: plan.schedule, ...options }, { signal: mine.signal })
            : await ports.engine.pack(plan, { ...options, aim: "wish" }, { signal: mine.signal });
        if (current !== mine) return;
        const { schedule } = answer;
        if (lacks(schedule, keep)) {
          const trouble = noneFound(judge(ahead.schedule));
          state.setState({ planning: null, trouble });
          return;
        }
        state.setState({
          planning: null,
          proposal: proposalOf(how, day, ahead, { schedule, verdict: judge(schedule) }),
        });
        const chances = await bothChances(session, ahead, schedule, mine.signal);
        const { proposal } = state.getState();
        if (current === mine && proposal && chances) state.setState({ proposal: { ...proposal, chances } });
      } catch (error) {
        if (current !== mine) return;
        state.setState({ planning: null, trouble: wordsOf(error) });
      }
    },
    take() {
      const { day, proposal } = state.getState();
      if (!day || !proposal) return;
      const lost = lacks(proposal.schedule, begun(day));
      drop();
      if (lost) return state.setState({ trouble: TOO_OLD });
      const tasks = new Set(day.plan.tasks.map((task) => task.id));
      const placements = proposal.schedule.placements.filter((one) => tasks.has(one.task));
      replanned({ placements });
    },
  };
}

/** The plan of what is to come, with suits and crew as the day goes. */
function planAhead({ standing, now }: Rehearsed): Plan {
  return { ...standing.ahead, suits: now.suits, crew: now.crew };
}

/** The rest of a day as it is held to its rules, with who judges that and what stays; and as a schedule is looked for. */
function lookedFor(day: Rehearsed, judgeFor: JudgeFor) {
  const ahead = planAhead(day);
  const judge = judgeFor(ahead);
  const keep = begunIn(ahead, day.standing.placements);
  return { ahead, judge, keep, plan: pastLimits(ahead, judge(onlyOf(ahead.schedule, keep)).findings) };
}

/** Tasks on the day that are not to come any more. */
function begunIn({ schedule }: Plan, placements: DayStanding["placements"]): readonly string[] {
  const toCome = new Set(
    placements.flatMap((placement) => (placement.state === "to come" ? [placement.task] : [])),
  );
  return schedule.placements.flatMap((one) => (toCome.has(one.task) ? [] : [one.task]));
}

function noneFound({ findings }: Verdict): string {
  const broken = findings.find((one) => one.level === "breach");
  return `No sound plan was found that keeps what has already happened. ${broken?.sentence ?? ""}`.trim();
}

/** `answer` as it is offered for the rest of `day`, whose plan from now on is `plan`. */
function proposalOf(
  how: Proposal["how"],
  day: Rehearsed,
  plan: Plan,
  { schedule, verdict }: Pick<Proposal, "schedule" | "verdict">,
): Proposal {
  return {
    how,
    schedule,
    verdict,
    changes: scheduleChanges(plan, plan.schedule, schedule),
    requestedS: day.rehearsal.nowS,
    chances: null,
    givenUp: day.plan.tasks.flatMap(({ id, must }) =>
      must && plan.tasks.every((task) => task.id !== id) ? [id] : [],
    ),
  };
}

/** The chances of the day as it would go on and of `schedule`; null where either cannot be counted. */
async function bothChances(
  session: Pick<Session, "chancesOf">,
  plan: Plan,
  schedule: Schedule,
  signal: AbortSignal,
): Promise<Proposal["chances"]> {
  const counted = (of: Schedule): Promise<ChancesReport | null> =>
    session.chancesOf({ plan, schedule: of }, signal);
  const [before, after] = await Promise.all([counted(plan.schedule), counted(schedule)]);
  return before && after ? { before, after } : null;
}

/** Tasks of the plan that have begun. */
function begun({ standing: { placements } }: Rehearsed): readonly string[] {
  return placements.flatMap(({ task, state }) => (state === "to come" ? [] : [task]));
}

/** A schedule with these tasks alone. */
function onlyOf({ placements }: Schedule, tasks: readonly string[]): Schedule {
  return { placements: placements.filter((one) => tasks.includes(one.task)) };
}

/** True when a schedule lacks one of these tasks. */
function lacks({ placements }: Schedule, tasks: readonly string[]): boolean {
  const there = new Set(placements.map((one) => one.task));
  return tasks.some((task) => !there.has(task));
}
