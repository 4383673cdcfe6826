import { skyFindings } from "../skyfindings.ts";
import type { FlightRule } from "../finding.ts";

/**
 * light: from start to end the ground at the task's place and end place is in the sun, or in shadow, as it asks;
 * unknown is a breach.
 */
export const light: FlightRule = ({ prepared, placed }) =>
  placed.flatMap((one) => {
    const { light: want } = one.task;
    if (!want) return [];
    return skyFindings(prepared, one, "light", prepared.sky(one.task).light ?? null, {
      wanted: want === "lit" ? "its ground in the sun" : "its ground in shadow",
      unknown: "whether the sun reaches it is unknown",
    });
  });
