import { type Plan, type Task, untoldBack } from "../../plan/index.ts";
import {
  crewName,
  digits,
  lasting,
  listed,
  mass,
  metres,
  nameIn,
  placeName,
  volume,
} from "../../words/index.ts";

/** What a list can change of a task, in words. */
const SHOWN: readonly (readonly [label: string, shown: (task: Task, plan: Plan) => string])[] = [
  ["number", ({ number }) => number ?? "none"],
  ["name", ({ name }) => name],
  ["kind", ({ kind }) => kind],
  ["place", ({ place }, plan) => placeName(plan, place)],
  ["ends at", ({ place, endPlace }, plan) => placeName(plan, endPlace ?? place)],
  [
    "crew",
    ({ crew }, plan) =>
      crew.named.length > 0
        ? listed(crew.named.map((id) => crewName(plan, id)))
        : `any ${digits(crew.count)}`,
  ],
  ["likely", ({ duration }) => lasting(duration.likelyS, "given")],
  ["at least", ({ duration }) => lengthOf(duration.lowS)],
  ["at most", ({ duration }) => lengthOf(duration.highS)],
  ["must do", ({ must }) => (must ? "yes" : "no")],
  ["worth", ({ worth }) => digits(worth)],
  ["relay", ({ relay }) => (relay ? "yes" : "no")],
  ["carried out", ({ massOutKg }) => mass(massOutKg, "given")],
  [
    "brought back",
    (task) =>
      broughtWords(task.sample?.massKg, untoldBack(task).mass ? "not given" : "nothing", (kg) =>
        mass(kg, "given"),
      ),
  ],
  ["volume", ({ sample }) => broughtWords(sample?.volumeL, "none", (litres) => volume(litres, "given"))],
  ["container", ({ sample }, plan) => (sample ? nameIn(plan.containers, sample.container) : "none")],
  ["walk in it", ({ walkM }) => metres(walkM, "given")],
  ["notes", ({ notes }) => (notes === "" ? "none" : `“${notes}”`)],
];

/** An amount of a sample; 0 in a container is one that nobody has given. */
function broughtWords(amount: number | undefined, none: string, said: (amount: number) => string): string {
  if (amount === undefined) return none;
  return amount === 0 ? "not given" : said(amount);
}

function lengthOf(seconds: number | undefined): string {
  return seconds === undefined ? "not given" : lasting(seconds, "given");
}

/** How the second task differs from the first, a phrase each: "likely 25 min, was 20 min". */
export function differences(before: Task, after: Task, plan: Plan): readonly string[] {
  return SHOWN.flatMap(([label, shown]) => {
    const [was, is] = [shown(before, plan), shown(after, plan)];
    return was === is ? [] : [`${label} ${is}, was ${was}`];
  });
}
