import { expect } from "vitest";
import type { Outing, SeparationTrack, Stretch, Verdict } from "../../src/answers/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { clock, metres } from "../../src/words/index.ts";

/**
 * What a page says of everybody else outside: how far they are and in which direction, until when, and the most apart. Worked out here from the places, the
 * judge's stretches and its course of the distance, in another way than paper does.
 */

/** What is said of one of them. */
interface Row {
  readonly awayM: string | null;
  readonly bearing: string | null;
  readonly until: string | null;
  readonly there: string | null;
  readonly most: string | null;
}

export interface PartnerPage {
  readonly plan: Plan;
  readonly verdict: Verdict;
  /** With everybody leaving as late as printed. */
  readonly played: Verdict;
  readonly name: string;
  readonly crew: string;
  readonly eva: string;
  readonly words: string;
}

/** Where a row of facts is over. */
const OVER = / (?:TAKE|ONLY|AFTER|DONE|HOME|WAY|WARNING|CAUTION|NOTE|TURN|IF|ev\d|(?:ev\d )?\d+ Sign) /;

/** Holds the rows of a task's first page; so many of them are looked at. */
export function partnerRows(
  { plan, verdict, played, name, crew, eva, words }: PartnerPage,
  task: string,
): number {
  const placement = plan.schedule.placements.find((one) => one.task === task)!;
  const endS = placement.startS + plan.tasks.find(({ id }) => id === task)!.duration.likelyS;
  const facts = words.slice(words.indexOf(" AT ") + 1).replace(/^AT \S+(?: to \S+)?/, "");
  const out = plan.evas.find(({ id }) => id === eva)!.crew.filter((id) => !placement.crew.includes(id));
  for (const other of out) {
    const from = facts.indexOf(` ${other} `);
    expect(from, `${name}: ${other} is on it`).toBeGreaterThanOrEqual(0);
    const said = facts.slice(from + other.length + 2);
    const row = said.slice(0, OVER.exec(said)?.index);
    const seen = [verdict, played].map((one): Seen => ({
      outing: one.outings.find((own) => own.eva === eva && own.crew === other),
      track: one.separation.find(
        (own) => own.eva === eva && own.crew.includes(crew) && own.crew.includes(other),
      ),
    }));
    expect(rowIn(row), `${name}: ${other} ${row}`).toEqual(
      rowDue(plan, seen[0]!, seen[1]!, task, placement.startS, endS),
    );
  }
  return out.length;
}

function rowIn(row: string): Row {
  const far = /, ([\d.]+ k?m), (\d{3}°)/.exec(row);
  return {
    awayM: far?.[1] ?? null,
    bearing: far?.[2] ?? null,
    until: /, until ([\d:]+(?: to [\d:]+)?)/.exec(row)?.[1] ?? null,
    there: /, there (?:by )?([\d:]+)/.exec(row)?.[1] ?? null,
    most: /, most apart ([\d.]+ k?m)/.exec(row)?.[1] ?? null,
  };
}

/** One who is outside too, on a day as it is played. */
interface Seen {
  readonly outing: Outing | undefined;
  readonly track: SeparationTrack | undefined;
}

/** `soonest` leaves at once, `latest` as late as printed. */
function rowDue(plan: Plan, soonest: Seen, latest: Seen, task: string, startS: number, endS: number): Row {
  const none = { awayM: null, bearing: null, until: null, there: null, most: null };
  const [now, late] = [soonest, latest].map(({ outing }) =>
    outing?.stretches.find(({ span }) => span.startS <= startS && startS < span.endS),
  );
  if (!soonest.outing || !latest.outing || !now || !late) return none;
  const isSure = now.kind === late.kind && now.path.join() === late.path.join();
  const comes = isSure ? late : comesTo(latest.outing, late, now.path[now.path.length - 1]);
  const stands = isSure && new Set(now.path).size === 1 && now.kind !== "traverse";
  const [eastM, northM] = offset(plan, task, now);
  const awayM = Math.sqrt(eastM ** 2 + northM ** 2);
  const isAway = stands && awayM >= 0.5;
  // From east over north, turned to north over east.
  const deg = 90 - (Math.atan2(northM, eastM) * 180) / Math.PI;
  const [leftS, lateS] = [leaves(soonest.outing, now), leaves(latest.outing, comes)];
  const goesOn = (one: Stretch, atS: number): boolean =>
    one.kind === "traverse" && clock(atS, "down") === clock(one.span.endS, "up");
  const until = [...new Set([leftS, lateS].map((atS) => clock(atS, "down")))].join(" to ");
  const passes = goesOn(now, leftS) && goesOn(comes, lateS);
  const mostM = Math.max(
    ...[soonest, latest].map(({ track }) => (track ? greatest(track, startS, endS) : 0)),
  );
  return {
    awayM: isAway ? metres(awayM, "up") : null,
    bearing: isAway ? `${String((Math.round(deg) + 360) % 360).padStart(3, "0")}°` : null,
    until: leftS < endS && !passes ? until : null,
    there: !isSure || now.kind === "traverse" ? clock(comes.span.endS, "up") : null,
    most: mostM > (stands ? awayM : 0) + 1 ? metres(mostM, "up") : null,
  };
}

/** The stretch with which somebody comes to a place from what they are at, which it may be. */
function comesTo({ stretches }: Outing, from: Stretch, place: string | undefined): Stretch {
  for (const one of stretches.slice(stretches.indexOf(from)))
    if (one.path[one.path.length - 1] === place) return one;
  return from;
}

/** From where a task begins to where a stretch ends, m. */
function offset(plan: Plan, task: string, { path }: Stretch): [number, number] {
  const lander = plan.site.places.find(({ kind }) => kind === "lander")!;
  const own = plan.tasks.find(({ id }) => id === task)!.place ?? lander.id;
  const [a, b] = [own, path[path.length - 1]].map((id) => plan.site.places.find((one) => one.id === id)!);
  return [b!.eastM - a!.eastM, b!.northM - a!.northM];
}

/** When somebody goes on from where a stretch ends, or in at the hatch, s. */
function leaves({ stretches }: Outing, now: Stretch): number {
  const there = now.path[now.path.length - 1];
  for (const next of stretches.slice(stretches.indexOf(now) + 1))
    if (next.kind === "ingress" || next.path[next.path.length - 1] !== there) return next.span.startS;
  return now.span.endS;
}

/** The greatest of a course between two moments: of each piece of it that has time in common with them, at both ends of that time. */
function greatest({ points }: SeparationTrack, fromS: number, toS: number): number {
  let most = 0;
  points.slice(1).forEach((next, k) => {
    const point = points[k]!;
    const [a, b] = [Math.max(fromS, point.atS), Math.min(toS, next.atS)];
    if (b <= a) return;
    for (const atS of [a, b]) {
      const share = (atS - point.atS) / (next.atS - point.atS);
      most = Math.max(most, point.value * (1 - share) + next.value * share);
    }
  });
  return most;
}
