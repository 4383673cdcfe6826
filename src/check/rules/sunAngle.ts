import { skyFindings, sunUnknown } from "../skyfindings.ts";
import type { JudgeRule } from "../finding.ts";

/**
 * sun-angle: from start to end the angle between where the task faces and the sun's azimuth is inside its range;
 * unknown is a breach.
 */
export const sunAngle: JudgeRule = ({ prepared, placed }) =>
  placed.flatMap((one) => {
    const range = one.task.sunAngle;
    if (!range) return [];
    return skyFindings(prepared, one, "sun-angle", prepared.sky(one.task).sunAngle ?? null, {
      wanted: `the sun ${range.leastDeg} to ${range.greatestDeg} degrees off its heading`,
      unknown: sunUnknown(prepared.plan),
    });
  });
