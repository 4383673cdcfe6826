import type { Plan } from "../../plan/index.ts";
import { bytesOf } from "./archive.ts";
import { pictureOf } from "./picture.ts";
import type { Card, StoredPlan } from "./records.ts";

/** The card of a plan whose record is put into `slot`. */
export function cardOf(slot: string, plan: Plan, record: StoredPlan): Card {
  return {
    slot,
    title: plan.title,
    savedAtMs: record.savedAtMs,
    bytes: bytesOf(record.text),
    tasks: plan.tasks.length,
    placed: plan.schedule.placements.length,
    picture: pictureOf(plan),
    binnedAtMs: null,
  };
}
