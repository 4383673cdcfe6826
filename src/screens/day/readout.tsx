import { memo, type ReactNode, useEffect, useMemo } from "react";
import type { Verdict } from "../../answers/index.ts";
import { MANNER_WORDS, otherManner } from "../../editor/index.ts";
import { type Placement, type Plan, shortFingerprint, type Task } from "../../plan/index.ts";
import {
  benchSays,
  chancesNow,
  placementsByTask,
  shownPlan,
  shownVerdict,
  shownTasks,
} from "../../session/index.ts";
import { clockText, counted, crewName, lasting, listed, numberedTask, placeName } from "../../words/index.ts";
import { slackWords } from "../chancewords.ts";
import { useApp, useSession, useView } from "../context.ts";
import type { InHand } from "../viewstate.ts";
import { useBefore } from "../margins/before.ts";
import { useCalmSession, useSettled } from "../settled.ts";
import { Allowance } from "./allowance.tsx";
import { useDial } from "../dial.ts";
import { wholeMinute } from "../wholeminute.ts";
import { minuteWords } from "./atminute.ts";

/**
 * The one line at the foot of the day, at the same place for pointer and keyboard: what is pointed at, has the keyboard or is
 * selected; what is in hand; how far the packer is. Whole parts only: what has no room is left out.
 */
export const Readout = memo(function Readout() {
  const hand = useView((state) => state.inHand);
  const packing = useSession((state) => state.run?.running ?? false);
  const pointed = useView((state) => state.pointed);
  const focus = useView((state) => state.focus?.task ?? null);
  const selected = useSession((state) =>
    state.selection.length === 1 ? (state.selection[0] ?? null) : null,
  );
  const tasks = useSession(shownTasks);
  // The ground of the line that is pointed at, in whole minutes.
  const minuteS = useView(({ cursorS, pointed: over }) =>
    cursorS === null || over !== null ? null : wholeMinute(cursorS),
  );
  const task =
    tasks.get(pointed ?? "") ??
    (minuteS === null ? (tasks.get(focus ?? "") ?? tasks.get(selected ?? "")) : null) ??
    null;
  const before = useBefore();
  return (
    <div className="readout">
      <Hint />
      {hand ? (
        <InHandReadout hand={hand} />
      ) : packing ? (
        <Allowance />
      ) : task ? (
        <OfTask task={task} />
      ) : minuteS !== null ? (
        <OfMinute atS={minuteS} />
      ) : (
        <OfDay />
      )}
      {before && <span>dashed: before the move</span>}
    </div>
  );
});

/** How long it is said why something was not done, ms. */
const HINT_MS = 5000;

/** Why the last key or press did nothing, until it has been read. */
function Hint() {
  const { view } = useApp();
  const hint = useView((state) => state.hint);
  useEffect(() => {
    if (hint === null) return;
    const timer = setTimeout(() => view.setState({ hint: null }), HINT_MS);
    return () => clearTimeout(timer);
  }, [hint, view]);
  return hint === null ? null : <span className="readout-hint">{hint}</span>;
}

/** What is in hand, and the keys that work on it. Where it fits stands on the line itself. */
function InHandReadout({ hand }: { readonly hand: InHand }) {
  const plan = useSession(shownPlan);
  const other = MANNER_WORDS[otherManner(hand.manner)].toLowerCase();
  const what = hand.tasks.length > 1 ? counted(hand.tasks.length, "task") : numberedTask(plan, hand.task);
  return (
    <>
      <b>Held: {what}</b>
      {(hand.by === "keys"
        ? ["Enter sets down", "Esc takes back", `O: ${other}`, "Page Up, Page Down: next start that fits"]
        : [`Shift: ${other}`, "Alt: no snapping", "Esc takes back"]
      ).map((words) => (
        <span key={words}>{words}</span>
      ))}
    </>
  );
}

