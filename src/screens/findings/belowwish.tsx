import { memo, useState } from "react";
import type { Chance, ChancesReport, TaskChance } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { chancesStand } from "../../session/index.ts";
import { counted, grouped, numberedTask } from "../../words/index.ts";
import {
  belowWords,
  chanceFigure,
  type Shortfall,
  shortfallOf,
  taskShortfall,
  WISH_STATE,
  wishWords,
} from "../chancewords.ts";
import { useApp, useSession } from "../context.ts";
import { useDay } from "../day/context.ts";
import { useMatching } from "../media.ts";
import { Prose } from "../parts/prose.tsx";
import { useCalmSession } from "../settled.ts";

/**
 * Must-do tasks that are shown before all are asked for; where the window is low, so that whole rows have room, one, or none where the
 * day's own chances stand there.
 */
const FEW = 2;
const LOW = "(max-height: 800px)";

/** What the simulated days find: a chance below what the plan wants of it, and each must-do task that is. */
export const BelowWish = memo(function BelowWish() {
  const plan = useSession((state) => state.plan);
  const [chances, current] = useCalmSession((state) => [state.chances, chancesStand(state)] as const);
  const packing = useSession((state) => state.plan.schedule.placements.length > 0);
  const [all, setAll] = useState(false);
  const low = useMatching(LOW);
  const report = packing ? (chances?.report ?? null) : null;
  if (!report) return null;
  const days = daysBelow(report);
  const tasks = report.tasks.filter((one) => taskShortfall(one, report) !== null);
  if (days.length === 0 && tasks.length === 0) return null;
  const few = !low ? FEW : days.length > 0 ? 0 : 1;
  const inOrder = tasks.toSorted((a, b) => a.done.share - b.done.share);
  const shown = all ? inOrder : inOrder.slice(0, few);
  return (
    <section className="spoils" aria-label="What spoils the day">
      <header className="part-head">
        <h2>What spoils the day</h2>
        <span className="note">{current ? `of ${grouped(report.days)} simulated` : "worked out again…"}</span>
      </header>
      <ol className="finding-list below-wish" aria-label="Below the wish" data-current={current}>
        {days.map((one) => (
          <li key={one.what}>
            <p className="rule-row">
              <BelowRow {...one} />
            </p>
          </li>
        ))}
        {shown.map((one) => (
          <TaskBelow key={one.task} plan={plan} report={report} one={one} />
        ))}
      </ol>
      {inOrder.length > few && (
        <button type="button" className="quiet more" aria-expanded={all} onClick={() => setAll(!all)}>
          {all
            ? "Fewer"
            : few === 0
              ? counted(inOrder.length, "must-do task")
              : `${inOrder.length - few} more`}
        </button>
      )}
    </section>
  );
});

/** One thing that falls short: what, how it stands against the wish and why, and on how many of the days it came. */
interface Below {
  readonly shortfall: Shortfall;
  readonly what: string;
  readonly about: string;
  readonly chance: Chance;
}

function BelowRow({ shortfall, what, about, chance }: Below) {
  const state = WISH_STATE[shortfall];
  return (
    <>
      <span className={`rule-mark ${state}`}>{shortfall === "below" ? "!" : "?"}</span>
      <span className="rule-words">
        <b>{what}</b>
      </span>
      <span className="rule-about">
        <Prose words={about} />
      </span>
      <span className="rule-figure">
        <b>{chanceFigure(chance)}</b> <span>of days</span>
      </span>
    </>
  );
}

/** Each chance of the day that is, or may be, below its wish. */
function daysBelow({ home, must, wish, mustOnBench }: ChancesReport): readonly Below[] {
  const below = (what: string, chance: Chance, wanted: number): readonly Below[] => {
    const shortfall = shortfallOf(chance, wanted);
    return shortfall === null ? [] : [{ shortfall, what, about: wishWords(shortfall, wanted), chance }];
  };
  return [
    ...below("Everybody home inside every limit", home, wish.home),
    ...(mustOnBench.length > 0 ? [] : below("Every must-do task done", must, wish.must)),
  ];
}

function TaskBelow(props: { readonly plan: Plan; readonly report: ChancesReport; readonly one: TaskChance }) {
  const { plan, report, one } = props;
  const { session, view } = useApp();
  const { windows } = useDay();
  const shortfall = taskShortfall(one, report);
  const sentence = `${numberedTask(plan, one.task)} is ${belowWords(one, report)}${one.reason === null ? "" : `; missed mostly because ${one.reason}`}.`;
  const go = (): void => {
    session.select([one.task]);
    const placement = plan.schedule.placements.find(({ task }) => task === one.task);
    if (placement) windows.reveal({ startS: placement.startS, endS: placement.startS + 600 });
    view.setState({ spoken: sentence });
  };
  return (
    <li>
      <button type="button" className="rule-row" title={sentence} onClick={go}>
        {shortfall !== null && (
          <BelowRow
            shortfall={shortfall}
            what={numberedTask(plan, one.task)}
            about={`${wishWords(shortfall, report.wish.must)}${one.reason === null ? "" : `, mostly because ${one.reason}`}`}
            chance={one.done}
          />
        )}
      </button>
    </li>
  );
}
