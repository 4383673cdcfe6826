import type { LagLink, Link, Plan } from "../../plan/index.ts";

/** A link as one sentence, ids as names: "Core tube starts at most 10 min after Trench ends; needs Trench." */
export function linkWords(plan: Plan, link: Link): string {
  const name = (id: string): string => plan.tasks.find((task) => task.id === id)?.name ?? id;
  if (link.type === "lag") return lagWords(link, name(link.from.task), name(link.to.task));
  const [first, second] = [name(link.tasks[0]), name(link.tasks[1])];
  if (link.type === "crew") {
    return link.crew === "same"
      ? `${first} and ${second} are done by the same crew.`
      : `${first} and ${second} have no crew member in common.`;
  }
  if (link.type === "eva") return `${first} and ${second} are done on the same EVA.`;
  return `${first} and ${second} end at least ${link.leastM} m apart.`;
}

function lagWords(link: LagLink, first: string, second: string): string {
  const anchor = `${first} ${link.from.end}s`;
  const verb = `${link.to.end}s`;
  const { leastS, greatestS, needs } = link;
  const bounds: string[] = [];
  if (leastS !== undefined && leastS === greatestS) {
    bounds.push(leastS === 0 ? `just when ${anchor}` : `exactly ${distance(leastS, anchor)}`);
  } else if (leastS !== undefined && greatestS !== undefined && leastS >= 0) {
    const least = leastS === 0 ? "at once" : exactly(leastS);
    bounds.push(`${least} to ${distance(greatestS, anchor)}`);
  } else {
    if (leastS !== undefined) bounds.push(leastWords(leastS, anchor));
    if (greatestS !== undefined) bounds.push(greatestWords(greatestS, anchor));
  }
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

function leastWords(leastS: number, anchor: string): string {
  if (leastS === 0) return `no earlier than ${anchor}`;
  return leastS > 0 ? `at least ${distance(leastS, anchor)}` : `at most ${distance(leastS, anchor)}`;
}

function greatestWords(greatestS: number, anchor: string): string {
  if (greatestS === 0) return `no later than ${anchor}`;
  return greatestS > 0 ? `at most ${distance(greatestS, anchor)}` : `at least ${distance(greatestS, anchor)}`;
}

function distance(lagS: number, anchor: string): string {
  return `${exactly(Math.abs(lagS))} ${lagS > 0 ? "after" : "before"} ${anchor}`;
}

/** A length of time without rounding: `1:05`, `1:05:30`, `12 min 30 s`, `45 s`. */
export function exactly(seconds: number): string {
  const hours = Math.floor(seconds / 3600);
  const minutes = Math.floor((seconds % 3600) / 60);
  const rest = seconds % 60;
  const two = (value: number): string => String(value).padStart(2, "0");
  if (hours > 0) return `${hours}:${two(minutes)}${rest > 0 ? `:${two(rest)}` : ""}`;
  if (minutes === 0) return `${rest} s`;
  return rest > 0 ? `${minutes} min ${rest} s` : `${minutes} min`;
}
