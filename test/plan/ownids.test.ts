import { describe, expect, it } from "vitest";
import { parse, type Plan } from "../../src/plan/index.ts";
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
});

function differing(one: Thing): object {
  if ("name" in one) return { name: `${one.name} of mine` };
  return { type: "eva", tasks: ["survey", "deploy"], crew: undefined };
}
