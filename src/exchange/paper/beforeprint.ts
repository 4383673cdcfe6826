import type { ChancesReport, Verdict } from "../../answers/index.ts";
import {
  allCautions,
  bagNumbers,
  type Plan,
  remedyHost,
  stillToGive,
  type Task,
  untoldBack,
} from "../../plan/index.ts";
import { counted, listed, notGivenWords, percent, taskNumber } from "../../words/index.ts";
import { BOX, printable } from "./glyphs.ts";

/** Something to know before paper of a plan is printed, and where it is mended. */
export interface Doubt {
  /** In words that follow "On paper:". */
  readonly words: string;
  /** Ids of the tasks that it is about; none where it is about no task. */
  readonly tasks: readonly string[];
  readonly at: Place;
}

/** The screen where it is mended; in setup the page of it. */
type Place =
  | { readonly screen: "day" | "odds" }
  | { readonly screen: "setup"; readonly page: "tasks" | "gear" | "site" | "stay" | "crew" | "odds" };

const DAY: Place = { screen: "day" };
const ODDS: Place = { screen: "odds" };
const setup = (page: Extract<Place, { screen: "setup" }>["page"]): Place => ({ screen: "setup", page });

/**
 * All there is to know of a plan before it is printed, the worst first. `chances` null: nobody has worked them out; left out: they are
 * not asked about.
 */
export function beforePrint(plan: Plan, verdict: Verdict, chances?: ChancesReport | null): Doubt[] {
  return [
    ...dayDoubts(plan, verdict),
    ...givenDoubts(plan),
    ...(chances === undefined ? [] : chanceDoubts(chances)),
    ...nameDoubts(plan),
    ...signDoubts(plan),
    ...unknownDoubts(plan),
    ...textDoubts(plan),
  ];
}

function dayDoubts({ tasks, schedule }: Plan, { score, findings }: Verdict): Doubt[] {
  const placed = new Set(schedule.placements.map(({ task }) => task));
  const out = tasks.filter(({ id, must }) => must && !placed.has(id));
  return [
    ...(score.breaches > 0
      ? [
          {
            words: `${counted(score.breaches, "breach", "breaches")}, not fit to be flown`,
            tasks: [],
            at: DAY,
          },
        ]
      : []),
    ...doubtOf("must-do left out:", out, DAY),
    ...findings
      .filter(({ rule }) => rule === "group-least")
      .map(({ sentence }) => ({ words: sentence, tasks: [], at: DAY })),
  ];
}

/** What nobody has given, and figures on paper rest on. */
function givenDoubts(plan: Plan): Doubt[] {
  const words = notGivenWords(plan);
  const [first] = stillToGive(plan);
  return words === null || !first
    ? []
    : [{ words: `figures rest on ${words}`, tasks: [], at: setup(PAGE_OF[first.list]) }];
}

const PAGE_OF = {
  site: "site",
  stay: "stay",
  places: "site",
  crew: "crew",
  suits: "crew",
  containers: "gear",
  tasks: "tasks",
} as const;

function chanceDoubts(chances: ChancesReport | null): Doubt[] {
  if (!chances) return [{ words: "chances not worked out", tasks: [], at: ODDS }];
  const { home, must, wish, tasks } = chances;
  const below = (name: string, low: number, wanted: number): Doubt[] =>
    low < wanted
      ? [
          {
            words: `chance of ${name} not surely at the wish of ${percent(wanted, "given")}`,
            tasks: [],
            at: ODDS,
          },
        ]
      : [];
  const short = tasks.filter((one) => one.must && one.done.low < wish.must).map(({ task }) => task);
  return [
    ...below("everybody home", home.low, wish.home),
    ...below("every must-do done", must.low, wish.must).map((one) => ({ ...one, tasks: short })),
  ];
}

/** Names that stand on paper for two people or things: only tasks have numbers beside theirs. */
function nameDoubts({ crew, evas, suits, site, equipment, containers }: Plan): Doubt[] {
  const lists: readonly (readonly [string, readonly { readonly name: string }[], Place])[] = [
    ["crew members", crew, setup("crew")],
    ["EVAs", evas, setup("crew")],
    ["suits", suits, setup("crew")],
    ["places", site.places, setup("site")],
    ["pieces of equipment", equipment, setup("gear")],
    ["containers", containers, setup("gear")],
  ];
  return lists.flatMap(([what, list, at]) => {
    const names = list.map(({ name }) => name);
    const folded = names.map((name) => name.normalize("NFKC").toLowerCase());
    const twice = names.filter((_, k) => folded.indexOf(folded[k]!) < k);
    return twice.length === 0
      ? []
      : [{ words: `one name for several ${what}: ${listed([...new Set(twice)])}`, tasks: [], at }];
  });
}

