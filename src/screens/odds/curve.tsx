import "./curve.css";
import { counted, grouped, percent } from "../../words/index.ts";
import { useEffect, useRef, useState } from "react";
import { sameSchedule } from "../../plan/index.ts";
import type { CurveReport, WishedDay } from "../../answers/index.ts";
import { chancesNow, curveIsDue, isCurveCurrent, type SessionState } from "../../session/index.ts";
import { chanceFigure, chanceInterval } from "../chancewords.ts";
import { useApp, useSession } from "../context.ts";
import { useSettled } from "../settled.ts";
import { useWidth } from "../width.ts";
import { type CurveDay, CurvePicture } from "./curvepicture.tsx";

/** How long a plan has to rest before the spare time begins, ms. */
const REST_MS = 1000;
const SECONDS = [10, 30, 60];

/** Worth on average against the chance of every must-do done: days along it to look at, keep and take. */
export function Curve() {
  const { session, view } = useApp();
  const curve = useSession((state) => state.curve);
  const plan = useSession((state) => state.plan);
  const isCurrent = useSession(isCurveCurrent);
  const due = useSession(curveIsDue);
  const rests = useSettled(plan, REST_MS) === plan;
  const [seconds, setSeconds] = useState(SECONDS[0]!);
  useEffect(() => {
    if (due && rests) void session.askCurve(seconds);
  }, [due, rests, seconds, session]);
  const report = curve?.report ?? null;
  const isCounting = curve?.running === true && curve.isStopped;
  const isAnswered = curve?.end === "answered" || curve?.end === "stopped";
  const answered = isAnswered && isCurrent ? report : null;
  useEffect(() => {
    if (answered)
      view.setState({ spoken: `The curve is worked out: ${counted(answered.days.length, "day")} along it.` });
  }, [answered, view]);
  return (
    <>
      <div className="odds-tools" role="group" aria-label="Curve">
        <label>
          Search for
          <select value={seconds} onChange={(event) => setSeconds(Number(event.target.value))}>
            {SECONDS.map((one) => (
              <option key={one} value={one}>
                {one} s
              </option>
            ))}
          </select>
        </label>
        <button
          type="button"
          aria-disabled={isCounting}
          title={isCounting ? "Stopped: what was found is being counted." : undefined}
          onClick={() => (curve?.running ? session.stopCurve() : void session.askCurve(seconds))}
        >
          {curve?.running ? "Stop" : "Work out anew"}
        </button>
        {curve?.running && !isCounting && (
          <progress value={curve.progress?.seconds ?? 0} max={curve.seconds} aria-label="Time used" />
        )}
        <State />
      </div>
      {curve?.end === "failed" && (
        <p className="state breach odds-state">The curve could not be worked out: {curve.message}.</p>
      )}
      {report && report.days.length > 0 ? (
        <Days days={together(report.days)} isCurrent={isCurrent} />
      ) : (
        <p className="empty">
          {report
            ? "No day was found on which no rule is broken and every must-do is placed."
            : "The surer every must-do is to be done, the less else there is room for. The days in between are searched for in spare time; whoever moves a task has the machine for themselves."}
        </p>
      )}
    </>
  );
}

/** What becomes of the curve. Always there, so that nothing below it moves. */
function State() {
  const curve = useSession((state) => state.curve);
  const isCurrent = useSession(isCurveCurrent);
  const packing = useSession((state) => state.run?.running ?? false);
  if (curve?.report && !isCurrent)
    return (
      <span className="state tight">
        Of the requests before{curve.running ? ", until the new one is here." : "."}
      </span>
    );
  if (curve?.running)
    return (
      <span className="note">
        {curve.isStopped ? "What was found is counted…" : "Searched for in spare time…"}
      </span>
    );
  if (packing) return <span className="note">Follows when the packer rests.</span>;
  if (curve?.end === "overtaken" && !curve.report)
    return <span className="note">Goes on when the plan rests.</span>;
  return curve?.report ? <span className="note">{reportWords(curve, curve.report)}</span> : null;
}

/** Of what a report is, and on which days it was counted where any was found. */
function reportWords(
  { end, seconds }: Pick<NonNullable<SessionState["curve"]>, "end" | "seconds">,
  { days, seconds: usedS }: CurveReport,
): string {
  const isStopped = end === "stopped";
  const of = isStopped ? `Stopped after ${Math.round(usedS)} of ${seconds} s` : "Of the plan as it stands";
  if (days.length === 0) return `${of}.`;
  return `${of}${isStopped ? ": the best until then" : ""}, counted on days that the search did not see.`;
}

/** Days that came out as the same one under several wishes stand once. */
function together(days: readonly WishedDay[]): readonly CurveDay[] {
  return days.reduce<readonly CurveDay[]>((kept, day) => {
    const same = kept.find((one) => one.caution === day.caution && sameSchedule(one.schedule, day.schedule));
    if (!same) return [...kept, { ...day, wishes: [day.wish.must] }];
    return kept.map((one) => (one === same ? { ...one, wishes: [...one.wishes, day.wish.must] } : one));
  }, []);
}

