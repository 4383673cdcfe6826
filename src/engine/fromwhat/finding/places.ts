import { type Plan, ruleSource } from "../../../plan/index.ts";
import { pointsAt } from "../../../check/index.ts";
import { walksOf } from "../../../terrain/index.ts";
import { clockToSecond, nameIn } from "../../../words/index.ts";
import { type FindingOfDay, type Behind, given, madeOf, subject, sumOf, table, type Term } from "./terms.ts";

interface NamedPlace {
  readonly words: string;
  readonly eastM: number;
  readonly northM: number;
}

const STRAIGHT = "judge: straight line over the ground, from east and north";

/** `offM`: how much farther walks inside tasks may lead both of them apart, where they do. */
function apart(of: string, a: NamedPlace, b: NamedPlace, offM = 0): ReturnType<typeof madeOf> {
  const line = "Math.hypot(east1 - east2, north1 - north2)";
  return madeOf(
    of,
    Math.hypot(a.eastM - b.eastM, a.northM - b.northM) + offM,
    "m",
    offM > 0 ? `${line} + off` : line,
    {
      east1: [`m east, ${a.words}`, a.eastM],
      east2: [`m east, ${b.words}`, b.eastM],
      north1: [`m north, ${a.words}`, a.northM],
      north2: [`m north, ${b.words}`, b.northM],
      ...(offM > 0 ? { off: ["m that walks inside their tasks may lead them off", offM] as const } : {}),
    },
    STRAIGHT,
  );
}

/** The end place of a task, with the lander where it names none. */
function endOf({ site, tasks }: Plan, id: string): NamedPlace | null {
  const task = tasks.find((one) => one.id === id);
  const named = task?.endPlace ?? task?.place;
  const place = site.places.find((one) => (named === undefined ? one.kind === "lander" : one.id === named));
  return place ? { words: place.name, eastM: place.eastM, northM: place.northM } : null;
}

export function blastBehind({ plan, finding }: FindingOfDay): Behind {
  const lander = plan.site.places.find(({ kind }) => kind === "lander");
  const end = endOf(plan, subject(finding, "task"));
  if (!lander || !end) return {};
  return {
    need: given("from the lander at least", plan.rules.blast.leastM, "m", ruleSource(plan, "blast")),
    have: apart("from the lander", { words: lander.name, eastM: lander.eastM, northM: lander.northM }, end),
  };
}

export function linkApartBehind({ plan, finding }: FindingOfDay): Behind {
  const link = plan.links.find(({ id }) => id === subject(finding, "link"));
  if (link?.type !== "apart") return {};
  const [a, b] = [endOf(plan, link.tasks[0]), endOf(plan, link.tasks[1])];
  if (!a || !b) return {};
  return { need: given("apart at least", link.leastM, "m", "plan: the link"), have: apart("apart", a, b) };
}

/** Where both are at the moment at which they are farthest apart. */
export function separationBehind({ plan, schedule, finding }: FindingOfDay): Behind {
  const atS = finding.span?.startS;
  const eva = subject(finding, "eva");
  const [one, other] = [subject(finding, "crew"), subject(finding, "crew", 1)];
  if (atS === undefined || finding.have === null) return {};
  const spotsOf = (member: string) =>
    pointsAt(plan, schedule, eva, member, atS).map((point) => ({
      ...point,
      words: nameIn(plan.crew, member),
    }));
  const others = spotsOf(other);
  // A moment may end one stretch and begin another: the two that are as far apart as the judge has them. Who does the same task
  // goes along.
  const pair = spotsOf(one)
    .flatMap((a) =>
      others.map((b) => {
        const offM = a.task !== null && a.task === b.task ? 0 : a.roamM + b.roamM;
        const apartM = Math.hypot(a.eastM - b.eastM, a.northM - b.northM) + offM;
        return { a, b, offM, missM: Math.abs(apartM - finding.have!) };
      }),
    )
    .toSorted((a, b) => a.missM - b.missM)[0];
  if (!pair) return {};
  return {
    need: given("apart at most", plan.rules.separation.greatestM, "m", ruleSource(plan, "separation")),
    have: apart(`apart at ${clockToSecond(atS)} MET`, pair.a, pair.b, pair.offM),
  };
}

