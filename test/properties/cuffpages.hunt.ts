import { describe, expect, it } from "vitest";
import { lookAt, nothingSeen } from "./cuffpages.ts";

const PLANS = Number(process.env["CUFF_PLANS"] ?? 200);
const FIRST = Number(process.env["CUFF_FIRST"] ?? 1);

describe("cuff pages in the file", () => {
  it(`clip and cover nothing, have every task once for each of its crew, and say what the judge says, on ${PLANS} plans`, async () => {
    const seen = nothingSeen();
    for (let seed = FIRST; seed < FIRST + PLANS; seed += 1) await lookAt(seed, seen);
    expect(seen.answers).toBeGreaterThan(PLANS);
    expect(seen.ways).toBeGreaterThan(PLANS);
    expect(seen.partners).toBeGreaterThan(PLANS);
    expect(seen.waits).toBeGreaterThan(PLANS / 10);
  });
});
