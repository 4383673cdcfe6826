import type { Finding } from "../../answers/index.ts";
import { evaName, metres } from "../../words/index.ts";
import { about, broken, finding, type JudgeRule } from "../finding.ts";
import { closeBelow } from "../thresholds.ts";

/** eva-distance, stay-distance: walked by one crew member in one EVA, in the stay; W10 says what inside a task. */
export const distances: JudgeRule = ({ prepared, outs, crewOutingsOf }) => {
  const { evaM, stayM, level } = prepared.plan.rules.distance;
  const findings: Finding[] = [];
  for (const crewOuting of outs.flatMap((out) => out.crewOutings)) {
    const over = crewOuting.walkedM > evaM;
    if (!over && !closeBelow(crewOuting.walkedM, evaM)) continue;
    findings.push(
      finding(
        "eva-distance",
        over ? broken(level) : "tight",
        [about("crew", crewOuting.outing.crew), about("eva", crewOuting.outing.eva)],
        {
          need: evaM,
          have: crewOuting.walkedM,
          unit: "m",
          sentence: `${crewOuting.walker.member.name} walks ${metres(crewOuting.walkedM, "up")} on ${evaName(prepared.plan, crewOuting.outing.eva)}; at most ${metres(evaM, "down")} is allowed.`,
        },
      ),
    );
  }
  for (const [crew, crewOutings] of crewOutingsOf) {
    const walkedM = crewOutings.reduce((sum, crewOuting) => sum + crewOuting.walkedM, 0);
    const over = walkedM > stayM;
    if (!over && !closeBelow(walkedM, stayM)) continue;
    findings.push(
      finding("stay-distance", over ? broken(level) : "tight", [about("crew", crew)], {
        need: stayM,
        have: walkedM,
        unit: "m",
        sentence: `${crewOutings[0]!.walker.member.name} walks ${metres(walkedM, "up")} in the stay; at most ${metres(stayM, "down")} is allowed.`,
      }),
    );
  }
  return findings;
};
