import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  applyEdit,
  type Edit,
  editBetween,
  invertEdit,
  isEmptyEdit,
  parse,
  type Plan,
  squashEdits,
} from "../../src/plan/index.ts";

const read = parse({
  format: "lopeline-plan",
  version: 1,
  title: "Edits",
  site: {
    name: "Site",
    latDeg: 10,
    lonDeg: 20,
    places: [{ id: "lander", name: "Lander", kind: "lander", eastM: 0, northM: 0 }],
  },
  stay: { touchdownUtc: "2031-04-05T06:07:00Z", lengthS: 80_000 },
  crew: [],
  suits: [],
  evas: [],
  tasks: [],
});
if (!read.ok) throw new Error(JSON.stringify(read.error));
const start: Plan = read.value;

/** One small change of a plan. A few values for each branch, so that changes often meet and often cancel out. */
const titles = ["Edits", "One", "Two"];
const notes = ["", "a", "b"];
const links = [start.links, [], []];
type Move = (plan: Plan) => Plan;
const move: fc.Arbitrary<Move> = fc.oneof(
  fc.constantFrom(...titles).map((title): Move => (plan) => ({ ...plan, title })),
  fc.constantFrom(...notes).map((words): Move => (plan) => ({ ...plan, notes: words })),
  fc.constantFrom(...links).map((list): Move => (plan) => ({ ...plan, links: list })),
  fc
    .tuple(fc.constantFrom(...titles), fc.constantFrom(...notes))
    .map(([title, words]): Move => (plan) => ({ ...plan, title, notes: words })),
);

/** A chain of edits, each made on what the one before left, and the plan at its end. */
function chained(moves: readonly Move[]): { edits: Edit[]; last: Plan } {
  let plan = start;
  const edits = moves.map((one, index) => {
    const next = one(plan);
    const edit = editBetween(`step ${index}`, plan, next);
    plan = next;
    return edit;
  });
  return { edits, last: plan };
}

const moves = (count: number) => fc.array(move, { minLength: count, maxLength: count });

describe("an edit", () => {
  it("gives the changed plan when applied", () => {
    fc.assert(
      fc.property(moves(1), (list) => {
        const { edits, last } = chained(list);
        expect(applyEdit(start, edits[0]!)).toEqual(last);
      }),
    );
  });

  it("restores the plan when its inverse is applied after it, branch by branch the same objects", () => {
    fc.assert(
      fc.property(moves(1), (list) => {
        const edit = chained(list).edits[0]!;
        const back = applyEdit(applyEdit(start, edit), invertEdit(edit));
        for (const key of Object.keys(start) as (keyof Plan)[]) expect(back[key]).toBe(start[key]);
      }),
    );
  });

  it("is its own inverse's inverse", () => {
    fc.assert(
      fc.property(moves(1), (list) => {
        const edit = chained(list).edits[0]!;
        expect(invertEdit(invertEdit(edit))).toEqual(edit);
      }),
    );
  });

  it("squashed with the next does what both do", () => {
    fc.assert(
      fc.property(moves(2), (list) => {
        const { edits, last } = chained(list);
        const both = squashEdits(edits[0]!, edits[1]!);
        expect(applyEdit(start, both)).toEqual(last);
        expect(both.name).toBe("step 1");
        expect(applyEdit(last, invertEdit(both))).toEqual(start);
      }),
    );
  });

  it("squashes the same however three are grouped", () => {
    fc.assert(
      fc.property(moves(3), (list) => {
        const [a, b, c] = chained(list).edits as [Edit, Edit, Edit];
        expect(squashEdits(squashEdits(a, b), c)).toEqual(squashEdits(a, squashEdits(b, c)));
      }),
    );
  });

  it("squashed with its inverse is empty", () => {
    fc.assert(
      fc.property(moves(1), (list) => {
        const edit = chained(list).edits[0]!;
        expect(isEmptyEdit(squashEdits(edit, invertEdit(edit)))).toBe(true);
      }),
    );
  });

  it("names only the branches that differ", () => {
    const edit = editBetween("Rename", start, { ...start, title: "One", notes: "" });
    expect(edit.changes).toEqual([{ key: "title", before: "Edits", after: "One" }]);
  });

  it("refuses a plan whose branch is another than the one it was made on", () => {
    const edit = editBetween("Rename", start, { ...start, title: "One" });
    expect(() => applyEdit({ ...start, title: "Two" }, edit)).toThrow(/"Rename".*another "title"/);
  });

  it("refuses to be squashed with one that does not follow", () => {
    const first = editBetween("First", start, { ...start, title: "One" });
    const other = editBetween("Second", { ...start, title: "Two" }, start);
    expect(() => squashEdits(first, other)).toThrow(/does not follow "First"/);
  });
});