function OfTask({ task }: { readonly task: Task }) {
  const plan = useSession(shownPlan);
  const [verdict, chances] = useCalmSession((state) => [shownVerdict(state), chancesNow(state)] as const);
  const placement = useSession((state) => placementsByTask(state).get(task.id) ?? null);
  const says = useSession((state) => benchSays(state, task.id));
  const slackS = chances?.tasks.find((one) => one.task === task.id)?.slackS ?? null;
  const dial = useDial();
  const lengthS = task.duration.likelyS;
  const parts: ReactNode[] = placement
    ? [
        `${clockText(dial, placement.startS, placement.eva)} to ${clockText(dial, placement.startS + lengthS, placement.eva)}, ${lasting(lengthS, "up")}`,
        placement.crew.length === 0 ? "by command" : listed(placement.crew.map((one) => crewName(plan, one))),
        aloneWords(verdict, placement, lengthS),
      ]
    : [`on the bench, ${lasting(lengthS, "up")}`, says];
  if (task.place !== undefined) parts.push(whereWords(plan, task));
  if (task.must) parts.push(<b>must-do</b>);
  if (placement && placement.crew.length > 0) parts.push(homeWords(verdict, task.id));
  if (task.pin !== undefined) parts.push("pinned");
  // As long as it is it would else be taken for what oxygen and water allow.
  if (placement && slackS !== null)
    parts.push(slackS >= 60 ? `${slackWords(slackS)} by times alone` : slackWords(slackS));
  parts.push(`worth ${task.worth}`);
  return (
    <>
      <b>{numberedTask(plan, task.id)}</b>
      {parts.map((part, i) => part !== null && <span key={i}>{part}</span>)}
    </>
  );
}

/** Who is out at the minute that is pointed at, with whom, and at what. */
function OfMinute({ atS }: { readonly atS: number }) {
  const plan = useSession(shownPlan);
  const [verdict] = useCalmSession((state) => [shownVerdict(state)] as const);
  const dial = useDial();
  return (
    <>
      <b>{clockText(dial, atS)}</b>
      {minuteWords(plan, verdict, atS).map((words) => (
        <span key={words}>{words}</span>
      ))}
    </>
  );
}

function whereWords(plan: Plan, { place, endPlace }: Task): string {
  const end = endPlace !== undefined && endPlace !== place ? ` to ${placeName(plan, endPlace)}` : "";
  return `${placeName(plan, place)}${end}`;
}

/** Whether others who are out then do something else. */
function aloneWords({ outings }: Verdict, placement: Placement, lengthS: number): string | null {
  const out = outings.filter(
    ({ span }) => span.startS < placement.startS + lengthS && placement.startS < span.endS,
  );
  return placement.crew.length === 1 && out.length > 1 ? "alone" : null;
}

function homeWords({ walkbackS }: Verdict, task: string): string {
  const homeS = walkbackS[task];
  return homeS === undefined || homeS === null ? "no way home known" : `home in ${lasting(homeS, "up")}`;
}

/** With nothing pointed at: what can be done. */
function OfDay() {
  const empty = useSession(({ plan }) => plan.schedule.placements.length === 0);
  const taskCount = useSession(({ plan }) => plan.tasks.length);
  return empty ? (
    <>
      <b>Nothing on the line.</b>
      <span>
        {taskCount === 0
          ? "Add what is asked for under Setup."
          : "Drag a task from the bench on to a lane, or pack."}
      </span>
      <KnownBy />
    </>
  ) : (
    <>
      <b>Nothing selected.</b>
      <span>Point at a task to read it, drag it to move it</span>
      <span>F: next finding</span>
      <span>Ctrl+K: every command</span>
      <KnownBy />
    </>
  );
}

/** A plan that rests for so long is worth working out by what it is known, ms. */
const REST_MS = 500;

/** With more measured heights than this a plan takes longer than a moment to be read through. */
const MANY_HEIGHTS = 40_000;

function hasManyHeights({ ground }: Plan): boolean {
  return ground?.type === "grid" && ground.rows * ground.columns > MANY_HEIGHTS;
}

/** By what the plan is known as it stands, as its pages say it; nothing while that is not worked out, or where it takes longer than a moment. */
function KnownBy() {
  const plan = useSession((state) => state.plan);
  const settled = useSettled(plan, REST_MS);
  const by = useMemo(() => (hasManyHeights(settled) ? null : shortFingerprint(settled)), [settled]);
  if (by === null || settled !== plan) return null;
  return <span title="The fingerprint of the plan: every page printed of it has the same">Plan {by}</span>;
}
