import { describe, expect, test } from "vitest";
import { plan } from "./cases/pin.ts";
import { breachesOf, only } from "./pair.ts";

describe("pins", () => {
  test("pin: a pinned task may be left on the bench", () => {
    expect(breachesOf(plan({ startS: 5 }, false))).toEqual([]);
  });

  test("pin gives numbers for a start only", () => {
    expect(only(plan({ eva: "eva-2" }), "pin")).toMatchObject({ need: null, have: null, unit: "none" });
    expect(only(plan({ crew: [] }), "pin").sentence).toBe("one is pinned to nobody and is with EV1 and EV2.");
  });

  test("pin tells all that moved in one finding", () => {
    expect(only(plan({ startS: 0, eva: "eva-2" }), "pin").sentence).toBe(
      "one is pinned to start at 0:00 MET and starts at 0:33:20 MET and to eva-2 and is on eva-1.",
    );
  });
});
