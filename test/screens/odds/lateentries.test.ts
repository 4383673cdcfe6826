import { describe, expect, it } from "vitest";
import type { LateEntry, LateReport } from "../../../src/answers/index.ts";
import { instant } from "../../../src/kernel/index.ts";
import {
  aloneWords,
  joinedCells,
  orderOn,
  type OrderWords,
  resultWords,
  entryWords,
  widestError,
} from "../../../src/screens/odds/lateentries.ts";
import { chanceOf } from "../../../src/solver/simulate/chance.ts";

const cell = (part: Partial<LateEntry>): LateEntry => ({
  minutes: 5,
  kind: "drop",
  drop: ["a"],
  voided: [],
  mustLost: 0,
  worthLost: 10,
  least: true,
  breaks: [],
  add: [],
  moves: [],
  then: [],
  result: null,
  alone: null,
  sentence: "",
  ...part,
});
const name = (task: string): string => `Task ${task}`;
const words = (planned: readonly string[] = []) => ({
  nameOf: name,
  crewOf: (crew: string): string => `EV${crew}`,
  plannedOf: () => planned,
});

/** All that a cell tells, as one reads it. */
function told(one: LateEntry, more: OrderWords = words()): string {
  const { does, but, orders } = entryWords(one, more);
  return [...does, ...orders, ...but].join("; ");
}

const chance = (count: number) => ({ count, of: 300, share: count / 300, low: 0.8, high: 0.9, words: "" });
const outcome = (count: number, meanWorth: number) => ({
  home: chance(300),
  must: chance(count),
  meanWorth,
});

describe("a row of a late table", () => {
  it("says another order whole, what it comes to, rounded down, and what leaving out alone comes to", () => {
    const one = cell({
      kind: "change",
      add: ["x"],
      then: [
        { crew: "1", tasks: ["x", "b"] },
        { crew: "2", tasks: [] },
      ],
      result: outcome(260, 1578.9),
      alone: { mustLost: 4, worthLost: 365, result: outcome(0, 1267.2) },
    });
    expect(told(one)).toBe("drop Task a; take up Task x; EV1 then Task x, Task b; EV2 then goes home");
    // 260 of 300 are 86.67 %.
    expect(resultWords(one)).toBe("must-do 86 %, worth 1\u202f578");
    expect(aloneWords(one)).toBe(
      "Only leaving out would lose 4 must-do and worth 365: must-do <90 %, worth 1\u202f267.",
    );
    // Only where somebody may come home outside a limit is that said, and then first.
    const unsure = { ...outcome(260, 1578.9), home: chance(295) };
    expect(resultWords({ ...one, result: unsure })).toBe(
      "everybody home 98 %, must-do 86 %, worth 1\u202f578",
    );
    expect(resultWords(cell({}))).toBeNull();
    expect(joinedCells([one, { ...one, minutes: 10, then: [] }])).toHaveLength(2);
  });

  it("names what is done otherwise than planned, and from which task on all is as planned", () => {
    const order = (tasks: readonly string[], planned: readonly string[]): string =>
      told(cell({ kind: "change", drop: ["d"], then: [{ crew: "1", tasks }] }), words(planned));
    expect(order(["x", "b", "c", "e"], ["a", "b", "c", "d", "e"])).toBe(
      "drop Task d; EV1 then Task x, then as planned from Task b on",
    );
    expect(order(["b", "c", "e"], ["a", "b", "c", "d", "e"])).toBe(
      "drop Task d; EV1 then as planned from Task b on",
    );
    // Two are named, and nothing that is in another order is said to be as planned.
    expect(order(["c", "b", "e"], ["a", "b", "c", "d", "e"])).toBe(
      "drop Task d; EV1 then Task c, Task b, Task e",
    );
    expect(order(["x", "c", "e"], ["a", "b", "c", "d", "e"])).toBe(
      "drop Task d; EV1 then Task x, Task c, Task e",
    );
  });

  it("has the planned order of a crew member on an EVA by start", () => {
    const spot = (task: string, eva: string, crew: string[], startS: number) => ({
      task,
      eva,
      crew,
      startS: instant(startS),
    });
    const placements = [
      spot("b", "1", ["x", "y"], 200),
      spot("a", "1", ["x"], 100),
      spot("c", "2", ["x"], 50),
    ];
    const of = orderOn({ schedule: { placements } }, "1");
    expect(of("x")).toEqual(["a", "b"]);
    expect(of("y")).toEqual(["b"]);
  });

  it("takes equal neighbours together and nothing else", () => {
    const cells = [
      cell({ kind: "keep", drop: [] }),
      cell({ minutes: 10 }),
      cell({ minutes: 20 }),
      cell({ minutes: 30, drop: ["a", "b"] }),
      cell({ minutes: 45 }),
    ];
    expect(joinedCells(cells).map(({ cell: one, span }) => [one.minutes, span])).toEqual([
      [5, 1],
      [10, 2],
      [30, 1],
      [45, 1],
    ]);
  });

  it("keeps apart what differs only in a broken rule or in how sure it is", () => {
    const cells = [cell({}), cell({ breaks: ["work-and-rest"] }), cell({ least: false })];
    expect(joinedCells(cells)).toHaveLength(3);
  });

  it("says in words what to do", () => {
    expect(told(cell({ kind: "keep", drop: [] }))).toBe("drop nothing");
    expect(told(cell({ drop: ["a", "b"], breaks: ["work-and-rest"] }))).toBe(
      "drop Task a, Task b; breaks work and rest",
    );
    expect(told(cell({ voided: ["b"] }))).toBe("drop Task a; in vain: Task b");
    expect(told(cell({ kind: "end" }))).toBe("end the EVA");
    expect(told(cell({ kind: "over", breaks: ["reserve"] }))).toBe(
      "end the EVA at once; breaks reserves or the longest EVA",
    );
    expect(told(cell({ kind: "over", breaks: ["crew-separation"] }))).toBe(
      "end the EVA at once; breaks crew separation; not tried: the others hold where they are",
    );
  });
});

describe("how sure the shares of the tables are", () => {
  const tables = (late: readonly LateEntry[]): LateReport => ({
    minutes: [5],
    days: 300,
    sound: true,
    complete: true,
    evas: [{ eva: "1", rows: [{ task: "a", crew: ["1"], endS: instant(0), late, early: [] }] }],
  });
  const counted = (count: number) =>
    cell({ result: { home: chanceOf(300, 300), must: chanceOf(count, 300), meanWorth: 1 } });

  it("is said by the widest of them, rounded up", () => {
    // Wilson's interval of 150 of 300: 44.4 to 55.6 %; of 299 of 300: 98.1 to 99.9 %.
    expect(widestError(tables([counted(299)]))).toBe(2);
    expect(widestError(tables([counted(299), counted(150), cell({})]))).toBe(6);
  });

  it("is not said where no row comes to anything", () => {
    expect(widestError(tables([cell({ kind: "over" })]))).toBeNull();
  });
});
