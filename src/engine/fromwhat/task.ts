import { explainDraw, type Explained, explainRate, metabolicW, suitIn } from "../../physics/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { carryingW, gaitsOf, heavensOf, homeOf, surroundingsW, waysOf } from "../../terrain/index.ts";
import { explainWalkback } from "../sitefrom.ts";
import type { FromAnswer } from "./ask.ts";
import { plain } from "./words.ts";

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
    const suit = plan.suits.find((one) => one.id === member?.suit);
    if (!member || !suit) continue;
    const walkerKg = member.bodyMassKg + suit.massKg;
    const carriedW = carryingW(ways, task, walkerKg, plan.body.gravityMs2, plan.rules.walking.speedMs);
    const watts = metabolicW(task.effort, member.workRateFactor) + carriedW;
    const worn = suitIn(suit, "working", surroundingsW(heavens, suit, eva));
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
    rows.push([member.name, plain(watts), ...draws.map((one) => plain(one.value * hours))]);
  }
  const { places } = plan.site;
  const back = waysOf(plan.site, gaitsOf(plan).back);
  const end = ways.index.get(task.endPlace ?? task.place ?? "");
  const homeS = end === undefined ? -1 : homeOf(plan.site, ways, gaitsOf(plan).back).placeS[end]!;
  const trail = end === undefined ? null : (back.trails?.[end * back.size + back.lander] ?? null);
  const distanceM = end === undefined ? 0 : Math.hypot(places[end]!.eastM, places[end]!.northM);
  return {
    figures: [...rates, ...explainWalkback(plan, homeS, distanceM, trail)],
    sums: {
      caption: "Drawn by the task in its likely time",
      head: ["Who", "work, W", "oxygen, kg", "CO2, kg", "heat, Wh", "water, kg", "battery, Wh"],
      rows,
    },
  };
}
