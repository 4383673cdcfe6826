import { describe, expect, it } from "vitest";
import type { ShedCell } from "../../../src/answers/index.ts";
import { heldCells, shedWords } from "../../../src/screens/odds/shedcells.ts";

const cell = (part: Partial<ShedCell>): ShedCell => ({
  minutes: 5,
  kind: "drop",
  drop: ["a"],
  vain: [],
  mustLost: 0,
  worthLost: 10,
  least: true,
  breaks: [],
  moves: [],
  sentence: "",
  ...part,
});
const name = (task: string): string => `Task ${task}`;

describe("a row of the shed order", () => {
  it("takes equal neighbours together and nothing else", () => {
    const cells = [
      cell({ kind: "keep", drop: [] }),
      cell({ minutes: 10 }),
      cell({ minutes: 20 }),
      cell({ minutes: 30, drop: ["a", "b"] }),
      cell({ minutes: 45 }),
    ];
    expect(heldCells(cells).map(({ cell: one, span }) => [one.minutes, span])).toEqual([
      [5, 1],
      [10, 2],
      [30, 1],
      [45, 1],
    ]);
  });

  it("keeps apart what differs only in a broken rule or in how sure it is", () => {
    const cells = [cell({}), cell({ breaks: ["work-and-rest"] }), cell({ least: false })];
    expect(heldCells(cells)).toHaveLength(3);
  });

  it("says in words what to do", () => {
    expect(shedWords(cell({ kind: "keep", drop: [] }), name)).toBe("drop nothing");
    expect(shedWords(cell({ drop: ["a", "b"], breaks: ["work-and-rest"] }), name)).toBe(
      "drop Task a, Task b; breaks work and rest",
    );
    expect(shedWords(cell({ vain: ["b"] }), name)).toBe("drop Task a; in vain: Task b");
    expect(shedWords(cell({ kind: "end" }), name)).toBe("end the EVA");
    expect(shedWords(cell({ kind: "over", breaks: ["reserve"] }), name)).toBe(
      "end the EVA at once; breaks reserves or the longest EVA",
    );
  });
});
