import type { ReactNode } from "react";
import type { MarginTrack } from "../../answers/index.ts";
import {
  clockText,
  crewName,
  evaName,
  grouped,
  metres,
  metresMore,
  percent,
  shift,
  signed,
  type Dial,
} from "../../words/index.ts";
import { averageWorth } from "../chancewords.ts";
import { ChanceAgainstWish, type ChanceKind, useChancesOf } from "../daychances.tsx";
import { useDial } from "../dial.ts";
import { From } from "../parts/from/from.tsx";
import { Assumed } from "../parts/assumed.tsx";
import { consumableWords, isWorstAssumed } from "../words.ts";
import type { Compared } from "./days.ts";

/** A figure of a day: what is shown, and the number that is held against the first day's. */
interface Measure {
  readonly name: string;
  readonly shown: (day: Compared) => ReactNode;
  readonly value: (day: Compared) => number | null;
  readonly better: "more" | "less";
  /** The difference in words, given as it is: negative when less. */
  readonly change: (by: number) => string;
}

/** Days side by side: each figure with what it gains and costs against the day as it stands. */
export function Comparison({ days }: { readonly days: readonly Compared[] }) {
  const dial = useDial();
  const first = days[0];
  if (!first) return null;
  return (
    <div className="variants-comparison" role="region" aria-label="Comparison" tabIndex={0}>
      <table>
        <caption className="unseen">Days side by side</caption>
        <thead>
          <tr>
            <td />
            {days.map((day) => (
              <th key={day.id} scope="col">
                {day.name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {CHANCES.map((chance) => (
            <ChanceRow key={chance.name} {...chance} days={days} />
          ))}
          {[...scores(dial), ...margins(days)].map((measure) => (
            <tr key={measure.name}>
              <th scope="row">{measure.name}</th>
              {days.map((day) => (
                <td key={day.id}>
                  {measure.shown(day)}
                  <Change measure={measure} first={first} day={day} />
                </td>
              ))}
            </tr>
          ))}
          <tr>
            <th scope="row">Gives up</th>
            {days.map((day) => (
              <td key={day.id} className="given-up">
                {day.givesUp === null
                  ? "nothing"
                  : `${day.givesUp.sentence}${day.givesUp.owner === null ? "" : ` Asks ${day.givesUp.owner}.`}`}
              </td>
            ))}
          </tr>
        </tbody>
      </table>
    </div>
  );
}

function scores(dial: Dial): readonly Measure[] {
  return [
    {
      name: "Breaches",
      shown: ({ verdict }) =>
        verdict.score.breaches === 0 ? (
          "none"
        ) : (
          <span className="state breach">{verdict.score.breaches}</span>
        ),
      value: ({ verdict }) => verdict.score.breaches,
      better: "less",
      change: signed,
    },
    {
      name: "Must-do placed",
      shown: ({ verdict }) => `${verdict.mustPlaced} of ${verdict.mustTotal}`,
      value: ({ verdict }) => verdict.mustPlaced,
      better: "more",
      change: signed,
    },
    {
      name: "Worth",
      shown: (day) => (
        <From of={`worth, ${day.name}`} request={{ what: "worth" }} day={day}>
          {grouped(day.verdict.score.worth)}
        </From>
      ),
      value: ({ verdict }) => verdict.score.worth,
      better: "more",
      change: signed,
    },
    {
      name: "Tasks placed",
      shown: ({ verdict, plan }) => `${verdict.placed} of ${plan.tasks.length}`,
      value: ({ verdict }) => verdict.placed,
      better: "more",
      change: signed,
    },
    {
      name: "Walked, all crew",
      shown: (day) => (
        <From of={`walked, ${day.name}`} request={{ what: "walked" }} day={day}>
          {metres(day.verdict.score.walkM, "up")}
        </From>
      ),
      value: ({ verdict }) => verdict.score.walkM,
      better: "less",
      change: metresMore,
    },
    {
      name: "Finish",
      shown: ({ verdict }) => clockText(dial, verdict.score.finishS),
      value: ({ verdict }) => verdict.score.finishS,
      better: "less",
      change: (by) => shift(by, "up"),
    },
  ];
}

/** The worst margin of every suit on every EVA that one of the days has, with the stock that it is of. */
function margins(days: readonly Compared[]): readonly Measure[] {
  const plan = days[0]!.plan;
  const outings = plan.evas.flatMap((eva) =>
    plan.crew
      .filter((member) => days.some((day) => worstOf(day, eva.id, member.id) !== null))
      .map((member) => ({ eva: eva.id, crew: member.id })),
  );
  return outings.map(({ eva, crew }) => ({
    name: `${crewName(plan, crew)}, ${evaName(plan, eva)}: worst margin`,
    shown: (day) => {
      const worst = worstOf(day, eva, crew);
      if (!worst) return "stays in";
      return (
        <>
          <From
            of={`worst margin of ${crewName(plan, crew)} on ${evaName(plan, eva)}, ${day.name}`}
            request={{ what: "left", eva, crew, consumable: worst.consumable, atS: null }}
            day={day}
          >
            {percent(worst.margin, "down")}
          </From>
          <Assumed when={isAssumedOn(day, eva, crew)} />{" "}
          <span className="note">{consumableWords(worst.consumable)}</span>
        </>
      );
    },
    value: (day) => worstOf(day, eva, crew)?.margin ?? null,
    better: "more",
    change: pointsLost,
  }));
}

/**
 * A change of a margin in points of whole percent, away from zero where it is worse: never less lost than it is. What is less than one
 * has no number: beside two margins that read alike it would look wrong.
 */
export function pointsLost(by: number): string {
  const whole = Math.floor(Math.round(by * 1e7) / 1e5);
  if (by < 0 && by > -0.01) return "<1 pt";
  return `${signed(whole)} ${Math.abs(whole) === 1 ? "pt" : "pts"}`;
}

/** Whether any margin of somebody on an EVA rests on what nobody has given. */
function isAssumedOn({ plan, verdict }: Compared, eva: string, crew: string): boolean {
  return isWorstAssumed(plan, {
    margins: verdict.margins.filter((track) => track.eva === eva && track.crew === crew),
  });
}

function worstOf({ verdict }: Compared, eva: string, crew: string): MarginTrack | null {
  const tracks = verdict.margins.filter((track) => track.eva === eva && track.crew === crew);
  return tracks.length === 0 ? null : tracks.reduce((a, b) => (b.margin < a.margin ? b : a));
}

function Change(props: { readonly measure: Measure; readonly first: Compared; readonly day: Compared }) {
  const { measure, first, day } = props;
  if (day === first) return null;
  const now = measure.value(day);
  const before = measure.value(first);
  if (now === null || before === null || now === before) return null;
  const better = measure.better === "more" ? now > before : now < before;
  const words = measure.change(now - before);
  if (words.startsWith("0")) return null;
  return (
    <span className={better ? "variants-change better" : "variants-change worse"}>
      {words} {better ? "better" : "worse"}
    </span>
  );
}

/** A chance of a day, worked out in spare time by the same rules and on as many days as the one in the score. */
function ChanceRow({ name, kind, days }: ChanceMeasure & { readonly days: readonly Compared[] }) {
  return (
    <tr>
      <th scope="row">{name}</th>
      {days.map((day) => (
        <td key={day.id}>
          <DayChance day={day} kind={kind} />
        </td>
      ))}
    </tr>
  );
}

interface ChanceMeasure {
  readonly name: string;
  readonly kind: ChanceKind | "worth";
}

const CHANCES: readonly ChanceMeasure[] = [
  { name: "Everybody home", kind: "home" },
  { name: "Every must-do done", kind: "must" },
  { name: "Nothing missed", kind: "whole" },
  { name: "Average worth", kind: "worth" },
];

function DayChance({ day, kind }: { readonly day: Compared; readonly kind: ChanceMeasure["kind"] }) {
  const report = useChancesOf(day);
  if (kind !== "worth") return <ChanceAgainstWish report={report} kind={kind} />;
  if (report === "asked") return <span className="note">being worked out…</span>;
  return report === null ? <span className="note">unknown</span> : averageWorth(report);
}
