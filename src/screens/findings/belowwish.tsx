import type { ChancesReport, TaskChance } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { chancesStand } from "../../session/index.ts";
import {
  belowWords,
  chanceFigure,
  standingAgainst,
  WISH_STATE,
  type WishStanding,
  wishWords,
} from "../chancewords.ts";
import { useAround, useDesk } from "../context.ts";
import { useDay } from "../day/around.ts";
import { useCalm } from "../settled.ts";

/** What the simulated days find: a chance below what the plan wants of it, and each must-do task that is. */
export function BelowWish() {
  const plan = useDesk((state) => state.plan);
  const chances = useCalm(useDesk((state) => state.chances));
  const current = useDesk(chancesStand);
  const packing = useDesk((state) => state.plan.schedule.placements.length > 0);
  const report = packing ? (chances?.report ?? null) : null;
  if (!report) return null;
  const days = daysBelow(report);
  const tasks = report.tasks.filter((one) => belowWords(one, report) !== null);
  if (days.length === 0 && tasks.length === 0) return null;
  return (
    <ol className="finding-list below-wish" aria-label="Below the wish" data-current={current}>
      {days.map(({ standing, sentence }) => (
        <li key={sentence}>
          <p className="finding">
            <StateOf standing={standing} />
            <span className="finding-rule narrow">Chances</span>
            {!current && <span className="finding-new">worked out again…</span>}
            <span className="finding-sentence">{sentence}</span>
          </p>
        </li>
      ))}
      {tasks
        .toSorted((a, b) => a.done.share - b.done.share)
        .map((one) => (
          <TaskBelow key={one.task} plan={plan} report={report} one={one} />
        ))}
    </ol>
  );
}

/** How sure it is: what only may be below is not said to be. */
function StateOf({ standing }: { readonly standing: WishStanding }) {
  const words = standing === "below" ? "Below wish" : "May be below";
  return <span className={`state ${WISH_STATE[standing]}`}>{words}</span>;
}

interface DayBelow {
  readonly standing: WishStanding;
  readonly sentence: string;
}

/** A sentence for each chance of the day that is, or may be, below its wish. */
function daysBelow({ home, must, wish, days, mustOnBench }: ChancesReport): readonly DayBelow[] {
  const said = (name: string, standing: WishStanding, figure: string, of: number): readonly DayBelow[] =>
    standing === "below" || standing === "may be below"
      ? [
          {
            standing,
            sentence: `${name} on ${figure} of ${days} simulated days, ${wishWords(standing, of)}.`,
          },
        ]
      : [];
  return [
    ...said(
      "Everybody is home inside every limit",
      standingAgainst(home, wish.home),
      chanceFigure(home),
      wish.home,
    ),
    ...(mustOnBench.length > 0
      ? []
      : said("Every must-do task is done", standingAgainst(must, wish.must), chanceFigure(must), wish.must)),
  ];
}

function TaskBelow(props: { readonly plan: Plan; readonly report: ChancesReport; readonly one: TaskChance }) {
  const { plan, report, one } = props;
  const { desk, look } = useAround();
  const { windows } = useDay();
  const name = plan.tasks.find(({ id }) => id === one.task)?.name ?? one.task;
  const sentence = `${name} is ${belowWords(one, report)}${one.reason === null ? "" : `; missed mostly because ${one.reason}`}.`;
  const go = (): void => {
    desk.select([one.task]);
    const spot = plan.schedule.placements.find(({ task }) => task === one.task);
    if (spot) windows.reveal({ startS: spot.startS, endS: spot.startS + 600 });
    look.setState({ spoken: sentence });
  };
  return (
    <li>
      <button type="button" className="finding" onClick={go}>
        <StateOf standing={standingAgainst(one.done, report.wish.must)} />
        <span className="finding-rule narrow">Must-do</span>
        <span className="finding-sentence">{sentence}</span>
      </button>
    </li>
  );
}
