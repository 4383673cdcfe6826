import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import { projectOf, projectRun } from "../../src/solver/project/index.ts";
import { tailsOf } from "../../src/solver/project/floor.ts";
import { positiveCycle, spanOf } from "../../src/solver/project/network.ts";
import { finishOf, type Project, projectFrom } from "../../src/solver/project/problem.ts";
import { type Activity, type Instance, planOf, readJobShop } from "../bench/psplib.ts";

/** Activities named by letters, `A2 -; B4 A; ...`: name, length, predecessors; finish-to-start. */
function network(text: string): { project: Project; names: string[] } {
  const rows = text.split(";").map((part) => {
    const [head = "", before = "-"] = part.trim().split(" ");
    return { name: head[0]!, length: Number(head.slice(1)), before: before === "-" ? [] : before.split(",") };
  });
  const names = rows.map(({ name }) => name);
  const project = projectFrom({
    lengths: rows.map(({ length }) => length),
    capacities: [],
    demands: rows.map(() => []),
    lags: rows.flatMap(({ before }, to) =>
      before.map((name) => ({ from: names.indexOf(name), to, lag: rows[names.indexOf(name)]!.length })),
    ),
    openings: rows.map(() => [{ from: 0, to: 1000 }]),
  });
  return { project, names };
}

/** Finish of the critical path, and the slack of each activity by name. */
function critical({ project, names }: { project: Project; names: string[] }) {
  const { earliest } = spanOf(project)!;
  const tail = tailsOf(project);
  const finish = finishOf(project, earliest);
  const slack = names.map(
    (name, a) => [name, finish - tail[a]! - project.length[a]! - earliest[a]!] as const,
  );
  return { finish, slack: Object.fromEntries(slack), earliest };
}

describe("critical paths", () => {
  it("Hillier & Lieberman, Introduction to Operations Research, project-management chapter: 44", () => {
    const { finish, slack } = critical(
      network("A2 -; B4 A; C10 B; D6 C; E4 C; F5 E; G7 D; H9 E,G; I7 C; J8 F,I; K4 J; L5 J; M2 H; N6 K,L"),
    );
    expect(finish).toBe(44);
    expect(slack).toEqual({
      A: 0,
      B: 0,
      C: 0,
      D: 4,
      E: 0,
      F: 0,
      G: 4,
      H: 4,
      I: 2,
      J: 0,
      K: 1,
      L: 0,
      M: 4,
      N: 0,
    });
  });

  it("Taylor, Introduction to Management Science, ch. 8: 20", () => {
    // Arcs between events: 1-2 7 (A), 1-3 10 (B), 2-4 6 (C), 3-4 5 (D), 3-5 4 (E), 4-5 3 (F), 5-6 2 (G).
    const { finish, slack } = critical(network("A7 -; B10 -; C6 A; D5 B; E4 B; F3 C,D; G2 E,F"));
    expect(finish).toBe(20);
    expect(slack).toEqual({ A: 2, B: 0, C: 2, D: 0, E: 4, F: 0, G: 0 });
  });

  it("a network with free float: 11, total float C1 E1, free float C0 E1", () => {
    const graph = network("A1 -; B3 A; C2 A; D3 B; E3 C; F2 D,E; G2 F");
    const { finish, slack, earliest } = critical(graph);
    expect(finish).toBe(11);
    expect(slack).toEqual({ A: 0, B: 0, C: 1, D: 0, E: 1, F: 0, G: 0 });
    const free = (name: string): number => {
      const a = graph.names.indexOf(name);
      const { lagFrom, lagTo, length } = graph.project;
      const nexts = [...lagFrom.keys()].filter((e) => lagFrom[e] === a).map((e) => earliest[lagTo[e]!]!);
      return Math.min(...nexts) - earliest[a]! - length[a]!;
    };
    expect([free("C"), free("E")]).toEqual([0, 1]);
  });
});

describe("simple temporal problem: Dechter, Meiri & Pearl 1991, Artif Intell 49:61-95, example 1.1", () => {
  // From memory; the matrix is recomputed. Each row: Xj - Xi in [least, greatest].
  const morning: [number, number, number, number][] = [
    [0, 1, 10, 20],
    [1, 2, 30, 40],
    [3, 4, 40, 50],
    [3, 2, 10, 20],
    [0, 4, 60, 70],
  ];
  /** Events without length; event `fixed` is at 1000. */
  const events = (between: [number, number, number, number][], fixed: number): Project =>
    projectFrom({
      lengths: [0, 0, 0, 0, 0],
      capacities: [],
      demands: [[], [], [], [], []],
      lags: between.flatMap(([from, to, least, greatest]) => [
        { from, to, lag: least },
        { from: to, to: from, lag: -greatest },
      ]),
      openings: [0, 1, 2, 3, 4].map((x) => [x === fixed ? { from: 1000, to: 1000 } : { from: 0, to: 2000 }]),
    });

  it("minimal distances", () => {
    const matrix = [0, 1, 2, 3, 4].map((row) =>
      [...spanOf(events(morning, row))!.latest].map((latest) => latest - 1000),
    );
    expect(matrix).toEqual([
      [0, 20, 50, 30, 70],
      [-10, 0, 40, 20, 60],
      [-40, -30, 0, -10, 30],
      [-20, -10, 20, 0, 50],
      [-60, -50, -20, -40, 0],
    ]);
    const { earliest, latest } = spanOf(events(morning, 0))!;
    expect([earliest[2]! - 1000, latest[2]! - 1000]).toEqual([40, 50]);
    expect([earliest[3]! - 1000, latest[3]! - 1000]).toEqual([20, 30]);
  });

  it("going by bus, or with X3 - X0 in [5, 15], it is inconsistent", () => {
    const bus = morning.map((row) => (row[1] === 2 && row[0] === 1 ? ([1, 2, 60, 1000] as typeof row) : row));
    const early: typeof morning = [...morning, [0, 3, 5, 15]];
    for (const changed of [bus, early]) {
      expect(spanOf(events(changed, 0))).toBeNull();
      expect(positiveCycle(events(changed, 0)).length).toBeGreaterThan(0);
    }
  });
});

