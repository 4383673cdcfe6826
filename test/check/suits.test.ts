import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { moonSun } from "../../src/physics/index.ts";
import { environmentHeatW } from "../../src/physics/environment.ts";
import { carries, drinks, plan } from "./cases/suits.ts";
import { only } from "./pair.ts";
import { at, eva, task, type TinyParts } from "./tinyPlan.ts";

describe("heat stored in the body", () => {
  test("spare cooling while standing lets it go again, as long as it takes", () => {
    // Standing is 1.2 W/kg or so, far under 260 W: what is stored goes at the difference.
    const { outings } = check(plan({ suit: { coolingW: 260 }, second: 3000 }));
    const stands = outings[0]!.stretches.find((one) => one.kind === "wait")!;
    const goneS = Math.ceil(240_000 / (260 - Math.ceil(stands.metabolicW)));
    const after = (waitS: number): string[] =>
      check(plan({ suit: { coolingW: 260 }, second: 1000 + waitS })).findings.map(
        (one) => `${one.rule} ${one.level}`,
      );
    expect(after(goneS - 1)).toEqual(["heat-storage breach"]);
    // Just at the limit is tight.
    expect(after(goneS)).toEqual(["heat-storage tight"]);
  });

  test("is drawn against the limit, from nothing at egress", () => {
    // 80 kg times 3 kJ; 1000 s of 500 W against 260 W. Arithmetic.
    expect(check(plan({ suit: { coolingW: 260 } })).heat).toEqual([
      {
        eva: "eva-1",
        crew: "ev1",
        mostKj: 240,
        points: [
          { atS: 0, value: 0 },
          { atS: 1000, value: 240 },
        ],
      },
    ]);
  });

  test("heat-storage says what is stored rounded up and what is allowed rounded down", () => {
    // 1000 s of 500 W less 259.5 W; a body of 80 kg may store 2.99 kJ/kg, 239.2 kJ. Cooling counts as 259 W: 241 kJ.
    const warm = plan({ suit: { coolingW: 259.5 }, rules: { heat: { mostKjKg: 2.99 } } });
    expect(only(warm, "heat-storage").sentence).toContain("has stored 241 kJ");
    expect(only(warm, "heat-storage").sentence).toContain("at most 239 kJ");
    // 80 kg times 2.9995 kJ/kg are 239.96 kJ: no 240.
    const nearly = plan({ suit: { coolingW: 259.5 }, rules: { heat: { mostKjKg: 2.9995 } } });
    expect(only(nearly, "heat-storage").sentence).toContain("at most 239 kJ");
    // 999 s of 241 W are 240.759 kJ.
    const heavy = { effort: { watts: 500 }, duration: { likelyS: 999 } };
    const short = plan({
      suit: { coolingW: 259 },
      tasks: [task("work", "lander", heavy), task("more", "lander", heavy)],
    });
    expect(only(short, "heat-storage").sentence).toContain("has stored 241 kJ");
  });

  test("heat-storage asks nothing where cooling is not bounded, and is tight as a warning", () => {
    expect(check(plan()).findings).toEqual([]);
    const warned = plan({ suit: { coolingW: 100 }, rules: { heat: { level: "warning" } } });
    expect(only(warned, "heat-storage").level).toBe("tight");
  });
});

describe("drinking water", () => {
  test("drinking-water is tight when less than the plan's time is to spare, and not judged when not known", () => {
    expect(only(drinks(0.11, 101), "drinking-water").level).toBe("tight");
    expect(check(drinks(0.11, 100)).findings).toEqual([]);
    expect(check(plan({ rules: { drinking: { kgH: 5 } } })).findings).toEqual([]);
  });
});

describe("carried by hand", () => {
  test("carry holds at the very limit, 100 kg for one", () => {
    expect(only(carries(100), "carry").level).toBe("tight");
  });

  test("carry is tight within 5 %", () => {
    expect(only(carries(96), "carry").level).toBe("tight");
    expect(check(carries(95)).findings).toEqual([]);
  });
});

describe("what a suit draws (S7)", () => {
  const left = (parts: TinyParts, consumable: string): number => {
    const { margins } = check(plan(parts));
    return margins.find((one) => one.consumable === consumable)!.points.at(-1)!.value;
  };

  test("the purge is gone at egress", () => {
    expect(left({}, "oxygen") - left({ suit: { purgeKg: 0.25 } }, "oxygen")).toBeCloseTo(0.25, 8);
  });

  test("walking and work draw their own electrical load", () => {
    // 300 s out and 300 s back at 90 W, 600 s of work at 60 W, 600 s of airlock work at both ends at 60 W.
    const walked = {
      evas: [eva("eva-1", { crew: ["ev1"] })],
      tasks: [task("far", "a")],
      placements: [at("far", 2000)],
    };
    const full = 90_000;
    expect(
      full - left({ ...walked, suit: { electricalW: 30, walkingW: 90, workingW: 60 } }, "battery"),
    ).toBeCloseTo((600 * 90 + 1800 * 60) / 3600, 9);
  });

  test("heat from the sun is the greatest of the time in which the EVA may be out", () => {
    const sunny = {
      site: { latDeg: 10, lonDeg: 25 },
      more: { body: {} },
      suit: { heatFrom: "sun" as const, coolingKjKg: 2000 },
    };
    const observer = { latDeg: 10, lonDeg: 25, radiusM: 1_737_400 };
    const from = Date.parse("2031-04-05T06:07:00Z");
    const heats = Array.from({ length: 601 }, (_, k) =>
      environmentHeatW(moonSun(from + k * 60_000, observer).elevationDeg),
    );
    // 1000 s of 500 W and of that heat, each kg of feed water carrying off 2 MJ.
    const drawn = (80 - left(sunny, "water")) * 2000;
    const greatest = 500 + Math.max(...heats);
    expect(drawn).toBeGreaterThanOrEqual(greatest);
    expect(drawn).toBeLessThan(greatest + 1.5);
  });

  test("without an ephemeris it is the greatest at any sun elevation", () => {
    const heats = Array.from({ length: 901 }, (_, k) => environmentHeatW(k / 10));
    const drawn = (80 - left({ suit: { heatFrom: "sun", coolingKjKg: 2000 } }, "water")) * 2000;
    expect(drawn).toBeGreaterThanOrEqual(500 + Math.max(...heats));
    expect(drawn).toBeLessThan(501 + Math.max(...heats));
  });
});