/** Weight that so many may carry, against what is carried out. */
export function carryBehind({ plan, finding }: FindingOfDay): Behind {
  const task = plan.tasks.find(({ id }) => id === subject(finding, "task"));
  if (!task) return {};
  const { greatestN, source } = plan.rules.carry;
  return {
    need: madeOf(
      "carried at most",
      (greatestN * task.crew.count) / plan.body.gravityMs2,
      "kg",
      "greatestN * crew / gravity",
      {
        greatestN: ["N for each crew member", greatestN],
        crew: ["crew members asked for", task.crew.count],
        gravity: [`m/s2, ${plan.body.name}`, plan.body.gravityMs2],
      },
      source,
    ),
    have: given("carried out", task.massOutKg, "kg", `plan: ${task.name}`),
  };
}

/** Placed samples of some containers, kg or litres; each rounded up to grams and millilitres. */
function samples(
  { plan, schedule }: FindingOfDay,
  containers: readonly string[],
  of: "massKg" | "volumeL",
): readonly Term[] {
  const placed = new Set(schedule.placements.map(({ task }) => task));
  return plan.tasks.flatMap(({ id, name, sample }): Term[] =>
    sample && placed.has(id) && containers.includes(sample.container)
      ? [
          [
            `${name}, into ${nameIn(plan.containers, sample.container)}`,
            Math.ceil(sample[of] * 1000 - 1e-6) / 1000,
          ],
        ]
      : [],
  );
}

const SAMPLES = "plan: samples of placed tasks, to the gram and millilitre, rounded up";

export function containerBehind(day: FindingOfDay): Behind {
  const { plan, finding } = day;
  const box = plan.containers.find(({ id }) => id === subject(finding, "container"));
  if (!box) return {};
  const mass = finding.unit === "kg";
  return {
    need: given("holds at most", mass ? box.capacityKg : box.volumeL, mass ? "kg" : "L", `plan: ${box.name}`),
    have: sumOf(
      "samples in it",
      mass ? "kg" : "L",
      samples(day, [box.id], mass ? "massKg" : "volumeL"),
      SAMPLES,
    ),
  };
}

export function returnMassBehind(day: FindingOfDay): Behind {
  const { plan, finding } = day;
  const boxes = finding.subjects.map(({ id }) => id);
  const empty = plan.containers
    .filter(({ id }) => boxes.includes(id))
    .map(({ name, emptyMassKg }): Term => [`${name}, empty`, Math.ceil(emptyMassKg * 1000 - 1e-6) / 1000]);
  return {
    need: given("lifted at most", plan.rules.returnMass.greatestKg, "kg", ruleSource(plan, "returnMass")),
    have: sumOf("samples and their containers", "kg", [...empty, ...samples(day, boxes, "massKg")], SAMPLES),
  };
}

/** The keep-out, when it is hot, and who is where in it. */
export function hotBehind({ plan, schedule, finding }: FindingOfDay): Behind {
  const keepOut = plan.site.keepOuts.find(({ id }) => id === subject(finding, "keep-out"));
  if (!keepOut) return {};
  const rows = [keepOut.afterTask, subject(finding, "task")].flatMap((id) => {
    const task = plan.tasks.find((one) => one.id === id);
    const placed = schedule.placements.find((one) => one.task === id);
    if (!task || !placed) return [];
    const what = id === keepOut.afterTask ? "hot from its end on" : "inside";
    return [
      [task.name, clockToSecond(placed.startS), clockToSecond(placed.startS + task.duration.likelyS), what],
    ];
  });
  const { span } = finding;
  if (span)
    rows.push([
      "Inside while it is hot",
      clockToSecond(span.startS),
      clockToSecond(span.endS),
      nameIn(plan.site.places, subject(finding, "place")),
    ]);
  return { sums: table(keepOut.name, ["What", "from MET", "to MET", "where"], rows) };
}

/** Direct ways to and from the places of a finding. */
export function wayBehind({ plan, finding }: FindingOfDay): Behind {
  const walks = walksOf(plan);
  const { places } = plan.site;
  const ends = finding.subjects.filter(({ kind }) => kind === "place").map(({ id }) => id);
  const rows = ends.flatMap((id) =>
    places
      .filter((one) => one.id !== id)
      .map((one) => {
        const seconds = walks.secondsS(id, one.id);
        return [
          `${nameIn(places, id)} to ${one.name}`,
          seconds === null ? "no way" : clockToSecond(seconds),
          walks.metresM(id, one.id) ?? "",
        ];
      }),
  );
  return { sums: table("Ways from there", ["Way", "h:mm:ss", "m"], rows) };
}
