import { instant } from "../../../src/kernel/index.ts";
import type { Placement, Plan, Schedule } from "../../../src/plan/index.ts";
import type { Chuffed } from "./chuffed.ts";
import { conditions } from "./conditions.ts";
import { type Bit, FlatModel, type Term, type Whole } from "./flat.ts";
import { goods } from "./goods.ts";
import { groups } from "./groups.ts";
import { outings } from "./outings.ts";

/**
 * The best day of a plan as a constraint model: one bit for each step of each crew member on each EVA. Written from RULES.md;
 * of the program only its physics and its ways are used, which RULES.md names.
 *
 * Not in the model, so plans must not let them bind: walk-back, separation, work and rest, sun, hot keep-outs, stores, slopes,
 * tasks without length or shorter than what is walked in them, and cooling water, whose whole numbers leave the solver's 32
 * bits. Egress may be earlier and ingress later in the model than S3 has them; every rule only gets harder by that, so the
 * optimum is the same.
 */

/** What every part of the model speaks of: by task, by task and EVA, by task and crew member, by EVA. */
export interface Frame {
  readonly model: FlatModel;
  readonly plan: Plan;
  readonly done: readonly Bit[];
  readonly startS: readonly Whole[];
  readonly on: readonly (readonly Bit[])[];
  readonly by: readonly (readonly Bit[])[];
  readonly used: readonly Bit[];
  readonly egressS: readonly Whole[];
  readonly ingressS: readonly Whole[];
}

/** The proved optimum. */
export interface Optimum {
  readonly mustLeftOut: number;
  readonly worth: number;
  readonly schedule: Schedule;
}

/** Proves the best day of `plan`: fewest must-do tasks left out, then most worth. */
export async function optimumOf(plan: Plan, chuffed: Chuffed, limitMs: number): Promise<Optimum> {
  const values = await chuffed.best(textOf(plan), limitMs);
  const isDone = (i: number): boolean => values.get(`done${i}`) === 1;
  const placements = plan.tasks.flatMap((task, i): Placement[] => {
    if (!isDone(i)) return [];
    const crew = plan.crew.filter((_, c) => values.get(`by${i}x${c}`) === 1).map(({ id }) => id);
    const eva = plan.evas.find((_, e) => values.get(`on${i}x${e}`) === 1)?.id ?? null;
    return [{ task: task.id, eva, crew, startS: instant(values.get(`start${i}`)!) }];
  });
  const took = (name: RegExp): number =>
    [...values].reduce((sum, [key, value]) => sum + (name.test(key) ? value : 0), 0);
  return {
    mustLeftOut: plan.tasks.filter((task, i) => task.must && !isDone(i)).length + took(/^lacks/),
    worth: plan.tasks.reduce((sum, task, i) => sum + (isDone(i) ? task.worth : 0), 0) - took(/^less/),
    schedule: { placements },
  };
}

function textOf(plan: Plan): string {
  const model = new FlatModel();
  const { tasks, crew, evas, stay } = plan;
  const frame: Frame = {
    model,
    plan,
    done: tasks.map((_, i) => model.bit(`done${i}`)),
    startS: tasks.map((_, i) => model.whole(0, stay.lengthS, `start${i}`)),
    on: tasks.map((_, i) => evas.map((_, e) => model.bit(`on${i}x${e}`))),
    by: tasks.map((_, i) => crew.map((_, c) => model.bit(`by${i}x${c}`))),
    used: evas.map(() => model.bit()),
    egressS: evas.map(() => model.whole(0, stay.lengthS)),
    ingressS: evas.map(() => model.whole(0, stay.lengthS)),
  };
  outings(frame);
  conditions(frame);
  goods(frame);
  const total = tasks.reduce((sum, task) => sum + task.worth, 0);
  const value = tasks.map((task) => (task.must ? total + 1 : 0) + task.worth);
  const grouped = groups(frame, total + 1);
  const least = plan.groups.reduce((sum, group) => sum - (total + 1) * group.least - total, 0);
  const score = model.whole(
    least,
    value.reduce((sum, one) => sum + one, 0),
  );
  model.equals([[-1, score], ...tasks.map((_, i): Term => [value[i]!, frame.done[i]!]), ...grouped], 0);
  return model.maximising(score, frame.done);
}
