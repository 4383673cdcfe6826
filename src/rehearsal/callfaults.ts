import { isRecord } from "../kernel/index.ts";
import { parse, type Plan, STOCK_FIELDS } from "../plan/index.ts";
import { clock, crewName, digits, evaName, nameIn, taskName } from "../words/index.ts";
import { type Call, formFault, type Reading, type Rehearsal } from "./call.ts";
import { CallReader } from "./facts.ts";

/** At most so many faults are told of one file. */
const MOST_TOLD = 20;

/**
 * What is wrong with the calls of a rehearsal that comes from outside, held against its plan, in words: things that the plan does not
 * have, an order that cannot be, a gauge that shows more than a suit holds. Empty where nothing is.
 */
export function callFaults(plan: Plan, { calls, nowS }: Rehearsal): readonly string[] {
  const reader = new Listener(plan);
  const faults: string[] = [];
  let lastS = -Infinity;
  for (const [k, call] of calls.entries()) {
    const why =
      call.atS < lastS
        ? `was made before the one ahead of it, at ${clock(lastS)}`
        : call.atS > nowS
          ? `lies behind the rehearsal's clock, which shows ${clock(nowS)}`
          : reader.fault(call);
    lastS = Math.max(lastS, call.atS);
    if (why !== null) faults.push(`Call ${k + 1}, at ${clock(call.atS)} MET, ${why}.`);
    if (faults.length === MOST_TOLD) break;
  }
  return faults;
}

/**
 * Why `call` cannot follow the calls made so far, behind "This call"; null where it can. What is refused here is what `callFaults` would
 * find in the file of the rehearsal, which could then not be opened again.
 */
export function callFault(plan: Plan, earlier: readonly Call[], call: Call): string | null {
  const form = formFault(call);
  if (form !== null) return `cannot be written down: ${form}`;
  const listener = new Listener(plan);
  for (const made of earlier) listener.hear(made);
  return listener.fault(call);
}

/** Hears one call after the other. */
class Listener {
  private readonly plan: Plan;
  private readonly facts: CallReader;

  constructor(plan: Plan) {
    this.plan = plan;
    this.facts = new CallReader(plan);
  }

  /** Why a call cannot be, behind "Call 3"; null where it can. It is heard all the same, so that what follows from it is not told as well. */
  fault(call: Call): string | null {
    const why = this.why(call);
    if (why === null || call.kind !== "replanned") this.facts.read(call);
    return why;
  }

  /** Takes a call that could be made when it was. */
  hear(call: Call): void {
    this.facts.read(call);
  }

  private why(call: Call): string | null {
    const { plan } = this;
    switch (call.kind) {
      case "out":
        return this.unknown("EVA", plan.evas, call.eva) ?? this.goesOut(call.eva);
      case "in":
        return this.unknown("EVA", plan.evas, call.eva) ?? this.comesIn(call.eva);
      case "begins":
        return this.unknown("task", plan.tasks, call.task) ?? this.begins(call.task);
      case "ends":
      case "spoilt":
        return this.unknown("task", plan.tasks, call.task) ?? this.ends(call.task);
      case "left-out":
      case "longer":
        return this.unknown("task", plan.tasks, call.task) ?? this.isOver(call.task);
      case "slower":
        return this.unknown("crew member", plan.crew, call.crew);
      case "reading":
        return this.unknown("crew member", plan.crew, call.crew) ?? this.reads(call);
      case "back-by":
        return this.unknown("EVA", plan.evas, call.eva);
      case "broken":
        return this.unknown("equipment", plan.equipment, call.equipment);
      case "no-relay":
        return plan.stay.relayPasses.some(({ id }) => id === call.pass)
          ? null
          : `is about the relay pass "${call.pass}", which its plan does not have`;
      case "closed":
        return this.unknown("place", plan.site.places, call.place);
      case "replanned":
        return this.replans(call);
      case "hold":
      case "note":
        return null;
    }
  }

  private unknown(what: string, list: readonly { readonly id: string }[], id: string): string | null {
    return list.some((one) => one.id === id)
      ? null
      : `is about the ${what} "${id}", which its plan does not have`;
  }

  private goesOut(eva: string): string | null {
    const { outS, inS } = this.facts;
    const name = evaName(this.plan, eva);
    if (outS.has(eva)) return `says egress of ${name} a second time`;
    // Nobody is out twice at once.
    const crew = this.plan.evas.find(({ id }) => id === eva)?.crew ?? [];
    for (const other of this.plan.evas.filter(({ id }) => outS.has(id) && !inS.has(id))) {
      const both = other.crew.find((member) => crew.includes(member));
      if (both !== undefined)
        return `says egress of ${name} while ${crewName(this.plan, both)} is out on ${other.name}`;
    }
    return null;
  }

  private comesIn(eva: string): string | null {
    const { outS, inS } = this.facts;
    const name = evaName(this.plan, eva);
    if (!outS.has(eva)) return `says ingress of ${name} before its egress`;
    if (inS.has(eva)) return `says ingress of ${name} a second time`;
    const { began, ended, schedule } = this.facts;
    const works = schedule.placements.find(
      (one) => one.eva === eva && one.crew.length > 0 && began.has(one.task) && !ended.has(one.task),
    );
    return works ? `says ingress of ${name} while ${taskName(this.plan, works.task)} is under way` : null;
  }

  private begins(task: string): string | null {
    const { began, outS, inS, schedule } = this.facts;
    const name = taskName(this.plan, task);
    if (began.has(task)) return `begins ${name} a second time`;
    const placement = schedule.placements.find((one) => one.task === task);
    const eva = placement?.crew.length === 0 ? null : (placement?.eva ?? null);
    if (eva !== null && !outS.has(eva))
      return `begins ${name} before the egress of ${evaName(this.plan, eva)}`;
    if (eva !== null && inS.has(eva)) return `begins ${name} after the ingress of ${evaName(this.plan, eva)}`;
    return this.isOver(task);
  }

  private ends(task: string): string | null {
    const name = taskName(this.plan, task);
    if (this.facts.ended.has(task)) return `ends ${name} a second time`;
    return this.isOver(task) ?? (this.facts.began.has(task) ? null : `ends ${name}, which has not begun`);
  }

  /** Why nothing more can be said of a task: it is done, or will not be. */
  private isOver(task: string): string | null {
    const name = taskName(this.plan, task);
    if (this.facts.ended.has(task)) return `is about ${name}, which is done`;
    const why = this.facts.leftOut.get(task);
    return why === undefined ? null : `is about ${name}, which is left out: ${why}`;
  }

  private reads({ crew, consumable, left }: Reading): string | null {
    // No gauge shows more than the fullest suit of the plan holds.
    const most = Math.max(...this.plan.suits.map((suit) => suit[STOCK_FIELDS[consumable]]));
    if (left <= most) return null;
    const unit = consumable === "battery" ? "Wh" : "kg";
    return `reads ${digits(left)} ${unit} of ${consumable === "co2" ? "CO2 room" : consumable} from the gauge of ${crewName(this.plan, crew)}, and no suit of the plan holds more than ${digits(most)} ${unit}`;
  }

  private replans({ schedule }: Extract<Call, { kind: "replanned" }>): string | null {
    const read = parse({ ...this.plan, schedule });
    if (read.ok) return null;
    const [first] = read.error;
    const task = isRecord(first) ? schedule.placements[Number(first.path.split(".")[2])]?.task : undefined;
    const about = task === undefined ? "" : ` for ${nameIn(this.plan.tasks, task)}`;
    return `puts up a schedule that does not fit its plan${about}: ${first?.message ?? "it has faults"}`;
  }
}
