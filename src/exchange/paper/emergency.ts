import type { Verdict } from "../../answers/index.ts";
import { type Plan, suitOn } from "../../plan/index.ts";
import { clock, minutes } from "../../words/index.ts";
import { type CrewEva, nameOf, placeName } from "./crewday.ts";
import { type Heading, type Leaf, leaves, LEFT, paragraph, RIGHT, setLines } from "./cuff.ts";
import type { Block } from "./flow.ts";
import { line, text } from "./page.ts";
import { cellRow, fact, heading, step } from "./parts.ts";
import { linesHeight, MM_PER_PT, RISE, textWidth, wrap } from "./type.ts";
import {
  farthest,
  type WalkBack,
  walkBackAt,
  walkBackFromEnd,
  walkBackWords,
  worseWalkBack,
} from "./walkback.ts";

/**
 * The emergency page of one EVA: whose word holds, how long emergency oxygen lasts, and the walk-back from every
 * place where somebody works on that EVA. It says what the plan knows and leaves procedures to the flight rules.
 */
export function emergencyLeaves(plan: Plan, verdict: Verdict, part: CrewEva, head: Heading): Leaf[] {
  const own = suitOn(plan, part.eva, part.member.id);
  const track = verdict.reach.find((one) => one.eva === part.eva.id && one.crew === part.member.id) ?? null;
  const worst = farthest(track);
  const reserveS = plan.rules.walkback.emergencyReserveS;
  const places = placesOf(plan, verdict, part);
  const blocks: Block[] = [
    paragraph("EMERGENCY", { sizesPt: [22], bold: true }),
    paragraph("Follow the flight rules in charge.", { sizesPt: [14], bold: true, after: 1 }),
    ...ORDER.flatMap((words, i) => step(i + 1, words, { stepPt: 12, stepGapMm: 1.2 })),
    cellRow(
      [
        {
          label: "EMERGENCY OXYGEN",
          value: own ? minutes(own.emergencyOxygenS, "down") : "unknown",
          below: own ? `${minutes(reserveS, "up")} of it kept back` : "",
          share: 1,
          heavy: true,
        },
        {
          label: "FARTHEST AS PLANNED",
          value: worst ? minutes(worst.seconds, "up") : "unknown",
          below: worst ? `walk-back, at MET ${clock(worst.atS)}` : "walk-back",
          share: 1,
        },
      ],
      18,
    ),
    ...(part.suit === null ? [] : fact(["SUIT", part.suit], 10.5)),
    ...part.others.flatMap((other) => {
      const suit = suitOn(plan, part.eva, other.id);
      const left = suit ? minutes(suit.emergencyOxygenS, "down") : "unknown";
      return fact(["OTHERS", `${nameOf(plan.crew, other.id)} has emergency oxygen ${left}`], 10.5);
    }),
    heading("WALK-BACK TO THE LANDER FROM"),
    ...(places.length > ONE_COLUMN ? pairs(places) : places.map((place) => row([place]))),
  ];
  return leaves(head, "emergency", blocks, { again: heading("WALK-BACK (continued)"), edge: true });
}

const ORDER = [
  "Stop. Tell crew and those in charge.",
  "Do what the flight rules in charge say.",
  "If sent home: walk-back times below.",
];

/** As many places as one column of the page holds. */
const ONE_COLUMN = 6;

interface PlaceHome {
  readonly name: string;
  readonly walkBack: WalkBack;
}

/** Every place where a task of the EVA begins or ends, farthest first; no way and unknown stand on top. */
function placesOf(plan: Plan, verdict: Verdict, part: CrewEva): PlaceHome[] {
  const tasks = new Map(plan.tasks.map((task) => [task.id, task]));
  const known = new Map<string, WalkBack>();
  const add = (place: string | undefined, walkBack: WalkBack): void => {
    if (place === undefined) return;
    const before = known.get(place);
    // A place has one walk-back: what one task leaves unknown another may tell.
    if (before === undefined || before.kind === "unknown") known.set(place, walkBack);
    else if (walkBack.kind !== "unknown") known.set(place, worseWalkBack(before, walkBack));
  };
  for (const placement of plan.schedule.placements) {
    const task = tasks.get(placement.task);
    if (placement.eva !== part.eva.id || !task) continue;
    add(task.endPlace ?? task.place, walkBackFromEnd(verdict, task.id));
    if (task.endPlace === undefined || task.endPlace === task.place) continue;
    const track =
      verdict.reach.find((one) => one.eva === part.eva.id && placement.crew.includes(one.crew)) ?? null;
    add(task.place, walkBackAt(track, placement.startS));
  }
  for (const place of plan.site.places) if (place.kind === "lander") known.delete(place.id);
  const rank = ({ walkBack }: PlaceHome): number => (walkBack.kind === "known" ? walkBack.seconds : 1e9);
  return [...known]
    .map(([place, walkBack]) => ({ name: placeName(plan, place), walkBack }))
    .sort((a, b) => rank(b) - rank(a) || (a.name < b.name ? -1 : 1));
}

/** Two columns, read down the left one first. */
function pairs(places: readonly PlaceHome[]): Block[] {
  const half = Math.ceil(places.length / 2);
  return places.slice(0, half).map((place, i) => {
    const beside = places[half + i];
    return row(beside ? [place, beside] : [place], 2);
  });
}

function row(places: readonly PlaceHome[], columns = 1): Block {
  const spacing = 5;
  const wide = (RIGHT - LEFT - spacing * (columns - 1)) / columns;
  const face = { sizePt: columns === 1 ? 12 : 10.5, bold: false };
  const value = { sizePt: columns === 1 ? 14 : 12, bold: true };
  const cells = places.map(({ name, walkBack }, i) => {
    const words = walkBackWords(walkBack);
    const lines = wrap(name, wide - textWidth(words, value) - 2, face);
    return { words, lines, x: LEFT + i * (wide + spacing) };
  });
  const tallest = Math.max(...cells.map(({ lines }) => linesHeight(lines.length, face.sizePt)));
  const height = Math.max(tallest, linesHeight(1, value.sizePt)) + 0.6;
  return {
    height,
    draw: (y) =>
      cells.flatMap(({ words, lines, x }) => [
        ...setLines(lines, x, y, face),
        ...text(x + wide, y + RISE * value.sizePt * MM_PER_PT, words, { ...value, align: "right" }),
        line(x, y + height - 0.2, x + wide, y + height - 0.2, 0.15),
      ]),
  };
}
