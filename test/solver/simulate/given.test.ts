import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parseText } from "../../../src/plan/index.ts";
import { compiled } from "../../../src/solver/problem/known.ts";
import { Count } from "../../../src/solver/simulate/count.ts";
import { crewOf } from "../../../src/solver/simulate/crew.ts";
import { Days, type Dealt } from "../../../src/solver/simulate/days.ts";
import { countFrom } from "../../../src/solver/simulate/given.ts";
import { Player } from "../../../src/solver/simulate/player.ts";
import { Script } from "../../../src/solver/simulate/script.ts";
import { stageOf } from "../../../src/solver/simulate/stage.ts";
import { demoDay } from "../question/late/demoDay.ts";

const DAYS = 40;
const FROM = 7;

describe("a day that is known up to a moment", () => {
  const read = parseText(readFileSync("public/plans/demo.json", "utf8"));
  if (!read.ok) throw new Error("the demo plan cannot be read");
  const plan = read.value;
  const problem = compiled(plan, demoDay);
  const stage = stageOf(problem);
  const days = new Days(problem, "pert", DAYS + FROM, 3);
  const index = new Map(plan.tasks.map(({ id }, a) => [id, a]));

  it.each([0, 0.3, 0.6, 0.9])(
    "comes to what every day played from its beginning does, %d of it past",
    (share) => {
      const inOrder = [...demoDay.placements].sort((a, b) => a.startS - b.startS);
      const past = new Uint8Array(problem.activities);
      for (const { task } of inOrder.slice(0, share * inOrder.length)) past[index.get(task)!] = 1;
      const known = { problem, past };
      const once = countFrom(stage, known, demoDay, crewOf(plan.odds), days, FROM, DAYS).until(DAYS);

      const script = new Script({ ...stage, given: past });
      script.takeSchedule(demoDay);
      // As planned, at the planned rates, whoever began something of the past.
      const asKnown: Dealt = {
        count: DAYS,
        deal(day, order, laneOf, draws) {
          days.deal(FROM + day, order, laneOf, draws);
          for (let a = 0; a < problem.activities; a += 1) {
            if (past[a] === 0) continue;
            draws.durationS[a] = problem.lengthS[a]!;
            draws.spoilt[a] = 0;
            for (let k = 0; k < problem.crewCount[a]!; k += 1) {
              const s = problem.slotStart[a]! + k;
              const e = problem.evaOfRoute[laneOf[s]!]!;
              draws.slotMore[s] = 0;
              for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1)
                draws.routeMore[r] = 0;
            }
          }
        },
      };
      const player = new Player(script, crewOf(plan.odds));
      player.take();
      const each = new Count(player, asKnown);
      each.begin();
      each.until(DAYS);

      expect(once.days).toBe(DAYS);
      expect(once).toMatchObject({ home: each.home, must: each.must, worth: each.worth });
    },
  );
});
