import type { Finding } from "../../answers/index.ts";
import { evaName, metres } from "../../words/index.ts";
import { about, broken, finding, type JudgeRule } from "../finding.ts";
import { closeBelow } from "../thresholds.ts";

/** eva-distance, stay-distance: walked by one crew member in one EVA, in the stay; W10 says what inside a task. */
export const distances: JudgeRule = ({ prepared, outs, walksOf }) => {
  const { evaM, stayM, level } = prepared.plan.rules.distance;
  const findings: Finding[] = [];
  for (const walk of outs.flatMap((out) => out.walks)) {
    const over = walk.walkedM > evaM;
    if (!over && !closeBelow(walk.walkedM, evaM)) continue;
    findings.push(
      finding(
        "eva-distance",
        over ? broken(level) : "tight",
        [about("crew", walk.outing.crew), about("eva", walk.outing.eva)],
        {
          need: evaM,
          have: walk.walkedM,
          unit: "m",
          sentence: `${walk.walker.member.name} walks ${metres(walk.walkedM, "up")} on ${evaName(prepared.plan, walk.outing.eva)}; at most ${metres(evaM, "down")} is allowed.`,
        },
      ),
    );
  }
  for (const [crew, walks] of walksOf) {
    const walkedM = walks.reduce((sum, walk) => sum + walk.walkedM, 0);
    const over = walkedM > stayM;
    if (!over && !closeBelow(walkedM, stayM)) continue;
    findings.push(
      finding("stay-distance", over ? broken(level) : "tight", [about("crew", crew)], {
        need: stayM,
        have: walkedM,
        unit: "m",
        sentence: `${walks[0]!.walker.member.name} walks ${metres(walkedM, "up")} in the stay; at most ${metres(stayM, "down")} is allowed.`,
      }),
    );
  }
  return findings;
};