/** Names and texts with signs that the faces of paper lack: they come out as empty frames. */
function signDoubts(plan: Plan): Doubt[] {
  const lacks = (...texts: readonly (string | undefined)[]): boolean =>
    texts.some((one) => one !== undefined && printable(one).includes(BOX));
  const tasks = plan.tasks.filter(({ name, steps, cautions, mishap }) =>
    lacks(
      name,
      mishap?.remedy?.name,
      ...(mishap?.remedy ? [mishap.what] : []),
      ...[...steps, ...(mishap?.remedy?.steps ?? [])].flatMap((step) => [
        step.text,
        step.when,
        step.blank?.unit,
        ...step.cautions.map((one) => one.text),
      ]),
      ...cautions.map((one) => one.text),
    ),
  );
  const lists = [
    { list: plan.site.places, at: setup("site") },
    { list: [...plan.crew, ...plan.suits], at: setup("crew") },
    { list: [...plan.equipment, ...plan.containers], at: setup("gear") },
  ];
  return [
    ...doubtOf("signs that paper cannot show in", tasks, setup("tasks")),
    ...lists.flatMap(({ list, at }): Doubt[] => {
      const names = list.filter(({ name }) => lacks(name)).map(({ id }) => id);
      return names.length === 0
        ? []
        : [{ words: `signs that paper cannot show in ${listed(names)}`, tasks: [], at }];
    }),
  ];
}

/** Values that the plan lacks and sheets ask for. */
function unknownDoubts(plan: Plan): Doubt[] {
  const placed = placedByCrew(plan);
  const used = plan.equipment.filter(({ id }) =>
    placed.some(({ equipment }) => equipment.some((one) => one.equipment === id)),
  );
  const gear = (what: string, of: (one: (typeof used)[number]) => unknown): Doubt[] => {
    const lacking = used.filter((one) => of(one) === undefined);
    return lacking.length === 0
      ? []
      : [{ words: `${what} of ${counted(lacking.length, "tool")} not known`, tasks: [], at: setup("gear") }];
  };
  return [
    ...doubtOf(
      "bags not known for",
      placed.filter((task) => bagNumbers(task, taskNumber(plan, task.id)) === null),
      setup("tasks"),
    ),
    ...doubtOf(
      "mass brought back not known for",
      placed.filter((task) => untoldBack(task).mass),
      setup("tasks"),
    ),
    ...doubtOf(
      "volume brought back not known for",
      placed.filter((task) => task.sample && untoldBack(task).volume),
      setup("tasks"),
    ),
    ...gear("mass", ({ massKg }) => massKg),
    ...gear("whether it returns", ({ returns }) => returns),
    ...(plan.suits.some(({ drinkKg }) => drinkKg === undefined)
      ? [{ words: "drinking water of a suit not known", tasks: [], at: setup("crew") }]
      : []),
    ...(plan.body.ephemeris === "none"
      ? [{ words: "sun not known over this body", tasks: [], at: setup("site") }]
      : []),
  ];
}

/** What was not written, is not printed, or is hard to keep to. */
function textDoubts(plan: Plan): Doubt[] {
  const placed = placedByCrew(plan);
  const uneven = new Set(
    plan.schedule.placements.filter(({ startS }) => startS % 60 !== 0).map(({ task }) => task),
  );
  const notes = [
    ...(plan.notes.trim() === "" ? [] : ["the plan"]),
    ...(plan.site.notes.trim() === "" ? [] : ["the site"]),
  ];
  const at = setup("tasks");
  return [
    ...doubtOf(
      "no steps for",
      placed.filter(({ steps }) => steps.length === 0),
      at,
    ),
    ...doubtOf(
      "no caution for",
      placed.filter((task) => allCautions(task).length === 0),
      at,
    ),
    ...doubtOf(
      "cautions without a class for",
      placed.filter((task) => allCautions(task).some((one) => one.class === undefined)),
      at,
    ),
    ...doubtOf(
      "nobody there to make it good if it goes wrong:",
      plan.tasks.filter((task) => isPlaced(plan, task.id) && !mayBeMended(plan, task)),
      DAY,
    ),
    ...doubtOf(
      "starts with seconds for",
      placed.filter(({ id }) => uneven.has(id)),
      DAY,
    ),
    ...(notes.length > 0
      ? [{ words: `notes of ${notes.join(" and of ")} not printed`, tasks: [], at: setup("site") }]
      : []),
  ];
}

function isPlaced({ schedule }: Plan, id: string): boolean {
  return schedule.placements.some(({ task }) => task === id);
}

/** False where what makes the task good is printed on no page, would be over before it can have gone wrong, or hangs on work that is lost with it. */
function mayBeMended(plan: Plan, task: Task): boolean {
  const host = remedyHost(task);
  if (host === null || host === task.id) return true;
  if (lostWith(plan, task.id).has(host)) return false;
  const { placements } = plan.schedule;
  const [own, after] = [task.id, host].map((id) => placements.find((one) => one.task === id));
  return own === undefined || (after !== undefined && after.startS >= own.startS);
}

/** What is not done where a task is not: all that needs it, at first or at second hand. */
function lostWith({ links }: Plan, id: string): Set<string> {
  const needing = links.flatMap((link): (readonly [string, string])[] => {
    if (link.type !== "lag" || link.needs === "none") return [];
    const one = [link.from.task, link.to.task] as const;
    return link.needs === "both" ? [one, [one[1], one[0]]] : [one];
  });
  const lost = new Set([id]);
  for (const one of lost) for (const [needed, by] of needing) if (needed === one) lost.add(by);
  return lost;
}

function placedByCrew({ tasks, schedule }: Plan): Task[] {
  const placed = new Set(schedule.placements.filter(({ crew }) => crew.length > 0).map(({ task }) => task));
  return tasks.filter(({ id }) => placed.has(id));
}

function doubtOf(what: string, tasks: readonly Task[], at: Place): Doubt[] {
  if (tasks.length === 0) return [];
  return [{ words: `${what} ${counted(tasks.length, "task")}`, tasks: tasks.map(({ id }) => id), at }];
}
