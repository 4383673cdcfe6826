import type { Leave, MarginTrack, TurnBack } from "../../answers/index.ts";
import { valueAt } from "../../editor/index.ts";
import { type Task, tasksById } from "../../plan/index.ts";
import type { Leaves, Rehearsed, ProjectedPlacement } from "../../session/index.ts";

/**
 * When to leave for what is next: as the judge has tested it, `gone` where that moment had passed when the judge was asked, `untested`
 * while he has not said; null where no walk leads there.
 */
export type NextLeave = Leave | { readonly kind: "gone" | "untested" } | null;

export interface Level {
  readonly track: MarginTrack;
  readonly nowLeft: number;
}

/** Where one crew member stands at the rehearsal's clock. */
export interface CrewNow {
  readonly eva: string | null;
  readonly doing: { readonly task: Task; readonly placement: ProjectedPlacement } | null;
  readonly next: {
    readonly task: Task;
    readonly placement: ProjectedPlacement;
    readonly leave: NextLeave;
  } | null;
  /** So much later than planned is what is under way or what is next, whichever is later, s; null where neither was planned. */
  readonly lateS: number | null;
  /** Where they are, the walk-back from there, and when they must start home; null inside. */
  readonly turnBack: TurnBack | null;
  /** Nothing is under way and nothing to come on the EVA that is out. */
  readonly homeward: boolean;
  /** Each consumable of the EVA under way: what is left now, and above the reserve at ingress as a share of the stock. */
  readonly levels: readonly Level[];
  /** The same of what they go out with, while they have not been out: it can be read then. */
  readonly outgoing: readonly Level[];
}

/** What one crew member does, does next, and has left. `leaves` are those of the day as it goes on. */
export function crewNow(day: Rehearsed, member: string, leaves: Leaves | null): CrewNow {
  const { plan, standing, verdict } = day;
  const { facts, placements, nowS } = standing;
  const tasks = tasksById(plan);
  const own = placements.filter((placement) => placement.crew.includes(member) && tasks.has(placement.task));
  const doing = own.find((placement) => placement.state === "under way");
  const next = own.find((placement) => placement.state === "to come");
  const out = plan.evas.find(
    (eva) => eva.crew.includes(member) && facts.outS.has(eva.id) && !facts.inS.has(eva.id),
  );
  const stretches = verdict.outings.find((one) => one.crew === member && one.eva === next?.eva)?.stretches;
  const way = stretches?.findLast(
    (one) => one.kind === "traverse" && next !== undefined && one.span.endS <= next.startS,
  );
  const walks = way !== undefined && next !== undefined && arrives(stretches!, way, next.startS);
  const leaveFor = (task: string): NextLeave =>
    !walks
      ? null
      : leaves === null
        ? { kind: "untested" }
        : (leaves.get(member)?.get(task) ?? { kind: "gone" });
  const lates = [doing, next].flatMap((placement) => {
    const was = placement && plan.schedule.placements.find((one) => one.task === placement.task);
    return was ? [placement.startS - was.startS] : [];
  });
  const recall = day.recalls.find((one) => one.eva === out?.id);
  return {
    eva: out?.id ?? null,
    doing: doing ? { task: tasks.get(doing.task)!, placement: doing } : null,
    next: next ? { task: tasks.get(next.task)!, placement: next, leave: leaveFor(next.task) } : null,
    lateS: lates.length > 0 ? Math.max(...lates) : null,
    turnBack: recall?.crew.find((one) => one.crew === member) ?? null,
    homeward: out !== undefined && !doing && next?.eva !== out.id,
    levels: verdict.margins.flatMap((track) => {
      if (track.crew !== member || track.eva !== out?.id) return [];
      const nowLeft = valueAt(track, nowS);
      return nowLeft === null ? [] : [{ track, nowLeft }];
    }),
    outgoing: outgoingOf(day, member),
  };
}

/** What somebody goes out with on the first of their EVAs; none once they have been out. */
function outgoingOf({ plan, standing, verdict }: Rehearsed, member: string): Level[] {
  if (plan.evas.some((eva) => eva.crew.includes(member) && standing.facts.outS.has(eva.id))) return [];
  const outings = verdict.outings.filter(({ crew }) => crew === member);
  const first = outings.toSorted((a, b) => a.span.startS - b.span.startS)[0];
  return verdict.margins
    .filter((track) => track.crew === member && track.eva === first?.eva)
    .flatMap((track) => track.points.slice(0, 1).map(({ value }) => ({ track, nowLeft: value })));
}

/** True when nothing but waiting lies between the end of a way and the start of what it leads to. */
function arrives(
  stretches: Rehearsed["verdict"]["outings"][number]["stretches"],
  way: (typeof stretches)[number],
  startS: number,
): boolean {
  return stretches.every(
    (one) =>
      one === way || one.kind === "wait" || one.span.startS >= startS || one.span.endS <= way.span.startS,
  );
}
