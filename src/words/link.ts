import type { LagLink, Link, Plan } from "../plan/index.ts";
import { metres } from "./amount.ts";
import { taskName } from "./names.ts";
import { lasting } from "./time.ts";

/** A link as one sentence, ids as names: "Core tube starts at most 10 min after Trench ends; needs Trench." */
export function linkWords(plan: Plan, link: Link): string {
  const name = (id: string): string => taskName(plan, id);
  if (link.type === "lag") return lagWords(link, name(link.from.task), name(link.to.task));
  const [first, second] = [name(link.tasks[0]), name(link.tasks[1])];
  if (link.type === "crew") {
    return link.crew === "same"
      ? `${first} and ${second} are done by the same crew.`
      : `${first} and ${second} have no crew member in common.`;
  }
  if (link.type === "eva") return `${first} and ${second} are done on the same EVA.`;
  return `${first} and ${second} end at least ${metres(link.leastM, "given")} apart.`;
}

function lagWords(link: LagLink, first: string, second: string): string {
  const anchor = `${first} ${link.from.end}s`;
  const verb = `${link.to.end}s`;
  const { needs } = link;
  const bounds = boundWords(link, anchor);
  if (bounds.length === 0) {
    return needs === "both"
      ? `${first} and ${second}: neither without the other.`
      : `${second} is done only if ${first} is.`;
  }
  const tail = {
    none: "",
    from: "; not without it",
    both: "; neither without the other",
  }[needs];
  return `${second} ${verb} ${bounds.join(" and ")}${tail}.`;
}

/** The least and the greatest lag in words, as one where they are one. */
function boundWords({ leastS, greatestS }: LagLink, anchor: string): readonly string[] {
  if (leastS !== undefined && leastS === greatestS)
    return [leastS === 0 ? `just when ${anchor}` : `exactly ${distance(leastS, anchor)}`];
  if (leastS !== undefined && greatestS !== undefined && leastS >= 0) {
    const most = distance(greatestS, anchor);
    return [leastS === 0 ? `within ${most}` : `${lasting(leastS, "given")} to ${most}`];
  }
  return [
    ...(leastS === undefined ? [] : [leastWords(leastS, anchor)]),
    ...(greatestS === undefined ? [] : [greatestWords(greatestS, anchor)]),
  ];
}

function leastWords(leastS: number, anchor: string): string {
  if (leastS === 0) return `no earlier than ${anchor}`;
  return leastS > 0 ? `at least ${distance(leastS, anchor)}` : `at most ${distance(leastS, anchor)}`;
}

function greatestWords(greatestS: number, anchor: string): string {
  if (greatestS === 0) return `no later than ${anchor}`;
  return greatestS > 0 ? `at most ${distance(greatestS, anchor)}` : `at least ${distance(greatestS, anchor)}`;
}

function distance(lagS: number, anchor: string): string {
  return `${lasting(Math.abs(lagS), "given")} ${lagS > 0 ? "after" : "before"} ${anchor}`;
}
