import { describe, expect, it } from "vitest";
import { z } from "zod";
import { parse, type Plan } from "../../../src/plan/index.ts";
import { planSchema } from "../../../src/plan/plan.ts";
import { PAGES } from "../../../src/screens/setup/pages.ts";
import { numberedLink } from "../../../src/screens/fields/links.ts";
import type { Cell } from "../../../src/screens/fields/table.ts";
import { completePlan } from "./complete.ts";
import { readyPlan } from "../../readyplan.ts";

const tables = PAGES.flatMap((page) => page.tables);

function cellsOf(plan: Plan): Cell[] {
  return tables.flatMap((table) =>
    table.lines(plan).flatMap((line) => line.cells.filter((cell): cell is Cell => cell !== null)),
  );
}

const PLANS: readonly (readonly [string, Plan])[] = [
  ["the demo plan", readyPlan("demo")],
  ["the small plan", readyPlan("small")],
  ["a plan with every field", completePlan],
];

describe.each(PLANS)("every cell of %s", (_name, plan) => {
  const cells = cellsOf(plan);

  it("is read back as the value that it shows for editing", () => {
    for (const cell of cells) {
      if (cell.fixed !== null) continue;
      const read = cell.entry.read(cell.entry.draft(cell.value, plan), plan, cell.guide);
      expect([cell.path, read.ok ? read.value : read.error]).toEqual([cell.path, cell.value]);
    }
  });

  it("put back as it is leaves the same plan", () => {
    for (const cell of cells) {
      if (cell.fixed === null) expect([cell.path, cell.put(cell.value)(plan)]).toSatisfy(unchanged);
    }
    function unchanged([, parts]: [string, Partial<Plan>]): boolean {
      const keys = Object.keys(parts) as (keyof Plan)[];
      return keys.every((key) => JSON.stringify(sorted(parts[key])) === JSON.stringify(sorted(plan[key])));
    }
  });

  it("is explained in the unit that it is written in, by no name of the document's", () => {
    const bySeconds = (cell: Cell) => ["h:mm", "MET"].includes(cell.unit) && /, s\b|second/.test(cell.hint);
    const byShare = (cell: Cell) => cell.unit === "%" && cell.hint.includes("Share, ");
    const byName = (cell: Cell) => /[a-z]{3,}[A-Z]/.test(cell.hint);
    const odd = cells.filter((cell) => bySeconds(cell) || byShare(cell) || byName(cell));
    expect(odd.map((cell) => `${cell.path}: ${cell.hint}`)).toEqual([]);
  });

  it("says nothing where it does not apply and nothing is given", () => {
    const empty = cells.filter((cell) => cell.fixed !== null && cell.value === undefined);
    expect(empty.length).toBeGreaterThan(0);
    expect(empty.filter(({ shown }) => shown !== "").map(({ id, shown }) => `${id}: ${shown}`)).toEqual([]);
  });

  it("has a name of its own", () => {
    const ids = cells.map((cell) => cell.id);
    expect(new Set(ids).size).toBe(ids.length);
  });
});

describe("links in words", () => {
  it("tell two tasks of one name apart by their numbers", () => {
    const plan = readyPlan("large");
    const same = plan.links.filter((link) => {
      const [a, b] = link.type === "lag" ? [link.from.task, link.to.task] : link.tasks;
      const nameOf = (id: string) => plan.tasks.find((task) => task.id === id)!.name;
      return nameOf(a) === nameOf(b);
    });
    expect(same.length).toBeGreaterThan(0);
    for (const link of same) expect(numberedLink(plan, link)).not.toContain(" or ");
    expect(numberedLink(plan, same[0]!)).toMatch(/^\d+ (.+) (?:and|starts .*) \d+ \1/);
  });
});

/** The same data with names in order, so that it can be compared as text. */
function sorted(data: unknown): unknown {
  if (Array.isArray(data)) return data.map(sorted);
  if (typeof data !== "object" || data === null) return data;
  return Object.fromEntries(
    Object.entries(data)
      .filter(([, value]) => value !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, value]) => [key, sorted(value)]),
  );
}

