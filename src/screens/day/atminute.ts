import type { Outing, Stretch, Verdict } from "../../answers/index.ts";
import { valueAt } from "../../editor/index.ts";
import type { Plan } from "../../plan/index.ts";
import { crewName, listed, metres, numberedTask, placeName } from "../../words/index.ts";

/**
 * Who is out at a moment, with whom and at what, by the judge's own day: `EV1 and EV2: 9 Lower the bank`, or `EV1 alone: 26 Dig the
 * trench` for who does by himself what others who are out do not; then how far apart they are.
 */
export function minuteWords(plan: Plan, verdict: Verdict, atS: number): readonly string[] {
  const out = verdict.outings.filter(({ span }) => span.startS <= atS && atS < span.endS);
  if (out.length === 0) return ["nobody is out"];
  const groups = new Map<string, string[]>();
  for (const outing of out) {
    const doing = doingWords(plan, outing, atS);
    groups.set(doing, [...(groups.get(doing) ?? []), crewName(plan, outing.crew)]);
  }
  const phrases = [...groups].map(([doing, crew]) => {
    const alone = crew.length === 1 && out.length > 1 ? " alone" : "";
    return `${listed(crew)}${alone}: ${doing}`;
  });
  const far = verdict.separation.flatMap((track) => {
    const apartM = valueAt(track, atS);
    const who = track.crew.map((one) => crewName(plan, one));
    return apartM === null
      ? []
      : [`${plan.crew.length > 2 ? `${listed(who)} ` : ""}${metres(apartM, "up")} apart`];
  });
  return [...phrases, ...far];
}

/** What somebody does at a moment; all of it where a day has them at several things at once. */
function doingWords(plan: Plan, { stretches }: Outing, atS: number): string {
  const now = stretches.filter(({ span }) => span.startS <= atS && atS < span.endS);
  const tasks = now.flatMap(({ task }) => task ?? []);
  if (tasks.length > 0) return listed(tasks.map((task) => numberedTask(plan, task)));
  const [only] = now;
  return only ? withoutTask(plan, only) : "where is not known";
}

function withoutTask(plan: Plan, { kind, path }: Stretch): string {
  const place = placeName(plan, path.at(-1));
  if (kind === "traverse") return `on the way to ${place}`;
  return kind === "wait" ? `waits at ${place}` : kind;
}
