import { type ReactNode, useRef } from "react";
import { benchTasks, shownVerdict } from "../../session/index.ts";
import { counted } from "../../words/index.ts";
import { useAway } from "../away.ts";
import { Bench } from "../bench/bench.tsx";
import { useApp, useSession, useView } from "../context.ts";
import { Findings } from "../findings/findings.tsx";
import { Safety } from "../parts/safety.tsx";
import { DemandLine } from "./demand.tsx";
import { MoveCost } from "./cost.tsx";

const PRESSES = ["pointerdown"];

/**
 * At the right of the day, as high as it: what is in hand, the details of what is selected, what is found, what is on the bench. Where the window is
 * narrow it is a rail, and opens over the line.
 */
export function Side(props: { readonly details: ReactNode }) {
  const { view } = useApp();
  const open = useView((state) => state.sideOpen);
  const isInHand = useView((state) => state.inHand !== null);
  const details = useView((state) => state.details);
  const ref = useRef<HTMLDivElement>(null);
  const close = useRef((): void => view.setState({ sideOpen: false })).current;
  useAway(ref, open && !isInHand, close, PRESSES);
  return (
    <div
      ref={ref}
      className={open ? "side-place open" : "side-place"}
      data-held={isInHand}
      onKeyDown={(event) => {
        const rail = ref.current?.querySelector<HTMLElement>(".rail button");
        if (event.key !== "Escape" || !open || event.defaultPrevented || !rail?.checkVisibility()) return;
        close();
        rail.focus();
        event.stopPropagation();
      }}
    >
      <Rail />
      <section className="side" aria-label="Beside the line">
        {isInHand ? <MoveCost /> : details && props.details}
        <DemandLine />
        <Findings />
        <Bench />
        <Safety />
      </section>
    </div>
  );
}

/** What the side holds, in so many words; a press opens it, and what is dragged here goes to the bench. */
function Rail() {
  const { view } = useApp();
  const open = useView((state) => state.sideOpen);
  const benched = useSession((state) => benchTasks(state).length);
  const breaches = useSession((state) => shownVerdict(state).score.breaches);
  const tight = useSession(
    (state) => shownVerdict(state).findings.filter((finding) => finding.level === "tight").length,
  );
  const turn = (): void => view.setState({ sideOpen: !open });
  return (
    <div className="rail">
      <button type="button" aria-expanded={open} className={breaches > 0 ? "breach" : ""} onClick={turn}>
        <b>Findings</b> {breaches > 0 ? counted(breaches, "breach", "breaches") : `${tight} tight`}
      </button>
      <button type="button" aria-expanded={open} data-bench onClick={turn}>
        <b>Bench</b> {counted(benched, "task")}
      </button>
      <Safety />
    </div>
  );
}
