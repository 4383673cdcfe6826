import { useEffect, useState } from "react";
import { oddsAreStale, type OddsChoice, type OddsWork, placedOn, PRESENT } from "../../session/index.ts";
import { counted } from "../../words/index.ts";
import { useApp, useSession } from "../context.ts";
import { FIRST_CHOICE } from "./oddschoice.ts";
import { Report } from "./oddsreport.tsx";
import { OddsTools } from "./oddstools.tsx";
import { useOdds } from "./useodds.ts";

/** Simulated days of the open day or of a variant: worked out when they are looked at, with other settings when asked. */
export function OddsPart() {
  const variants = useSession((state) => state.plan.variants);
  const [wanted, setWanted] = useState(PRESENT);
  const which = variants.some((one) => one.id === wanted) ? wanted : PRESENT;
  const work = useSession((state) => state.odds.get(which) ?? null);
  const [choice, setChoice] = useState<OddsChoice>(work?.options ?? FIRST_CHOICE);
  const nothing = useSession((state) => placedOn(state, which) === 0);
  const stale = useSession((state) => oddsAreStale(state, which));
  useOdds(which, choice);
  useSpoken(work, stale);

  return (
    <>
      <OddsTools {...{ which, work, stale, nothing, choice }} onDay={setWanted} onChoice={setChoice} />
      {work?.end === "failed" && (
        <p className="state breach odds-state">The odds could not be worked out: {work.message}.</p>
      )}
      {work?.report && work.reported ? (
        <Report
          plan={work.reported.plan}
          report={work.report}
          stale={stale}
          running={work.running}
          open={which === PRESENT && !stale}
        />
      ) : (
        <p className="empty">
          {nothing
            ? "Nothing is placed: pack the day first."
            : "Each simulated day draws a duration for every task between its low and its high, and the crew plays it by fixed rules."}
        </p>
      )}
    </>
  );
}

/** Says the outcome once, when a run has ended; nothing of an older day. */
function useSpoken(work: OddsWork | null, stale: boolean): void {
  const { view } = useApp();
  const announced = work && !work.running && !stale && work.end === "answered" ? work.report : null;
  useEffect(() => {
    if (!announced) return;
    view.setState({
      spoken:
        announced.unplayed.length > 0
          ? "No chance of this day is known."
          : `Of ${counted(announced.days, "simulated day")}, everybody is home in ${announced.home.words}, every must-do done in ${announced.must.words}, nothing missed in ${announced.whole.words}.`,
    });
  }, [announced, view]);
}
