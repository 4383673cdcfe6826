import { loadThousandths } from "../../../check/index.ts";
import {
  bagNumbers,
  type Container,
  isReturnLeast,
  tasksOn,
  type Untold,
  untoldBack,
  untoldIn,
} from "../../../plan/index.ts";
import { clock, leastWords, mass, numberedTask, unlessToGive, volume } from "../../../words/index.ts";
import { nameOf, taskName } from "../crewday.ts";
import type { Body, Cell, Row, Section } from "./body.ts";
import { type SheetGiven, type PlacedTask, placedTasksOf } from "./given.ts";

/** What comes back in which case, planned and to be written down, all against what may be lifted. */

export interface CaseLoad {
  readonly container: Container;
  /** Tasks whose samples go into it, by start. */
  readonly samples: readonly PlacedTask[];
  readonly sampleKg: number;
  readonly sampleL: number;
  readonly withCaseKg: number;
  readonly roomKg: number;
  readonly roomL: number;
}

/** Every case that something goes into, in the plan's order; summed as the judge does, in whole grams and millilitres. */
export function caseLoads({ plan }: Pick<SheetGiven, "plan">): CaseLoad[] {
  const placedTasks = placedTasksOf(plan);
  return plan.containers.flatMap((container): CaseLoad[] => {
    const samples = placedTasks.filter(({ task }) => task.sample?.container === container.id);
    if (samples.length === 0) return [];
    const sum = (of: (placed: PlacedTask) => number): number =>
      samples.reduce((total, placed) => total + loadThousandths(of(placed)), 0) / 1000;
    const sampleKg = sum(({ task }) => task.sample?.massKg ?? 0);
    const sampleL = sum(({ task }) => task.sample?.volumeL ?? 0);
    const withCaseKg = sampleKg + loadThousandths(container.emptyMassKg) / 1000;
    return [
      {
        ...{ container, samples, sampleKg, sampleL, withCaseKg },
        roomKg: container.capacityKg - sampleKg,
        roomL: container.volumeL - sampleL,
      },
    ];
  });
}

export function manifestBody(given: SheetGiven): Body {
  const { plan, verdict } = given;
  const { greatestKg } = plan.rules.returnMass;
  const loads = caseLoads(given);
  const untold = untoldSamples(given);
  const weighed = !isReturnLeast(plan, tasksOn(plan, plan.schedule));
  const sections = loads.map((load): Section => caseTable(given, load));
  const total: Section = {
    kind: "table",
    title: "All cases",
    none: "",
    columns: [
      { head: "CASE AND SAMPLES", grow: 2 },
      { head: "PLANNED", align: "right", grow: 1 },
      { head: "MAY BE LIFTED", align: "right", grow: 1 },
      { head: "LEFT", align: "right", grow: 1 },
      { head: "KG ACTUAL", blankMm: 24 },
    ],
    rows: [
      {
        strong: true,
        cells: [
          { text: "All cases and samples" },
          { text: leastWords(mass(verdict.returnKg, "up"), !weighed) },
          { text: mass(greatestKg, "given") },
          { text: weighed ? mass(greatestKg - verdict.returnKg, "down") : "not known" },
        ],
      },
    ],
  };
  const none: Section = { kind: "words", text: "No sample is brought back." };
  const open: Section = {
    kind: "words",
    bold: true,
    text: `The plan does not say what these sampling tasks bring back: ${untold.map(({ task }) => numberedTask(plan, task.id)).join(", ")}.`,
  };
  return {
    title: "Container manifest",
    wide: false,
    under: ["Bag, sample, mass and case of all EVAs; actual figures from the scale."],
    key: [
      "Planned masses and volumes rounded up, room left and what may still be lifted rounded down. A case over its limit, or all over the lift: ground names what stays.",
    ],
    sections: [
      ...(untold.length > 0 ? [open] : []),
      ...(loads.length > 0 ? [...sections, total] : []),
      ...(loads.length === 0 && untold.length === 0 ? [none] : []),
    ],
  };
}

/** Sampling on the day of which the plan tells neither mass nor case: what it brings back is in no sum. */
function untoldSamples({ plan }: SheetGiven): readonly PlacedTask[] {
  return placedTasksOf(plan).filter(({ task }) => !task.sample && untoldBack(task).mass);
}

