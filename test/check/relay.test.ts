import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/relay.ts";
import { only } from "./pair.ts";

describe("relay passes", () => {
  test("relay: a stay without passes", () => {
    expect(only(plan([]), "relay").sentence).toBe(
      "call runs 0:33:20 MET to 0:43:20 MET and needs the relay; the stay has no relay pass.",
    );
  });

  test("relay says by how much it misses the nearest pass, how far it may slip, and no number without a pass", () => {
    // From 2000 to 2600: 50 s before the one pass, 1600 s after the other.
    const missed = only(
      plan([
        [0, 1000],
        [2050, 5000],
      ]),
      "relay",
    );
    expect([missed.need, missed.have, missed.unit]).toEqual([0, -50, "s"]);
    expect(missed.sentence).toContain("outside the relay pass 0:34:10 MET to 1:23:20 MET");
    const slip = only(plan([[1000, 2700]], 101), "relay");
    expect([slip.need, slip.have, slip.unit]).toEqual([0, 100, "s"]);
    expect(slip.sentence).toContain("before the relay pass ends");
    const none = only(plan([]), "relay");
    expect([none.need, none.have, none.unit]).toEqual([null, null, "none"]);
  });

  test("relay: no second to slip is still inside the pass", () => {
    const full = only(plan([[1000, 2600]], 101), "relay");
    expect([full.level, full.need, full.have]).toEqual(["tight", 0, 0]);
    expect(full.sentence).toContain("0 min before the relay pass ends");
  });

  test("relay is tight when it may slip by less than the plan's time", () => {
    expect(only(plan([[1000, 2700]], 101), "relay").level).toBe("tight");
    expect(check(plan([[1000, 2700]], 100)).findings).toEqual([]);
  });
});
