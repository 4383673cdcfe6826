import { skyFindings, sunUnknown } from "../skyfindings.ts";
import type { JudgeRule } from "../finding.ts";

/**
 * sun: from start to end the sun elevation is inside the task's range; unknown where the body has no ephemeris, nobody
 * has said where and when the lander stands, or outside the stay; and unknown is a breach.
 */
export const sun: JudgeRule = ({ prepared, placed }) =>
  placed.flatMap((one) => {
    const { sun: range } = one.task;
    if (!range) return [];
    const wanted = `sun ${range.leastDeg} to ${range.greatestDeg} degrees up`;
    return skyFindings(prepared, one, "sun", prepared.sky(one.task).sun ?? null, {
      wanted: `the ${wanted}`,
      unknown: sunUnknown(prepared.plan),
    });
  });
