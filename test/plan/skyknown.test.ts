import { expect, it } from "vitest";
import { isTouchdownKnown, missingForSky } from "../../src/plan/skyknown.ts";

it("what is missing to say where the sun stands: an ephemeris before all, else what nobody has given, in one order", () => {
  const given = { body: { ephemeris: "moon" as const }, site: {}, stay: {} };
  expect(missingForSky(given)).toBeNull();
  expect(missingForSky({ ...given, site: { toGive: ["latDeg", "lonDeg"] } })).toEqual(["latDeg", "lonDeg"]);
  expect(
    missingForSky({ ...given, site: { toGive: ["lonDeg"] }, stay: { toGive: ["touchdownUtc"] } }),
  ).toEqual(["lonDeg", "touchdownUtc"]);
  expect(missingForSky({ ...given, body: { ephemeris: "none" }, site: { toGive: ["latDeg"] } })).toBe(
    "ephemeris",
  );
  expect([isTouchdownKnown({ stay: {} }), isTouchdownKnown({ stay: { toGive: ["touchdownUtc"] } })]).toEqual([
    true,
    false,
  ]);
});
