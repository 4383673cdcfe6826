import type { SiteCourse } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { touchdownMs, utcDay } from "../../words/index.ts";
import { useApp, useView } from "../context.ts";
import { wholeMinute } from "../wholeminute.ts";
import type { SiteCommands } from "./commands.ts";
import { EvaChoice } from "./evachoice.tsx";
import { TimeStrip } from "./timestrip.tsx";
import { whereWords } from "./wherewords.ts";

const MINUTE_S = 60;
const NONE: readonly never[] = [];

/** The minute: a slider under the day of each crew member, buttons for small steps, and which EVA's ways are shown. */
export function TimeBar(props: {
  readonly plan: Plan;
  /** Null while they are not worked out yet. */
  readonly courses: readonly SiteCourse[] | null;
  readonly minuteS: number;
  readonly widthPx: number;
  readonly time: (atS: number) => string;
  readonly commands: SiteCommands;
}) {
  const { plan, minuteS, widthPx, time, commands } = props;
  const courses = props.courses ?? NONE;
  const { view } = useApp();
  const clock = useView((state) => state.clock);
  const lengthS = plan.stay.lengthS;
  const set = (atS: number): void => {
    const whole = Math.min(lengthS, Math.max(0, wholeMinute(atS)));
    view.setState({ cursorS: whole, minuteS: whole });
  };
  const touchdown = touchdownMs(plan);
  const where = props.courses
    ? plan.crew.map((member) => `${member.name} ${whereWords(plan, courses, member.id, minuteS)}`).join("; ")
    : "who is where is being worked out…";
  return (
    <section className="site-time" aria-label="Minute">
      <div className="site-time-row">
        <MinuteSteps onStep={commands.minutes} />
        <p className="site-minute">
          <b>{time(minuteS)}</b>{" "}
          {clock === "utc" && touchdown !== null ? `UTC, ${utcDay(touchdown, minuteS)}` : "MET"}
        </p>
        <p className="site-where" aria-live="off">
          {where}
        </p>
        <EvaChoice plan={plan} courses={courses} minuteS={minuteS} onMinute={set} />
      </div>
      <TimeStrip plan={plan} courses={courses} minuteS={minuteS} widthPx={widthPx} onMinute={set} />
      <input
        type="range"
        aria-label="Minute of the stay"
        aria-valuetext={`${time(minuteS)}; ${where}`}
        min={0}
        max={lengthS}
        step={MINUTE_S}
        value={minuteS}
        onChange={(event) => set(Number(event.target.value))}
      />
    </section>
  );
}

/** Buttons that move the minute by a little. */
function MinuteSteps({ onStep }: { readonly onStep: (by: number) => void }) {
  return (
    <div className="pair" role="group" aria-label="Move the minute">
      {[-10, -1, 1, 10].map((by) => (
        <button
          key={by}
          type="button"
          aria-label={`${Math.abs(by)} min ${by < 0 ? "earlier" : "later"}`}
          onClick={() => onStep(by)}
        >
          {by < 0 ? "−" : "+"}
          {Math.abs(by)}
        </button>
      ))}
    </div>
  );
}