/** Of which of the chances that it stands for a day falls short, or may; null where it is sure to reach them all. */
function shortWords({ outcome, wishes, wish }: CurveDay): string | null {
  const homeShort = outcome.home.high < wish.home;
  const isShort = (must: number): boolean => homeShort || outcome.must.high < must;
  const isOpen = (must: number): boolean => outcome.must.low < must || outcome.home.low < wish.home;
  const named = (of: readonly number[], words: string): string[] => {
    if (of.length === 0) return [];
    return [wishes.length === 1 ? words : `${of.map((one) => percent(one, "given")).join(", ")} ${words}`];
  };
  const short = wishes.filter(isShort);
  const open = wishes.filter((must) => !isShort(must) && isOpen(must));
  const phrases = [...named(open, "may not be reached"), ...named(short, "not reached")];
  return phrases.length === 0 ? null : phrases.join("; ");
}

/** The days as a picture and as a table: what is chosen in one is shown in the other. */
function Days({ days, isCurrent }: { readonly days: readonly CurveDay[]; readonly isCurrent: boolean }) {
  const [chosen, choose] = useState<number | null>(null);
  const ref = useRef<HTMLDivElement>(null);
  const widthPx = Math.min(900, useWidth(ref));
  const wish = useSession((state) => state.plan.odds.wish);
  const inSight = useSession(chancesNow);
  const present = inSight !== null && inSight.days > 0 ? inSight : null;
  return (
    <div className={isCurrent ? "odds-curve" : "odds-curve older"}>
      <div ref={ref} className="curve-picture">
        {widthPx > 0 && (
          <CurvePicture
            widthPx={widthPx}
            days={days}
            wish={wish.must}
            present={present}
            chosen={chosen}
            choose={choose}
          />
        )}
      </div>
      <div className="curve-days" role="region" aria-label="Days along the curve" tabIndex={0}>
        <DayTable days={days} wish={wish.must} chosen={chosen} choose={choose} />
        <p className="note">
          Each counted on {countsWords(days)} simulated days with the crew acting by the plan’s rules and the
          caution beside it.
        </p>
      </div>
    </div>
  );
}

/** The days in rows; the chosen one is brought into view. */
function DayTable(props: {
  readonly days: readonly CurveDay[];
  readonly wish: number;
  readonly chosen: number | null;
  readonly choose: (day: number) => void;
}) {
  const { days, wish, chosen, choose } = props;
  const body = useRef<HTMLTableSectionElement>(null);
  useEffect(() => {
    if (chosen !== null) body.current?.rows[chosen]?.scrollIntoView({ block: "nearest" });
  }, [chosen]);
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">Searched for</th>
          <th scope="col">Every must-do done</th>
          <th scope="col">Everybody home</th>
          <th scope="col">Worth on average</th>
          <th scope="col">Placed</th>
          <th scope="col">Caution</th>
          <th scope="col">Day</th>
        </tr>
      </thead>
      <tbody ref={body}>
        {days.map((day, k) => (
          <DayRow key={day.wish.must} day={day} wish={wish} chosen={chosen === k} choose={() => choose(k)} />
        ))}
      </tbody>
    </table>
  );
}

function DayRow(props: {
  readonly day: CurveDay;
  readonly wish: number;
  readonly chosen: boolean;
  readonly choose: () => void;
}) {
  const { day, wish, chosen, choose } = props;
  const { must, home, meanWorth } = day.outcome;
  return (
    <tr aria-selected={chosen} onClick={choose}>
      <th scope="row">
        {day.wishes.map((one) => percent(one, "given")).join(", ")}
        {day.wishes.includes(wish) && <b className="must-count">the wish</b>}
      </th>
      <td>
        {chanceFigure(must)} <span className="note">{chanceInterval(must)}</span>{" "}
        <Short words={shortWords(day)} />
      </td>
      <td>
        {chanceFigure(home)} <span className="note">{chanceInterval(home)}</span>
      </td>
      <td>{grouped(Math.floor(meanWorth))}</td>
      <td>{counted(day.schedule.placements.length, "task")}</td>
      <td>{percent(day.caution, "given")}</td>
      <td>
        <Offers day={day} />
      </td>
    </tr>
  );
}

function Short({ words }: { readonly words: string | null }) {
  return words === null ? null : <span className="state tight">{words}</span>;
}

/** `4 000`, or `1 000 to 4 000` where there was not time for as many of each. */
function countsWords(days: readonly CurveDay[]): string {
  const counts = days.map((one) => one.days);
  const [least, most] = [Math.min(...counts), Math.max(...counts)].map(grouped);
  return least === most ? `${most}` : `${least} to ${most}`;
}

/** What can be done with a day of the curve: kept and looked at as a variant, or taken. */
function Offers({ day }: { readonly day: WishedDay }) {
  const { session, view } = useApp();
  const words = `must-do ${percent(day.wish.must, "given")}, worth ${grouped(Math.floor(day.outcome.meanWorth))}`;
  const keep = (): void => {
    const kept = session.keepCurveDay(`Curve: ${words}`, day);
    if (kept.ok) view.setState({ screen: "variants", compared: [kept.value] });
  };
  return (
    <span className="pair">
      <button type="button" aria-label={`Look at it as a variant: ${words}`} onClick={keep}>
        Look at it
      </button>
      <button
        type="button"
        aria-label={`Take it as the day: ${words}`}
        onClick={() => {
          session.takeCurveDay(day);
          view.setState({ spoken: `Taken as the day: ${words}. Undo brings the day before back.` });
        }}
      >
        Take it
      </button>
    </span>
  );
}
