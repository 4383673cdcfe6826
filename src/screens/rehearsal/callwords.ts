import type { Plan } from "../../plan/index.ts";
import type { Call } from "../../session/index.ts";
import {
  clock,
  crewName,
  evaName,
  lasting,
  minutes,
  nameIn,
  placeName,
  taskName,
} from "../../words/index.ts";
import { CONSUMABLE_WORDS } from "../words.ts";
import { unitOf } from "./gauges.ts";

/** A call as a sentence of the log. */
export function callWords(plan: Plan, call: Call): string {
  const task = (id: string): string => taskName(plan, id);
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
    case "longer":
      return `${task(call.task)} takes ${minutes(Math.abs(call.byS), "up")} ${call.byS > 0 ? "longer" : "less"}.`;
    case "hold":
      return `Everybody holds until ${clock(call.untilS)}.`;
    case "slower":
      return `${crewName(plan, call.crew)} needs ${call.percent} % of the planned time from now on.`;
    case "reading":
      return `${crewName(plan, call.crew)} reads ${CONSUMABLE_WORDS[call.consumable].toLowerCase()} ${call.left} ${unitOf(call.consumable)}.`;
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

/** How late or early something is, in words; a begun minute of being late counts whole, one of being early not at all. */
export function lateWords(lateS: number): string {
  if (lateS > 0) return `${lasting(Math.ceil(lateS / 60) * 60, "given")} late`;
  return lateS <= -60 ? `${lasting(Math.floor(-lateS / 60) * 60, "given")} early` : "on time";
}
