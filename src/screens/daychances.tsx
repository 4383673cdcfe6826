import { useEffect, useState } from "react";
import type { ChancesReport } from "../answers/index.ts";
import { chancesStand, fromChance } from "../session/index.ts";
import type { GivenDay } from "../session/index.ts";
import {
  averageWorth,
  chanceFigure,
  chanceInterval,
  standingAgainst,
  WISH_STATE,
  wishWords,
} from "./chancewords.ts";
import { useApp, useSession } from "./context.ts";
import { From } from "./parts/from/from.tsx";

/** Chances of a day, worked out in spare time; "asked" until they are there, null where they could not be worked out. */
export function useChancesOf({ plan, schedule }: GivenDay): ChancesReport | null | "asked" {
  const { session } = useApp();
  const [found, find] = useState<{ readonly of: unknown; readonly report: ChancesReport | null } | null>(
    null,
  );
  useEffect(() => {
    const control = new AbortController();
    void session.chancesOf({ plan, schedule }, control.signal).then((report) => {
      if (!control.signal.aborted) find({ of: schedule, report });
    });
    return () => control.abort();
  }, [session, plan, schedule]);
  return found?.of === schedule ? found.report : "asked";
}

export type ChanceKind = "home" | "must" | "whole";

const NAMES: Readonly<Record<ChanceKind, string>> = {
  home: "everybody home",
  must: "every must-do done",
  whole: "nothing missed",
};

/** One chance of a day beside the wish of its plan; said to be worked out, or unknown, where it is not there. */
export function ChanceAgainstWish(props: {
  readonly report: ChancesReport | null | "asked";
  readonly kind: ChanceKind;
}) {
  const { report, kind } = props;
  if (report === "asked") return <span className="note">being worked out…</span>;
  if (report === null) return <span className="note">unknown</span>;
  const chance = report[kind];
  const wish = kind === "whole" ? null : report.wish[kind];
  const standing = wish === null ? null : standingAgainst(chance, wish);
  return (
    <>
      <From of={NAMES[kind]} known={() => fromChance(report, NAMES[kind], chance)}>
        {chanceFigure(chance)}
      </From>{" "}
      <span className="note">{chanceInterval(chance)}</span>{" "}
      {standing !== null && wish !== null && standing !== "meets" && (
        <span className={`state ${WISH_STATE[standing]}`}>{wishWords(standing, wish)}</span>
      )}
    </>
  );
}

/** The three chances of a day in words, and its worth on average; worked out for it. */
export function DayChances({ day }: { readonly day: GivenDay }) {
  return <ChancesInWords report={useChancesOf(day)} />;
}

/** The same of the day that is shown: those of the score, so that the two never differ and nothing is counted twice. */
export function ShownDayChances() {
  const { session } = useApp();
  useEffect(() => session.watchChances(), [session]);
  const report = useSession((state) => (chancesStand(state) ? (state.chances?.report ?? null) : "asked"));
  return <ChancesInWords report={report} />;
}

function ChancesInWords({ report }: { readonly report: ChancesReport | null | "asked" }) {
  return (
    <>
      {(Object.keys(NAMES) as ChanceKind[]).map((kind) => (
        <span key={kind} className="day-chance">
          {NAMES[kind]} <ChanceAgainstWish report={report} kind={kind} />
        </span>
      ))}
      {report !== "asked" && report !== null && (
        <span className="day-chance">worth {averageWorth(report)} on average</span>
      )}
    </>
  );
}
