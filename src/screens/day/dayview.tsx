import { type ReactNode, useEffect, useMemo } from "react";
import { useApp, useSession } from "../context.ts";
import { Board } from "./line/board.tsx";
import { useLineOnPage } from "./line/theline.ts";
import { Chosen } from "./chosen.tsx";
import { type Day, DayContext } from "./context.ts";
import { dayKeys } from "./daykeys.ts";
import { groundOf } from "./ground.ts";
import { dayGesture } from "./gesture.ts";
import { lineWork } from "./linework.ts";
import { PinnedBox } from "./pinned.tsx";
import { Readout } from "./readout.tsx";
import { useMapBeside } from "./mapbeside.ts";
import { Side } from "./side.tsx";
import { splitWork } from "./splitwork.ts";
import { windowing } from "./windowing.ts";

/** The day: lanes, margins under the same axis, one line to read what is pointed at, the map where there is room, and the side. */
export function DayView(props: { readonly details: ReactNode; readonly map: ReactNode }) {
  const { session, view, walkS } = useApp();
  const onPage = useLineOnPage();
  const { stage, latest } = onPage;
  const beside = useMapBeside();
  const windows = useMemo(
    () =>
      windowing(
        view,
        () => session.state.getState().plan,
        () => session.state.getState().verdict,
        () => latest.current?.scale.widthPx,
      ),
    [session, view, latest],
  );
  const gesture = useMemo(() => {
    const ground = () => groundOf(stage.current, latest.current);
    return dayGesture({ session, view, ground, windows, walkS });
  }, [session, view, windows, walkS, stage, latest]);
  useEffect(() => gesture.listen(), [gesture]);
  const evas = useSession((state) => state.plan.evas);
  useEffect(
    () => session.commands.add(lineWork(session, view, gesture, windows)),
    // The commands name the plan's EVAs.
    [session, view, gesture, windows, evas],
  );
  useEffect(() => session.commands.add(splitWork(session, view)), [session, view]);
  useEffect(
    () => dayKeys({ session, view, gesture, windows, layout: () => latest.current?.layout ?? null }),
    [session, view, gesture, windows, latest],
  );
  const day = useMemo<Day>(() => ({ gesture, windows }), [gesture, windows]);
  const point = (event: React.PointerEvent): void => {
    const over = event.target instanceof Element ? event.target.closest<HTMLElement>("[data-task]") : null;
    const pointed = over?.dataset["task"] ?? null;
    if (pointed !== view.getState().pointed) view.setState({ pointed });
  };
  return (
    <DayContext value={day}>
      <div className="day" onPointerOver={point}>
        <div className="day-line">
          <Board onPage={onPage} />
          <div className="day-foot">
            <Readout />
            <Chosen />
          </div>
        </div>
        {beside && props.map}
        <Side details={props.details} />
        <PinnedBox />
      </div>
    </DayContext>
  );
}
