import { describe, expect, it } from "vitest";
import { CAP, MM_PER_PT } from "../../src/exchange/paper/type.ts";
import { lookAt, nothingSeen } from "./cuffpages.ts";

/** `cuffpages.hunt` looks at 200 plans. */
const PLANS = 8;

describe("cuff pages in the file", () => {
  it(`clip and cover nothing, have every task once for each of its crew, and say what the judge says, on ${PLANS} plans`, async () => {
    const seen = nothingSeen();
    for (let seed = 1; seed <= PLANS; seed += 1) await lookAt(seed, seen);
    expect(seen.pages).toBeGreaterThan(PLANS * 8);
    for (const [what, least] of [
      ["tasks", 3],
      ["steps", 4],
      ["strips", 3],
      ["answers", 1],
      ["ways", 2],
      ["rows", 3],
      ["partners", 1],
    ] as const)
      expect(seen[what], what).toBeGreaterThan(PLANS * least);
  });
});

describe("what the crew reads", () => {
  /** Minutes of arc that a height fills at a distance. */
  const arcmin = (mm: number, atMm: number): number => (2 * Math.atan(mm / 2 / atMm) * 180 * 60) / Math.PI;
  const capital = (sizePt: number): number => CAP * sizePt * MM_PER_PT;

  it("fills 16 minutes of arc at 60 cm with its least capitals, and 20 with those of steps", () => {
    // NUREG-0700 rev. 3, 11.4.1.5-1: capitals of 15 to 16 minutes of arc at the least, 20 preferred. 11 pt: 2.87 mm.
    expect(capital(11)).toBeCloseTo(2.87, 2);
    expect(arcmin(capital(11), 500)).toBeGreaterThan(19.7);
    expect(arcmin(capital(11), 600)).toBeGreaterThan(16);
    expect(arcmin(capital(13.5), 500)).toBeGreaterThan(24);
    expect(arcmin(capital(13.5), 600)).toBeGreaterThan(20);
  });
});
