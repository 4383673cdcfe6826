import type { SiteCourse } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { evaName } from "../../words/index.ts";
import { useSite, useSiteView } from "./context.ts";
import { ALL_EVAS } from "./siteviewstate.ts";

/** Which EVA's ways are shown; one that is not under way takes the minute to its egress. */
export function EvaChoice(props: {
  readonly plan: Plan;
  readonly courses: readonly SiteCourse[];
  readonly minuteS: number;
  readonly onMinute: (atS: number) => void;
}) {
  const { plan, courses, minuteS, onMinute } = props;
  const { siteView } = useSite();
  const shown = useSiteView((state) => state.eva);
  const choose = (eva: string): void => siteView.setState({ eva: shown === eva ? null : eva });
  return (
    <div className="pair" role="group" aria-label="Ways of">
      {[...new Set(courses.map((one) => one.eva))].map((eva) => (
        <button
          key={eva}
          type="button"
          title={evaName(plan, eva)}
          aria-pressed={shown === eva}
          onClick={() => {
            choose(eva);
            const { startS, endS } = spanOf(courses, eva);
            if (shown !== eva && Number.isFinite(startS) && (minuteS < startS || minuteS > endS))
              onMinute(startS);
          }}
        >
          {evaName(plan, eva)}
        </button>
      ))}
      <button type="button" aria-pressed={shown === ALL_EVAS} onClick={() => choose(ALL_EVAS)}>
        All EVAs
      </button>
    </div>
  );
}

/** From the first egress of an EVA to its last ingress; infinite where nobody goes out on it. */
function spanOf(courses: readonly SiteCourse[], eva: string) {
  const own = courses.filter((one) => one.eva === eva).map(({ legs }) => legs);
  return {
    startS: Math.min(...own.map((legs) => legs[0]?.startS ?? Infinity)),
    endS: Math.max(...own.map((legs) => legs.at(-1)?.endS ?? -Infinity)),
  };
}
