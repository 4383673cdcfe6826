import { describe, expect, it } from "vitest";
import {
  given,
  givenBetween,
  guideTo,
  parse,
  parseText,
  type Plan,
  stillToGive,
  TO_GIVE,
} from "../../src/plan/index.ts";
import { completePlan } from "./completePlan.ts";

function plan(): Plan {
  const read = parse(completePlan);
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return read.value;
}

/** Where the things of a list lie, if not in the list of that name. */
const PATHS: Readonly<Record<string, string>> = { site: "site", stay: "stay", places: "site.places.*" };

describe("values that nobody has given", () => {
  it("are named by what holds them, in the file as well", () => {
    const again = parseText(JSON.stringify(plan()));
    expect(again.ok && again.value).toEqual(plan());
    expect(stillToGive(plan()).map(({ list, id, field }) => `${list} ${id} ${field}`)).toEqual([
      "site site lonDeg",
      "stay stay lengthS",
      "crew ev1 bodyMassKg",
      ...["a", "b", "c"].flatMap((suit) => [`suits suit-${suit} massKg`, `suits suit-${suit} waterKg`]),
      "containers box-1 volumeL",
      "places ridge eastM",
      "places ridge northM",
      "tasks deploy duration.likelyS",
    ]);
  });

  it("are fields of the format, and no others can be named", () => {
    for (const [list, fields] of Object.entries(TO_GIVE))
      for (const field of fields)
        expect(guideTo(`${PATHS[list] ?? `${list}.*`}.${field}`).words).not.toBe("");
    const [box] = plan().containers;
    expect(parse({ ...completePlan, containers: [{ ...box, toGive: ["name"] }] }).ok).toBe(false);
    expect(parse({ ...completePlan, containers: [{ ...box, toGive: [] }] }).ok).toBe(false);
  });

  it("are given one by one; the last takes the list away", () => {
    const [suit] = plan().suits;
    const one = given(suit!, ["massKg"]);
    expect(one.toGive).toEqual(["waterKg"]);
    expect(given(one, ["waterKg"])).not.toHaveProperty("toGive");
    expect(given(suit!, ["oxygenKg"])).toBe(suit);
  });

  it("are given by whoever puts another value there, and by nothing else", () => {
    const before = plan();
    const places = before.site.places.map((one) =>
      one.id === "ridge" ? { ...one, eastM: 410, name: "Long ridge" } : one,
    );
    const after = givenBetween(before, { ...before, site: { ...before.site, places } });
    expect(after.site.places.find(({ id }) => id === "ridge")?.toGive).toEqual(["northM"]);
    expect(after.suits).toEqual(before.suits);
    expect(after.site.toGive).toEqual(["lonDeg"]);
    const moved = givenBetween(before, {
      ...before,
      site: { ...before.site, lonDeg: 4 },
      stay: { ...before.stay, earthLink: false },
    });
    expect(moved.site).not.toHaveProperty("toGive");
    expect(moved.stay.toGive).toEqual(["lengthS"]);
    // The last one of all as well.
    const bare = plan();
    const rest = <Row extends { readonly id: string }>(rows: readonly Row[]): Row[] =>
      rows.map((row) => given(row, Object.values(TO_GIVE).flat()));
    const one: Plan = {
      ...bare,
      stay: given(bare.stay, TO_GIVE.stay),
      crew: rest(bare.crew),
      suits: rest(bare.suits),
      containers: rest(bare.containers),
      tasks: rest(bare.tasks),
      site: { ...bare.site, places: rest(bare.site.places) },
    };
    expect(stillToGive(one)).toHaveLength(1);
    expect(givenBetween(one, { ...one, site: { ...one.site, lonDeg: 4 } }).site).not.toHaveProperty("toGive");
    // What is new is as it came.
    const suit = { ...before.suits[0]!, id: "suit-d", massKg: 1 };
    expect(givenBetween(before, { ...before, suits: [...before.suits, suit] }).suits.at(-1)).toEqual(suit);
  });
});
