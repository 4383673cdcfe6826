import type { Finding, Verdict } from "../../../answers/index.ts";
import { type Departures, judgeOf } from "../../../check/index.ts";
import type { Instant } from "../../../kernel/index.ts";
import type { Plan } from "../../../plan/index.ts";
import type { Gap } from "./gaps.ts";

/**
 * What the judge says of a plan's own schedule where it is played otherwise than with everybody leaving at once. Rules
 * that are warnings count like all others: what a planner lets pass he lets pass on the day as he saw it.
 */
export interface PlayedDay {
  /** The day as the judge reads it where nothing is said of leaving. */
  readonly base: Verdict;
  /** Whether the day, played so, breaks nothing that it does not break when everybody leaves at once, nor breaks it by more. */
  holds(departures: Departures): boolean;
  /** Whether nobody comes too far apart at a corner of a way, or farther than anyway, leaving any time between. */
  cornersHold(earliest: Departures, latest: Departures): boolean;
  /** The verdict on the day played so. */
  verdict(departures: Departures): Verdict;
}

export function playedDay(plan: Plan): PlayedDay {
  const { judge, cornersApart } = judgeOf(strict(plan));
  const verdict = (departures?: Departures): Verdict => judge(plan.schedule, departures);
  const base = verdict();
  const known = new Map(breachesOf(base).map((one) => [keyOf(one), overBy(one)]));
  const apartM = (eva: string, crew: readonly string[]): number =>
    Math.max(
      0,
      ...base.separation
        .filter((one) => one.eva === eva && one.crew.every((id) => crew.includes(id)))
        .flatMap(({ points }) => points.map(({ value }) => value)),
    );
  return {
    base,
    verdict,
    cornersHold: (earliest, latest) =>
      cornersApart(plan.schedule, earliest, latest).every(
        ({ eva, crew, worstM }) => worstM <= apartM(eva, crew),
      ),
    holds: (departures) =>
      breachesOf(verdict(departures)).every((one) => {
        const before = known.get(keyOf(one));
        return before !== undefined && overBy(one) <= before;
      }),
  };
}

/** The plan with every rule a breach where it is broken. */
function strict(plan: Plan): Plan {
  const rules = Object.entries(plan.rules).map(([name, rule]): [string, unknown] => [
    name,
    typeof rule === "object" && "level" in rule ? { ...rule, level: "breach" } : rule,
  ]);
  return { ...plan, rules: Object.fromEntries(rules) as Plan["rules"] };
}

function breachesOf({ findings }: Verdict): Finding[] {
  return findings.filter(({ level }) => level === "breach");
}

function keyOf({ rule, subjects }: Finding): string {
  return [rule, ...subjects.map(({ kind, id }) => `${kind} ${id}`)].join("|");
}

/** By how much a rule is broken, in its own unit; 0 where it is not about a quantity. */
function overBy({ need, have }: Finding): number {
  return need === null || have === null ? 0 : Math.abs(have - need);
}

/** When each crew member leaves for each task. */
export type Leaving = ReadonlyMap<Gap, Instant>;

/** A leaving as the judge is told of it; `of` picks the walks that are told of, all others begin at once. */
export function departuresOf(
  bounds: Departures,
  leaving: Leaving,
  of: (gap: Gap) => boolean = () => true,
): Departures {
  const leaveS = new Map<string, Map<string, Instant>>();
  for (const [gap, atS] of leaving) {
    if (!of(gap)) continue;
    const own = leaveS.get(gap.crew) ?? new Map<string, Instant>();
    leaveS.set(gap.crew, own.set(gap.task, atS));
  }
  return { ...bounds, leaveS };
}

/**
 * The ways in which a day is played to its paper that the judge is asked about each time: everybody leaves at the last
 * moment printed; each of `crews` alone leaves at once while the others leave at theirs. That everybody leaves at once does
 * not depend on what is printed of leaving and is asked once, with egress and ingress (`printedDay`).
 *
 * With the corners of ways, which `cornersHold` looks at, this covers every moment between, and any mixture. Where
 * somebody is at some moment depends on one departure only, and two are farthest apart where each of them is at an end of
 * what is open to them or at a corner in it; how much is left out there and how long the work has lasted is worst for the
 * latest departures, and heat is asked about walk by walk (`printedDay`).
 */
export function waysToPlay(bounds: Departures, leaving: Leaving, crews: ReadonlySet<string>): Departures[] {
  return [
    departuresOf(bounds, leaving),
    ...[...crews].map((crew) => departuresOf(bounds, leaving, (gap) => gap.crew !== crew)),
  ];
}