/** What a case takes, as far as somebody has given it. */
function caseWords({ container }: CaseLoad, name: string): string {
  const empty = unlessToGive(container, "emptyMassKg", mass(container.emptyMassKg, "given"));
  const holds = unlessToGive(container, "capacityKg", mass(container.capacityKg, "given"));
  const litres = unlessToGive(container, "volumeL", volume(container.volumeL, "given"), "litres not given");
  return `${name}: empty ${empty}, holds ${holds} and ${litres}`;
}

/** Room for more: a sum in which something is unknown leaves it unknown. */
function roomWords({ container, roomKg, roomL }: CaseLoad, least: Untold): string {
  const [noKg, noLitres] = ["kg not known", "litres not known"];
  const rooms = [
    least.mass ? noKg : unlessToGive(container, "capacityKg", mass(roomKg, "down"), noKg),
    least.volume ? noLitres : unlessToGive(container, "volumeL", volume(roomL, "down"), noLitres),
  ];
  return `Samples; room for more: ${rooms.join(", ")}`;
}

function caseTable({ plan }: SheetGiven, load: CaseLoad): Section {
  const { container, samples, sampleKg, sampleL, withCaseKg, roomKg, roomL } = load;
  const least = untoldIn(
    samples.map(({ task }) => task),
    container.id,
  );
  const name = nameOf(plan.containers, container.id);
  const sumRow = (text: string, litres: string, kg: string): Row => ({
    strong: true,
    // Bags are counted by the sample, not again under it.
    cells: [{ text, span: 7 }, { text: litres }, { text: kg }],
  });
  return {
    kind: "table",
    title: caseWords(load, name),
    none: "",
    columns: [
      { head: "SAMPLE", grow: 2 },
      { head: "EVA" },
      { head: "MET", align: "right" },
      { head: "WHO" },
      { head: "PLACE", grow: 1 },
      { head: "BAGS, PLANNED", grow: 0.8 },
      { head: "BAGS, ACTUAL", blankMm: 26 },
      { head: "VOLUME", align: "right" },
      { head: "PLANNED", align: "right" },
      { head: "KG ACTUAL", blankMm: 18 },
    ],
    rows: [
      ...samples.map((placed): Row => ({
        cells: [
          { text: taskName(placed.task), number: placed.number },
          { text: nameOf(plan.evas, placed.eva ?? "by command") },
          { text: clock(placed.startS) },
          { text: placed.crew.map((id) => nameOf(plan.crew, id)).join(" ") },
          {
            text:
              placed.task.endPlace === undefined
                ? nameOf(plan.site.places, placed.task.place ?? "")
                : nameOf(plan.site.places, placed.task.endPlace),
          },
          bagCell(placed),
          { text: "" },
          ...amountCells(placed),
        ],
      })),
      sumRow(
        roomKg < 0 || roomL < 0 ? "Samples: THE CASE IS OVER ITS LIMIT" : roomWords(load, least),
        leastWords(volume(sampleL, "up"), least.volume),
        leastWords(mass(sampleKg, "up"), least.mass),
      ),
      sumRow(
        "Case and samples",
        "",
        unlessToGive(container, "emptyMassKg", leastWords(mass(withCaseKg, "up"), least.mass), "?"),
      ),
    ],
  };
}

/** Volume and mass of a sample, as far as the plan has them. */
function amountCells({ task }: PlacedTask): Cell[] {
  const untold = untoldBack(task);
  const { massKg, volumeL } = task.sample ?? { massKg: 0, volumeL: 0 };
  return [
    { text: untold.volume ? "?" : volume(volumeL, "up") },
    { text: untold.mass ? "?" : mass(massKg, "up") },
  ];
}

/** Bag numbers as far as the plan has them. */
function bagCell({ task, number }: PlacedTask): Cell {
  const bags = bagNumbers(task, number);
  if (bags === null) return { text: "not known" };
  const [first, last] = [bags[0], bags.at(-1)];
  const counted = typeof task.sample?.bags === "number" && bags.length > 2;
  return { text: counted ? `${first} to ${last}` : bags.join(", ") };
}
