import { type ReactNode, useEffect, useMemo } from "react";
import { useAround, useDesk } from "../context.ts";
import { Board } from "./line/board.tsx";
import { useLineOnPage } from "./line/theline.ts";
import { type Day, DayContext } from "./around.ts";
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
  const { desk, look, walkS } = useAround();
  const onPage = useLineOnPage();
  const { stage, latest } = onPage;
  const beside = useMapBeside();
  const windows = useMemo(
    () =>
      windowing(
        look,
        () => desk.state.getState().plan,
        () => desk.state.getState().verdict,
        () => latest.current?.scale.widthPx,
      ),
    [desk, look, latest],
  );
  const gesture = useMemo(() => {
    const ground = () => groundOf(stage.current, latest.current);
    return dayGesture({ desk, look, ground, windows, walkS });
  }, [desk, look, windows, walkS, stage, latest]);
  useEffect(() => gesture.listen(), [gesture]);
  const evas = useDesk((state) => state.plan.evas);
  useEffect(
    () => desk.commands.add(lineWork(desk, look, gesture, windows)),
    // The commands name the plan's EVAs.
    [desk, look, gesture, windows, evas],
  );
  useEffect(() => desk.commands.add(splitWork(desk, look)), [desk, look]);
  useEffect(
    () => dayKeys({ desk, look, gesture, windows, standing: () => latest.current?.standing ?? null }),
    [desk, look, gesture, windows, latest],
  );
  const day = useMemo<Day>(() => ({ gesture, windows }), [gesture, windows]);
  const point = (event: React.PointerEvent): void => {
    const over = event.target instanceof Element ? event.target.closest<HTMLElement>("[data-task]") : null;
    const pointed = over?.dataset["task"] ?? null;
    if (pointed !== look.getState().pointed) look.setState({ pointed });
  };
  return (
    <DayContext value={day}>
      <div className="day" onPointerOver={point}>
        <div className="day-line">
          <Board onPage={onPage} />
          <Readout />
        </div>
        {beside && props.map}
        <Side details={props.details} />
        <PinnedBox />
      </div>
    </DayContext>
  );
}
