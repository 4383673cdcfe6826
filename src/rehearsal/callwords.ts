import type { Plan } from "../plan/index.ts";
import {
  clock,
  CONSUMABLE_WORDS,
  crewName,
  evaName,
  minutes,
  nameIn,
  numberedTask,
  placeName,
} from "../words/index.ts";
import type { Call } from "./call.ts";

/** A call as a sentence of the log. */
export function callWords(plan: Plan, call: Call): string {
  const task = (id: string): string => numberedTask(plan, id);
  switch (call.kind) {
    case "out":
      return `${evaName(plan, call.eva)}: egress.`;
    case "in":
      return `${evaName(plan, call.eva)}: ingress complete.`;
    case "begins":
      return `${task(call.task)} begins.`;
    case "ends":
      return `${task(call.task)} is done.`;
    case "left-out":
      return `${task(call.task)} is given up.`;
    case "spoilt":
      return `${task(call.task)} is over, and its result is lost.`;
    case "longer":
      return `${task(call.task)} takes ${minutes(Math.abs(call.byS), "up")} ${call.byS > 0 ? "longer" : "less"}.`;
    case "hold":
      return `Everybody holds until ${clock(call.untilS)}.`;
    case "slower":
      return `${crewName(plan, call.crew)} needs ${call.percent} % of the planned time from now on.`;
    case "reading":
      return `${crewName(plan, call.crew)} reads ${CONSUMABLE_WORDS[call.consumable]} ${call.left} ${call.consumable === "battery" ? "Wh" : "kg"}.`;
    case "back-by":
      return `${evaName(plan, call.eva)} is to be back by ${clock(call.byS)}.`;
    case "broken":
      return `${nameIn(plan.equipment, call.equipment)}: ${call.count} out of use.`;
    case "no-relay":
      return `${nameIn(plan.stay.relayPasses, call.pass)} is lost.`;
    case "closed":
      return `${placeName(plan, call.place)} is closed.`;
    case "replanned":
      return `Planned anew: ${call.schedule.placements.length} tasks.`;
    case "note":
      return call.words;
  }
}
