import { useState } from "react";
import type { Chance, ChancesReport, TaskChance } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { chancesStand } from "../../session/index.ts";
import { taskName } from "../../words/index.ts";
import {
  belowWords,
  chanceFigure,
  type Shortfall,
  shortfallOf,
  taskShortfall,
  WISH_STATE,
  wishWords,
} from "../chancewords.ts";
import { useAround, useDesk } from "../context.ts";
import { useDay } from "../day/around.ts";
import { useCalm } from "../settled.ts";

/** Must-do tasks that are shown before all are asked for. */
const FEW = 2;

/** What the simulated days find: a chance below what the plan wants of it, and each must-do task that is. */
export function BelowWish() {
  const plan = useDesk((state) => state.plan);
  const chances = useCalm(useDesk((state) => state.chances));
  const current = useDesk(chancesStand);
  const packing = useDesk((state) => state.plan.schedule.placements.length > 0);
  const [all, setAll] = useState(false);
  const report = packing ? (chances?.report ?? null) : null;
  if (!report) return null;
  const days = daysBelow(report);
  const tasks = report.tasks.filter((one) => taskShortfall(one, report) !== null);
  if (days.length === 0 && tasks.length === 0) return null;
  const inOrder = tasks.toSorted((a, b) => a.done.share - b.done.share);
  const shown = all ? inOrder : inOrder.slice(0, FEW);
  return (
    <section className="spoils" aria-label="What spoils the day">
      <header className="part-head">
        <h2>What spoils the day</h2>
        <span className="note">{current ? `of ${report.days} simulated` : "worked out again…"}</span>
      </header>
      <ol className="finding-list below-wish" aria-label="Below the wish" data-current={current}>
        {days.map(({ shortfall, sentence }) => (
          <li key={sentence}>
            <p className="finding">
              <StateOf shortfall={shortfall} />
              <span className="finding-sentence">{sentence}</span>
            </p>
          </li>
        ))}
        {shown.map((one) => (
          <TaskBelow key={one.task} plan={plan} report={report} one={one} />
        ))}
      </ol>
      {inOrder.length > FEW && (
        <button type="button" className="quiet more" aria-expanded={all} onClick={() => setAll(!all)}>
          {all ? "Fewer" : `${inOrder.length - FEW} more`}
        </button>
      )}
    </section>
  );
}

/** How sure it is: what only may be below is not said to be. */
function StateOf({ shortfall }: { readonly shortfall: Shortfall }) {
  const words = shortfall === "below" ? "Below wish" : "May be below";
  return <span className={`state ${WISH_STATE[shortfall]}`}>{words}</span>;
}

interface DayBelow {
  readonly shortfall: Shortfall;
  readonly sentence: string;
}

/** A sentence for each chance of the day that is, or may be, below its wish. */
function daysBelow({ home, must, wish, days, mustOnBench }: ChancesReport): readonly DayBelow[] {
  const said = (name: string, chance: Chance, wanted: number): readonly DayBelow[] => {
    const shortfall = shortfallOf(chance, wanted);
    if (shortfall === null) return [];
    const words = wishWords(shortfall, wanted);
    return [
      { shortfall, sentence: `${name} on ${chanceFigure(chance)} of ${days} simulated days, ${words}.` },
    ];
  };
  return [
    ...said("Everybody is home inside every limit", home, wish.home),
    ...(mustOnBench.length > 0 ? [] : said("Every must-do task is done", must, wish.must)),
  ];
}

function TaskBelow(props: { readonly plan: Plan; readonly report: ChancesReport; readonly one: TaskChance }) {
  const { plan, report, one } = props;
  const { desk, look } = useAround();
  const { windows } = useDay();
  const shortfall = taskShortfall(one, report);
  const sentence = `${taskName(plan, one.task)} is ${belowWords(one, report)}${one.reason === null ? "" : `; missed mostly because ${one.reason}`}.`;
  const go = (): void => {
    desk.select([one.task]);
    const spot = plan.schedule.placements.find(({ task }) => task === one.task);
    if (spot) windows.reveal({ startS: spot.startS, endS: spot.startS + 600 });
    look.setState({ spoken: sentence });
  };
  return (
    <li>
      <button type="button" className="finding" onClick={go}>
        {shortfall !== null && <StateOf shortfall={shortfall} />}
        <span className="finding-sentence">{sentence}</span>
      </button>
    </li>
  );
}
