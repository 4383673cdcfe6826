import { describe, expect, it } from "vitest";
import { applyPatch, parse, patchBetween, type Plan } from "../../src/plan/index.ts";
import { mergePlans } from "../../src/plan/patch/together.ts";
import { completePlan } from "./completePlan.ts";

/** Every list of things with ids, and a second thing of each sort that differs from the first. */
const LISTS = [
  "tasks",
  "crew",
  "suits",
  "evas",
  "equipment",
  "containers",
  "links",
  "groups",
  "variants",
  "site.places",
  "site.keepOuts",
  "stay.blocks",
  "stay.relayPasses",
] as const;

type Thing = { id: string; name?: string; number?: string };
type Loose = Record<string, unknown>;

const read = (data: unknown): Plan => {
  const made = parse(data);
  if (!made.ok) throw new Error(JSON.stringify(made.error));
  return made.value;
};

const listIn = (plan: object, path: string): Thing[] =>
  path.split(".").reduce<unknown>((at, step) => (at as Loose)[step], plan) as Thing[];

describe("things that both hands added under one id", () => {
  // Base lacks whatever refers to anything, so that the whole of the complete plan is added by each hand.
  it.each(LISTS)("%s: what they say of theirs stays said of theirs", (list) => {
    const theirs = read(structuredClone(completePlan));
    const mine = structuredClone(theirs) as Plan;
    const things = listIn(mine, list);
    expect(things.length).toBeGreaterThan(0);
    const base = structuredClone(theirs) as Plan;
    // Mine has another thing under each id of the list: it differs in one field.
    for (const one of things) Object.assign(one, differing(one));
    listIn(base, list).splice(0);
    const { theirs: own } = mergePlans(base, mine, theirs);
    const ids = listIn(theirs, list).map(({ id }) => id);
    const made = listIn(own, list).map(({ id }) => id);
    expect(made.filter((id) => ids.includes(id))).toEqual([]);
    // Whatever referred to them still finds them, and nothing else has changed.
    expect(parse(structuredClone(own))).toMatchObject({ ok: true });
  });

  it.each(LISTS.filter((list) => list !== "variants"))(
    "%s: what a variant of theirs gives up it gives up of theirs",
    (list) => {
      const whole = read(structuredClone(completePlan));
      // A variant for which every list stands in another order and lacks its first thing: all there is of a list is said in its patch.
      const lacking = (kept: string): Plan => {
        const other = structuredClone(whole);
        for (const one of [...LISTS, "schedule.placements", "site.legs"])
          listIn(other, one).splice(
            0,
            Infinity,
            ...listIn(other, one)
              .slice(one === kept ? 0 : 1)
              .toReversed(),
          );
        return Object.assign(other, { variants: whole.variants });
      };
      const merged = (other: Plan) => {
        const givesUp = { sentence: "All of it.", owner: null, patch: [...patchBetween(whole, other)] };
        const theirs = read({ ...whole, variants: [{ ...whole.variants[0]!, givesUp }] });
        const mine = structuredClone(theirs) as Plan;
        const base = structuredClone(theirs) as Plan;
        for (const one of listIn(mine, list)) Object.assign(one, differing(one));
        listIn(base, list).splice(0);
        const { theirs: own } = mergePlans(base, mine, theirs);
        const made = applyPatch(own, own.variants[0]!.givesUp!.patch);
        if (!made.ok) throw new Error(JSON.stringify(made.error));
        // The same things under their other ids: as if the variant's plan had been sent instead.
        const { theirs: sent } = mergePlans(base, mine, { ...other, variants: theirs.variants });
        return { made: made.value, sent };
      };
      const { made, sent } = merged(lacking(list));
      expect({ ...made, variants: [] }).toEqual({ ...sent, variants: [] });
      expect(listIn(merged(lacking("none")).made, list).length).toBe(listIn(whole, list).length - 1);
    },
  );
});

function differing(one: Thing): object {
  if ("name" in one) return { name: `${one.name} of mine` };
  return { type: "eva", tasks: ["survey", "deploy"], crew: undefined };
}
