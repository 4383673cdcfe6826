import { useMemo } from "react";
import type { Verdict } from "../../../answers/index.ts";
import { type TimeScale } from "../../../editor/index.ts";
import type { Plan, Schedule } from "../../../plan/index.ts";
import { clockText, counted, type Dial, lasting } from "../../../words/index.ts";
import { useLook } from "../../context.ts";
import { useDay } from "../around.ts";
import { useDial } from "../dial.ts";
import { shows } from "./geometry.ts";
import type { Brush } from "./brush.ts";
import { KeptCanvas } from "./canvas.tsx";
import { around, type Columns, columnsOf, type Stretch, within } from "./changed.ts";
import { evaRows, paintEvas } from "./painthead.ts";
import { EVA_ROW_PX } from "./sizes.ts";

interface Drawn {
  readonly plan: Plan;
  readonly verdict: Verdict;
  readonly dial: Dial;
  readonly scale: TimeScale;
}

/** The EVAs' bars. A move changes the length of one EVA at most: the bars of the others keep their picture. */
export function EvaPicture(props: {
  readonly plan: Plan;
  readonly verdict: Verdict;
  readonly scale: TimeScale;
}) {
  const { plan, verdict, scale } = props;
  const dial = useDial();
  const drawn = useMemo((): Drawn => ({ plan, verdict, dial, scale }), [plan, verdict, dial, scale]);
  return (
    <KeptCanvas
      widthPx={scale.widthPx}
      heightPx={evaRows(plan, verdict).rows * EVA_ROW_PX}
      drawn={drawn}
      changed={columnsChanged}
      paint={paintBars}
    />
  );
}

/** Brackets reach this far beyond what they are about, pixels. */
const BEYOND_PX = 8;

function columnsChanged(was: Drawn, now: Drawn): Columns | "all" | null {
  if (was.plan !== now.plan || was.dial !== now.dial || was.scale !== now.scale) return "all";
  if (evaRows(was.plan, was.verdict).row.join() !== evaRows(now.plan, now.verdict).row.join()) return "all";
  const changes = now.plan.evas.flatMap((eva): readonly Stretch[] => {
    const before = spanIn(was.verdict, eva.id);
    const after = spanIn(now.verdict, eva.id);
    if (before?.startS === after?.startS && before?.endS === after?.endS) return [];
    const bracket = { startS: eva.earliestEgressS, endS: eva.latestIngressS };
    return [before ?? bracket, after ?? bracket];
  });
  const stretch = around(changes);
  return stretch && columnsOf(stretch, now.scale, BEYOND_PX);
}

function spanIn(verdict: Verdict, eva: string): Stretch | undefined {
  return verdict.outings.find((one) => one.eva === eva)?.span;
}

function paintBars(brush: Brush, { plan, verdict, dial, scale }: Drawn, columns: Columns | null): void {
  paintEvas(brush, plan, verdict, dial, within(scale, columns, BEYOND_PX));
}

/** A button over every EVA's bar: dragged or taken in hand by keys, it moves all of the EVA; pressed, it selects it. */
export function EvaBars(props: {
  readonly plan: Plan;
  readonly schedule: Schedule;
  readonly verdict: Verdict;
  readonly scale: TimeScale;
}) {
  const { plan, schedule, verdict, scale } = props;
  const { gesture } = useDay();
  const dial = useDial();
  const held = useLook((state) => state.inHand?.eva ?? null);
  const { row } = evaRows(plan, verdict);
  return plan.evas.map((eva, i) => {
    const outing = verdict.outings.find((one) => one.eva === eva.id);
    const first = schedule.placements
      .filter((one) => one.eva === eva.id)
      .reduce<Schedule["placements"][number] | null>((a, b) => (a && a.startS <= b.startS ? a : b), null);
    if (!outing || !first || !shows(scale, outing.span)) return null;
    const { startS, endS } = outing.span;
    const tasks = schedule.placements.filter((one) => one.eva === eva.id).length;
    const name = `${eva.name}, out ${clockText(dial, startS, eva.id)}, in ${clockText(dial, endS, eva.id)}, lasts ${lasting(endS - startS, "up")}, ${counted(tasks, "task")}`;
    return (
      <button
        key={eva.id}
        type="button"
        className={held === eva.id ? "eva-bar held" : "eva-bar"}
        data-eva={eva.id}
        data-eva-task={first.task}
        aria-label={name}
        title="Drag moves the whole EVA"
        style={{
          left: scale.x(startS),
          width: scale.x(endS) - scale.x(startS),
          top: row[i]! * EVA_ROW_PX + 2,
          height: EVA_ROW_PX - 4,
        }}
        onPointerDown={(event) => {
          if (event.button !== 0) return;
          event.stopPropagation();
          const stage = event.currentTarget.parentElement?.getBoundingClientRect();
          const atS = scale.at(event.clientX - (stage?.left ?? 0));
          const lane = first.crew[0] ?? null;
          gesture.press(event.nativeEvent, {
            task: first.task,
            lane,
            offsetS: atS - first.startS,
            eva: eva.id,
          });
        }}
      />
    );
  });
}
