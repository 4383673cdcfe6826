import type { Pairs } from "../pair.ts";
import { at, eva, task, tinyInput, parsed } from "../tinyPlan.ts";

/**
 * EV1 is out from 1100 (2000 less 300 s of way and 600 s of egress work) to 3500 (2600 + 300 + 600); EV2, on an EVA of their own, from
 * 900 s before `secondS`. `shared`: in the same suit.
 */
export const plan = (secondS: number, shared: boolean, leastS = 0) => {
  const input = tinyInput({
    evas: [eva("eva-1", { crew: ["ev1"] }), eva("eva-2", { crew: ["ev2"] })],
    tasks: [task("one", "a"), task("two", "a")],
    placements: [at("one", 2000), at("two", secondS, ["ev2"], "eva-2")],
    rules: { recharge: { leastS } },
  });
  return parsed({
    ...input,
    crew: input.crew.map((member) => (shared ? { ...member, suit: "suit" } : member)),
  });
};

// EV1 comes in at 3500 from eva-1 in the suit that EV2 is given on eva-2 only; EV2's own is "suit-2".
const borrowed = (secondS: number, leastS = 0) => {
  const own = plan(secondS, false, leastS);
  return {
    ...own,
    evas: own.evas.map((one) => (one.id === "eva-2" ? { ...one, suits: { ev2: "suit" } } : one)),
  };
};

export const suitWornOnce: Pairs = [
  {
    breaks: ["EV2 goes out in it a second before EV1 is in", plan(4399, true)],
    holds: ["EV2 goes out in it as EV1 is in", plan(4400, true)],
  },
  {
    breaks: ["EV2 goes out, on that EVA only, in EV1's suit a second before EV1 is in", borrowed(4399)],
    holds: ["EV2 goes out in EV1's suit as EV1 is in", borrowed(4400)],
  },
];

export const recharge: Pairs = [
  {
    breaks: [
      "the suit that EV2 is given for one EVA is not recharged a second too long",
      borrowed(5400, 1001),
    ],
    holds: ["the suit that EV2 is given for one EVA is just recharged", borrowed(5400, 1000)],
  },
];
