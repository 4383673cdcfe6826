import { describe, expect, test } from "vitest";
import type { CauseKind } from "../../../../src/answers/index.ts";
import { ownerOf } from "../../../../src/solver/question/why/cause.ts";

/** Who decides on what is not for bargaining. Common practice, no source. */
const GUARDED: readonly (readonly [owner: string, kinds: readonly CauseKind[]])[] = [
  ["what people in suits can do", ["walking-physics"]],
  [
    "the flight director",
    [
      "walk-back-emergency",
      "walk-back-consumables",
      "separation",
      "hot",
      "liftoff",
      "carry",
      "eva-distance",
      "stay-distance",
    ],
  ],
  ["the ascent vehicle's engineers", ["blast", "return-mass"]],
  ["the crew surgeon", ["work", "heat", "drinking", "duty", "block"]],
  ["the suit engineers", ["recharge"]],
  ["the lander's engineers", ["stores"]],
];

/** What the planner gives up, or asks somebody else to ease. */
const EASED: readonly CauseKind[] = [
  "placement",
  "pin",
  "window",
  "sun",
  "light",
  "sun-angle",
  "relay",
  "crew",
  "link",
  "equipment",
  "container",
  "consumable",
  "egress",
  "ingress",
  "longest",
  "suit",
];

describe("who owns a cause", () => {
  test.each(GUARDED)("%s decides on the rules that are theirs", (owner, kinds) => {
    for (const kind of kinds) expect(ownerOf(kind), kind).toBe(owner);
  });

  test("nobody but the planner where something can be eased", () => {
    for (const kind of EASED) expect(ownerOf(kind), kind).toBeNull();
  });
});