describe("a new and a copied row", () => {
  it.each(tables.filter((table) => table.rows).map((table) => [table.id, table] as const))(
    "of %s leave the plan sound",
    (_id, table) => {
      const { rows } = table;
      const made = rows?.add(completePlan);
      const line = table.lines(completePlan)[0];
      const copied = line && rows?.copy(completePlan, line.id);
      for (const one of [made, copied]) {
        if (one === undefined || typeof one === "string") throw new Error(`${table.id}: ${one}`);
        const next = { ...completePlan, ...one.change(completePlan) };
        const read = parse(next);
        expect(read.ok ? [] : read.error).toEqual([]);
        expect(table.line(next, one.id)).not.toBeNull();
        expect(table.lines(next)).toHaveLength(table.lines(completePlan).length + 1);
      }
    },
  );

  it("of a crew member wears a suit that nobody wears, where there is one", () => {
    const crew = tables.find((table) => table.id === "crew")!;
    const spare = { ...completePlan.suits[0]!, id: "spare" };
    const plan = { ...completePlan, suits: [spare, ...completePlan.suits] };
    const made = crew.rows!.add(plan);
    if (typeof made === "string") throw new Error(made);
    expect(made.change(plan).crew!.at(-1)!.suit).toBe("spare");
  });

  it("is refused in words where there can be none", () => {
    const crew = tables.find((table) => table.id === "crew")!;
    const full = {
      ...completePlan,
      crew: ["a", "b", "c", "d"].map((id) => ({ ...completePlan.crew[0]!, id })),
    };
    expect(crew.rows?.add(full)).toBe("A plan holds at most 4 crew members.");
    const links = tables.find((table) => table.id === "links")!;
    expect(links.rows?.add({ ...completePlan, tasks: [] })).toMatch(/two tasks first/);
  });
});

describe("setup", () => {
  /**
   * What setup leaves to others: the format, names inside the document, the height grid, schedules, what people say and sign beside it;
   * what nobody has given shows in its own cell.
   */
  const ELSEWHERE =
    /^(format|version|ground|schedule|variants|comments|signoffs|hands)(\.|$)|(^|\.)(id|toGive)$/;

  it("has a place for every field of the plan", () => {
    const shown = cellsOf(completePlan).map((cell) => cell.path.replace(/\.\d+(?=\.|$)/g, ".*"));
    const covers = (path: string): boolean =>
      shown.some((one) => path === one || path.startsWith(`${one}.`) || COVERED_BY[path] === one);
    const missing = leaves(planSchema, "").filter((path) => !ELSEWHERE.test(path) && !covers(path));
    expect(missing).toEqual([]);
  });

  /** Fields of other forms of the same thing, set by the cell that is named. */
  const COVERED_BY: Readonly<Record<string, string>> = {
    "links.*.tasks.0": "links.*.from.task",
    "links.*.tasks.1": "links.*.to.task",
    "tasks.*.sample.container": "tasks.*.sample",
    "tasks.*.bringsNothing": "tasks.*.sample",
  };

  function leaves(wrapped: z.core.$ZodType, path: string): string[] {
    const schema = bare(wrapped);
    const below = (name: string): string => (path === "" ? name : `${path}.${name}`);
    if (schema instanceof z.ZodObject) {
      return Object.entries(schema.shape).flatMap(([name, inner]) => leaves(inner as z.ZodType, below(name)));
    }
    if (schema instanceof z.ZodTuple) {
      return schema.def.items.flatMap((inner, index) => leaves(inner, below(String(index))));
    }
    if (schema instanceof z.ZodUnion) {
      const all = schema.options.flatMap((option) => leaves(option, path));
      return [...new Set(all)];
    }
    if (schema instanceof z.ZodArray) {
      const inner = bare(schema.element);
      const plain = !(inner instanceof z.ZodObject || inner instanceof z.ZodUnion);
      return plain ? [path] : leaves(inner, below("*"));
    }
    return [path];
  }

  function bare(schema: z.core.$ZodType): z.core.$ZodType {
    const wrapped = [z.ZodOptional, z.ZodDefault, z.ZodPrefault, z.ZodNullable];
    if (wrapped.some((one) => schema instanceof one)) return bare((schema as z.ZodOptional).unwrap());
    return schema instanceof z.ZodPipe ? bare(schema.in) : schema;
  }
});

it("a link is said with the numbers of its tasks", () => {
  const links = tables.find(({ id }) => id === "links")!;
  const said = links.lines(readyPlan("demo")).map(({ cells }) => cells[0]!.shown);
  expect(said[0]).toBe("6 Carry heat bank and node out starts no earlier than 1 Quick first sample ends.");
  for (const words of said) expect(words.match(/\b\d+ [A-Z]/g)?.length).toBeGreaterThanOrEqual(2);
});
