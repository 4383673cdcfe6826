import type { Chance, ChancesReport, TaskChance } from "../answers/index.ts";
import { MANY_DAYS } from "../session/index.ts";
import { grouped, lasting, percent } from "../words/index.ts";

/** How a chance is said where there is little room: whole percents, never better than counted, the interval outwards. */

/** Forgives the last bits of a division, such as 0.29 * 100. */
const SLACK = 1e-9;

/** The chance as one figure; where it happened on every day or on none, only what that many days can bear. */
export function chanceFigure({ count, of, share, low, high }: Chance): string {
  if (of === 0) return "unknown";
  if (count === of) return `>${Math.floor(low * 100 + SLACK)} %`;
  if (count === 0) return `<${Math.ceil(high * 100 - SLACK)} %`;
  return `${Math.floor(share * 100 + SLACK)} %`;
}

/** What a day comes to on average, rounded down; unknown where none was played. */
export function averageWorth({ days, meanWorth }: Pick<ChancesReport, "days" | "meanWorth">): string {
  return days === 0 ? "unknown" : grouped(Math.floor(meanWorth));
}

/** Where the chance lies in 95 of 100 such runs; nothing where the figure says it already. */
export function chanceInterval({ count, of, low, high }: Chance): string | null {
  if (of === 0 || count === of || count === 0) return null;
  return `${Math.floor(low * 100 + SLACK)} to ${Math.min(100, Math.ceil(high * 100 - SLACK))} %`;
}

export type WishStanding = "meets" | "below" | "may be below" | "open";

/**
 * How a chance stands against what is wanted of it. The whole interval counts: what may be below does not meet. On few days almost
 * nothing is sure, so there only what is known is said; the rest is open until many are played.
 */
export function standingAgainst({ of, low, high }: Chance, wish: number): WishStanding {
  if (of === 0) return "open";
  if (low >= wish) return "meets";
  if (high < wish) return "below";
  return of < MANY_DAYS ? "open" : "may be below";
}

/** The same in words. */
export function wishWords(standing: WishStanding, wish: number): string {
  const wanted = `the wish of ${percent(wish, "given")}`;
  return {
    meets: `meets ${wanted}`,
    below: `below ${wanted}`,
    "may be below": `may be below ${wanted}`,
    open: `wish ${percent(wish, "given")}`,
  }[standing];
}

/** The state of theme and mark that a standing has. */
export const WISH_STATE: Readonly<Record<WishStanding, "good" | "breach" | "tight" | "plain">> = {
  meets: "good",
  below: "breach",
  "may be below": "tight",
  open: "plain",
};

/** That a chance falls short of its wish, for sure or perhaps. */
export type Shortfall = Extract<WishStanding, "below" | "may be below">;

/** How a chance falls short of its wish; null where it is not known to. */
export function shortfallOf(chance: Chance, wish: number): Shortfall | null {
  const standing = standingAgainst(chance, wish);
  return standing === "below" || standing === "may be below" ? standing : null;
}

/** How a must-do task falls short of the wish; null where it is not known to, and of any other task. */
export function taskShortfall(one: TaskChance, { wish }: ChancesReport): Shortfall | null {
  return one.must ? shortfallOf(one.done, wish.must) : null;
}

/** `done on 80 % of days, below the wish of 90 %`; null of a must-do task that is not known to be below, and of any other. */
export function belowWords(one: TaskChance, report: ChancesReport): string | null {
  const shortfall = taskShortfall(one, report);
  if (shortfall === null) return null;
  return `done on ${chanceFigure(one.done)} of simulated days, ${wishWords(shortfall, report.wish.must)}`;
}

/** `slack 12 min`, rounded down; `no slack`, and by how much it is late. */
export function slackWords(slackS: number): string {
  if (slackS >= 60) return `slack ${lasting(Math.floor(slackS / 60) * 60, "down")}`;
  return slackS > -60 ? "no slack" : `${lasting(-Math.floor(slackS / 60) * 60, "up")} late`;
}
