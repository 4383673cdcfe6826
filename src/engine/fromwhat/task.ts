import type { FromAnswer } from "../../answers/index.ts";
import type { Explained } from "../../kernel/index.ts";
import { explainDraw, explainRate, metabolicW, suitIn } from "../../physics/index.ts";
import { type Plan, type Schedule, suitOn, type Task } from "../../plan/index.ts";
import {
  carryingW,
  gaitsOf,
  heavensOf,
  type Home,
  homeOf,
  insideHome,
  insideOf,
  environmentHeatOnEvaW,
  type Ways,
  waysOf,
} from "../../terrain/index.ts";
import { bare } from "../../words/index.ts";
import { explainWalkback } from "../wayhome.ts";

/** From what the rates of a placed task's crew come, and the way back from where it ends; null where it is not placed. */
export function fromTask(plan: Plan, schedule: Schedule, id: string): FromAnswer | null {
  const task = plan.tasks.find((one) => one.id === id);
  const placement = schedule.placements.find((one) => one.task === id);
  const eva = plan.evas.find((one) => one.id === placement?.eva);
  if (!task || !placement || !eva) return null;
  const heavens = heavensOf(plan);
  const ways = waysOf(plan.site, gaitsOf(plan).planned);
  const rows: string[][] = [];
  const rates: Explained[] = [];
  for (const crew of placement.crew) {
    const member = plan.crew.find((one) => one.id === crew);
    const suit = suitOn(plan, eva, crew);
    if (!member || !suit) continue;
    const walkerKg = member.bodyMassKg + suit.massKg;
    const carriedW = carryingW(ways, task, walkerKg, plan.body.gravityMs2, plan.rules.walking.speedMs);
    const watts = metabolicW(task.effort, member.workRateFactor) + carriedW;
    const worn = suitIn(suit, "working", environmentHeatOnEvaW(heavens, suit, eva));
    const hours = task.duration.likelyS / 3600;
    const draws = explainDraw(worn, watts);
    const effort = explainRate(task.effort, member.workRateFactor);
    rates.push({
      ...effort,
      of: `${member.name}'s metabolic rate`,
      value: watts,
      formula: `${effort.formula} + carriedW`,
      inputs: [
        ...effort.inputs,
        {
          name: "carriedW",
          value: carriedW,
          unit: "W for the slopes of what is carried out and of the way inside, over the task",
        },
      ],
    });
    rows.push([member.name, bare(watts, 6), ...draws.map((one) => bare(one.value * hours, 6))]);
  }
  const home = homeOf(plan.site, ways, gaitsOf(plan).back);
  return {
    figures: [...rates, ...walkbackInside(plan, ways, home, task)],
    sums: {
      caption: "Drawn by the task in its likely time",
      head: ["Who", "work, W", "oxygen, kg", "CO2, kg", "heat, Wh", "water, kg", "battery, Wh"],
      rows,
    },
  };
}

/** The longest walk-back inside a task, and the way home from where that is known: its place, or the farther of its ends. */
function walkbackInside(plan: Plan, ways: Ways, home: Home, task: Task): readonly Explained[] {
  const { walking, walkback } = plan.rules;
  const inside = insideOf(ways, task, walking.speedMs);
  const { seconds } = insideHome(home, inside, walkback.speedMs);
  const [from, to] = [home.placeS[inside.from]!, home.placeS[inside.to]!];
  const farther = explainWalkback(plan, home, to > from ? inside.to : inside.from);
  if (seconds <= Math.max(from, to)) return farther;
  const offS = Math.ceil(inside.roamM / walkback.speedMs - 1e-6);
  return [
    {
      of: "longest walk-back inside the task",
      value: seconds,
      unit: "s",
      formula: "worst + Math.ceil(off / speedMs)",
      inputs: [
        {
          name: "worst",
          value: seconds - offS,
          unit: "s home from the worst point of its way, or from its place",
        },
        { name: "off", value: inside.roamM, unit: "m that what is walked beyond the way may lead off it" },
        { name: "speedMs", value: walkback.speedMs, unit: "m/s back to the way, on the level" },
      ],
      source: "terrain/inside: half of what is walked beyond the way between its ends leads off it",
    },
    ...farther,
  ];
}