/** Packs the instance as a plan, twice judged: by the judge and by the proof the run claims. */
function proved(instance: Instance, title: string) {
  const plan = planOf(instance, title);
  const run = projectRun(projectOf(plan)!, { seed: 1, iterations: 20_000, clock: () => 0 });
  while (run.step(1)) continue;
  const { score } = check(plan, run.best());
  expect(score.breaches + score.mustLeftOut).toBe(0);
  expect(run.progress().finishS).toBe(score.finishS);
  return { finish: score.finishS, stopped: run.progress().stopped, floor: run.progress().floorS };
}

const FT06 = `6 6
2 1 0 3 1 6 3 7 5 3 4 6
1 8 2 5 4 10 5 10 0 10 3 4
2 5 3 4 5 8 0 9 1 1 4 7
1 5 0 5 2 5 3 3 4 8 5 9
2 9 1 3 4 5 5 4 0 3 3 1
1 3 3 3 5 9 0 10 4 4 2 1`;

const LA01 = `10 5
1 21 0 53 4 95 3 55 2 34
0 21 3 52 4 16 2 26 1 71
3 39 4 98 1 42 2 31 0 12
1 77 0 55 4 79 2 66 3 77
0 83 3 34 2 64 1 19 4 37
1 54 2 43 4 79 0 92 3 62
3 69 4 77 1 87 2 87 0 93
2 38 0 60 1 41 3 24 4 83
3 17 1 49 4 25 0 44 2 98
4 77 3 79 2 43 1 75 0 96`;

describe("job shops, to the optimum and proved", () => {
  it("Fisher & Thompson 1963, FT06: 55", () => {
    expect(proved(readJobShop(FT06), "FT06")).toEqual({ finish: 55, floor: 55, stopped: "proved" });
  });

  it("Lawrence 1984, LA01: 666, the load of machine 4", () => {
    const instance = readJobShop(LA01);
    const load = instance.activities.reduce((sum, { length, demand }) => sum + length * demand[4]!, 0);
    expect(load).toBe(666);
    expect(proved(instance, "LA01")).toEqual({ finish: 666, floor: 666, stopped: "proved" });
  });
});

const J301_1 = `0|0 0 0 0|2 3 4; 8|4 0 0 0|6 11 15; 4|10 0 0 0|7 8 13; 6|0 0 0 3|5 9 10; 3|3 0 0 0|20; 8|0 0 0 8|30;
5|4 0 0 0|27; 9|0 1 0 0|12 19 27; 2|6 0 0 0|14; 7|0 0 0 1|16 25; 9|0 5 0 0|20 26; 2|0 7 0 0|14; 6|4 0 0 0|17 18;
3|0 8 0 0|17; 9|3 0 0 0|25; 10|0 0 0 5|21 22; 6|0 0 0 8|22; 5|0 0 0 7|20 22; 3|0 1 0 0|24 29; 7|0 10 0 0|23 25;
2|0 0 0 6|28; 7|2 0 0 0|23; 2|3 0 0 0|24; 3|0 9 0 0|30; 3|4 0 0 0|30; 7|0 0 4 0|31; 8|0 0 0 7|28; 3|0 8 0 0|31;
7|0 7 0 0|32; 2|0 7 0 0|32; 2|0 0 2 0|32; 0|0 0 0 0|`;

describe("project scheduling: Kolisch & Sprecher 1997, Eur J Oper Res 96:205-216, instance j301_1", () => {
  const numbers = (text: string): number[] => text.trim().split(" ").filter(Boolean).map(Number);
  const instance: Instance = {
    capacities: [12, 13, 4, 12],
    activities: J301_1.split(";").map((row): Activity => {
      const [length = "", demand = "", next = ""] = row.split("|");
      return {
        length: Number(length),
        demand: numbers(demand),
        lags: numbers(next).map((job) => ({ to: job - 1, least: Number(length) })),
      };
    }),
  };

  it("critical path 38, optimum 43, 42 proved infeasible", () => {
    const problem = projectOf(planOf(instance, "j301_1"))!;
    expect(finishOf(problem, spanOf(problem)!.earliest)).toBe(38);
    expect(proved(instance, "j301_1")).toEqual({ finish: 43, floor: 43, stopped: "proved" });
  });
});
