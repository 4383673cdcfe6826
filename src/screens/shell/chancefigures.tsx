import { useEffect } from "react";
import type { Chance, ChancesReport } from "../../answers/index.ts";
import { percent } from "../../words/index.ts";
import { chanceChange, chancesStand, fromChance } from "../../session/index.ts";
import { chanceFigure, chanceInterval, standingAgainst, WISH_STATE, wishWords } from "../chancewords.ts";
import { useApp, useSession } from "../context.ts";
import { useCalmSession } from "../settled.ts";
import { From } from "../parts/from/from.tsx";
import { ScoreChange } from "../parts/scorefigure.tsx";

/**
 * The three chances of the shown day, each with what the plan wants of it. Kept up with every change; what is not yet of the
 * shown day is faint and says so.
 */
export function ChanceFigures() {
  const { session } = useApp();
  useEffect(() => session.watchChances(), [session]);
  const nothing = useSession(({ plan }) => plan.schedule.placements.length === 0);
  const wish = useSession(({ plan }) => plan.odds.wish);
  const [report, current, change] = useCalmSession(
    (state) => [state.chances?.report ?? null, chancesStand(state), chanceChange(state)] as const,
  );
  const known = nothing ? null : report;
  const again = nothing || current ? null : report ? "worked out again…" : "being worked out…";
  const instead = nothing ? "nothing placed" : current && !report ? "unknown" : null;
  return (
    <>
      <ChanceFigure
        name="everybody home"
        report={known}
        of={({ home }) => home}
        wish={wish.home}
        change={change?.home ?? 0}
        again={again}
        instead={instead}
      />
      <ChanceFigure
        name="every must-do done"
        report={known}
        of={({ must }) => must}
        wish={wish.must}
        change={change?.must ?? 0}
        again={again}
        instead={instead}
      />
      <ChanceFigure
        name="nothing missed"
        report={known}
        of={({ whole }) => whole}
        wish={null}
        change={change?.whole ?? 0}
        again={again}
        instead={instead}
      />
    </>
  );
}

function ChanceFigure(props: {
  readonly name: string;
  /** The chances worked out last; null where there are none. */
  readonly report: ChancesReport | null;
  readonly of: (report: ChancesReport) => Chance;
  readonly wish: number | null;
  /** Against the day before, percentage points. */
  readonly change: number;
  /** Why the figure is not to be relied on yet; null when it is of the shown day. */
  readonly again: string | null;
  /** What is said where there is no figure and none to come. */
  readonly instead: string | null;
}) {
  const { name, report, of, wish, change, again, instead } = props;
  const chance = report && of(report);
  const standing = chance === null || wish === null ? null : standingAgainst(chance, wish);
  const shown = standing === null ? "plain" : WISH_STATE[standing];
  const beside =
    wish === null
      ? report && crewShort(report)
      : wishWords(standing ?? "open", wish).replace("the wish of", "wish");
  const interval = chance && chanceInterval(chance);
  return (
    <div
      role="group"
      aria-label={name}
      title={[interval, beside].filter(Boolean).join(", ") || undefined}
      className={`score-figure chance-figure ${shown === "good" ? "fine" : shown}`}
      data-current={again === null}
      data-days={report?.days}
    >
      <span className="figure">
        {chance && report ? (
          <>
            <From of={name} known={() => fromChance(report, name, chance)}>
              {chanceFigure(chance)}
            </From>
            <ScoreChange by={change} worse={change < 0} />
          </>
        ) : (
          "–"
        )}
        {interval && change === 0 && <span className="score-more"> {interval}</span>}
      </span>
      <span className="score-name">{name}</span>
      <span className="score-again">{again}</span>
      <span className="unseen">{instead ?? beside}</span>
      {chance && <ChanceBar chance={chance} wish={wish} />}
    </div>
  );
}

/** From 0 to 100 %: what is sure, where the chance may lie, and the wish as a tick. */
function ChanceBar({ chance, wish }: { readonly chance: Chance; readonly wish: number | null }) {
  const along = (share: number): string => `${share * 100}%`;
  return (
    <span className="chance-bar" aria-hidden="true">
      <span className="chance-bar-low" style={{ width: along(chance.low) }} />
      <span
        className="chance-bar-open"
        style={{ left: along(chance.low), width: along(chance.high - chance.low) }}
      />
      {wish !== null && <span className="chance-bar-wish" style={{ left: along(wish) }} />}
    </span>
  );
}

/** How the crew acts, in a few words; all of it is said when the figure is asked. */
function crewShort({ crew }: ChancesReport): string {
  if (!crew.leavesOut) return "crew carries on regardless";
  return `crew acts, caution ${percent(crew.caution, "given")}`;
}
