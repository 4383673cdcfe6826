import { metres, lasting } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";
import { placeName } from "../names.ts";

/**
 * walking-physics, of walks inside tasks: a task takes at least the way between its ends and what else is walked in it, at the
 * planned speed. Shorter is a breach, never a warning; a short case that is shorter than its walk is tight.
 */
export const insideTasks: JudgeRule = ({ prepared, placed }) =>
  placed.flatMap(({ task }) => {
    const { leastS, walkM, from, to } = prepared.inside(task);
    const { likelyS, lowS = likelyS } = task.duration;
    if (task.crew.count === 0 || Math.min(lowS, likelyS) >= leastS) return [];
    const isBroken = likelyS < leastS;
    const where = from === to ? "" : ` from ${placeName(prepared, from)} to ${placeName(prepared, to)}`;
    const crewOutings = `${task.name} walks ${metres(walkM, "up")}${where}, which takes ${lasting(leastS, "up")} as planned`;
    return [
      finding("walking-physics", isBroken ? "breach" : "tight", [about("task", task.id)], {
        need: leastS,
        have: isBroken ? likelyS : lowS,
        unit: "s",
        sentence: isBroken
          ? `${crewOutings}; it is given ${lasting(likelyS, "down")}.`
          : `${crewOutings}; its short case is given ${lasting(lowS, "down")}.`,
      }),
    ];
  });
