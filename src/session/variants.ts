import type { Verdict } from "../answers/index.ts";
import { failed, type Outcome } from "../kernel/index.ts";
import { applyEdit, type Edit, editBetween, type Fault, type Plan, type Schedule } from "../plan/index.ts";
import type { GivenUp } from "./answers.ts";
import type { Core } from "./core.ts";
import type { EditCommands } from "./editing.ts";
import { sameSchedule } from "./placing.ts";
import { changesBetween, type PlanChange, readChanges, withChanges } from "./variantchange.ts";

/**
 * Named alternatives to the day as it stands. Their names and schedules lie in the plan, are saved with it and undone
 * like all else. What one changes of the plan beside (a longer EVA, another window) has no room there: it lies beside
 * the plan in the browser's store.
 */

/** A schedule with what is given up for it, made on `plan`. */
export interface Offered {
  readonly plan: Plan;
  readonly edit: Edit;
  readonly schedule: Schedule;
  readonly sentence: string;
  readonly owner: string | null;
}

/** The day as a variant has it. */
export interface VariantDay {
  readonly id: string;
  readonly name: string;
  /** The open plan with the variant's changes; its schedule is still the open one, so that changes count from it. */
  readonly plan: Plan;
  readonly schedule: Schedule;
  readonly verdict: Verdict;
  readonly givenUp: GivenUp | null;
  /** Changes that the open plan no longer takes as they were meant. */
  readonly clashes: readonly PlanChange[];
  /** True when the open day is already this one. */
  readonly stands: boolean;
}

/** Commands on named alternatives. */
export interface VariantCommands {
  /** Keeps the open schedule as a variant of this name. */
  keepVariant(name: string): Outcome<Plan, readonly Fault[]>;
  /** Keeps a schedule with what is given up for it; the answer is the variant's id. The open day stays as it is. */
  keepOffered(name: string, offered: Offered): Outcome<string, readonly Fault[]>;
  /** Makes a variant the day: schedule and changes in one step. False when it is unknown or no longer applies. */
  adoptVariant(id: string): boolean;
  renameVariant(id: string, name: string): Outcome<Plan, readonly Fault[]>;
  removeVariant(id: string): void;
  /** The day as the variant has it, judged; null when there is none of this id. The same object while nothing changes. */
  variantDay(id: string): VariantDay | null;
}

export function variantCommands(core: Core, edits: EditCommands): VariantCommands {
  const { state, ports } = core;
  const named = (id: string) => state.getState().plan.variants.find((variant) => variant.id === id);
  const days = new WeakMap<Plan, Map<string, VariantDay>>();

  const laid = (id: string): VariantDay | null => {
    const { plan, givenUp: all } = state.getState();
    const variant = named(id);
    if (!variant) return null;
    const givenUp = all.get(id) ?? null;
    const { parts, clashes } = withChanges(plan, givenUp?.changes ?? []);
    const changed = { ...plan, ...parts };
    return {
      id,
      name: variant.name,
      plan: changed,
      schedule: variant.schedule,
      verdict: ports.judgeFor(changed)(variant.schedule),
      givenUp,
      clashes,
      stands:
        clashes.length === 0 &&
        Object.keys(parts).length === 0 &&
        sameSchedule(plan.schedule, variant.schedule),
    };
  };

  const keep = (name: string, id: string, schedule: Schedule): Outcome<Plan, readonly Fault[]> =>
    edits.edit(`Keep variant ${name}`, (plan) => ({ variants: [...plan.variants, { id, name, schedule }] }));

  const commands: VariantCommands = {
    keepVariant: (name) => keep(name, `variant-${ports.newId()}`, state.getState().plan.schedule),
    keepOffered(name, { plan, edit, schedule, sentence, owner }) {
      const id = `variant-${ports.newId()}`;
      const changes = changesBetween(plan, applyEdit(plan, edit));
      const before = state.getState().givenUp;
      // Put beside the plan first, so that both are saved together.
      state.setState({ givenUp: new Map(before).set(id, { sentence, owner, changes }) });
      const kept = keep(name, id, { placements: [...schedule.placements] });
      if (kept.ok) return { ok: true, value: id };
      state.setState({ givenUp: before });
      return failed(kept.error);
    },
    adoptVariant(id) {
      const day = commands.variantDay(id);
      if (!day) return false;
      if (day.clashes.length > 0) {
        core.notice(
          "problem",
          `${day.name} was not adopted: the plan has changed where it gives something up.`,
        );
        return false;
      }
      const { plan } = state.getState();
      const adopted = edits.edit(`Adopt variant ${day.name}`, () => ({
        ...withChanges(plan, day.givenUp?.changes ?? []).parts,
        ...(sameSchedule(plan.schedule, day.schedule) ? {} : { schedule: day.schedule }),
      }));
      if (!adopted.ok)
        core.notice(
          "problem",
          `${day.name} was not adopted: ${adopted.error[0]?.message ?? "the plan cannot take it"}.`,
        );
      return adopted.ok;
    },
    renameVariant: (id, name) =>
      edits.edit(`Rename variant to ${name}`, (plan) => ({
        variants: plan.variants.map((variant) => (variant.id === id ? { ...variant, name } : variant)),
      })),
    removeVariant(id) {
      const variant = named(id);
      if (!variant) return;
      const { plan } = state.getState();
      const variants = plan.variants.filter((one) => one !== variant);
      core.step(editBetween(`Remove variant ${variant.name}`, plan, { ...plan, variants }));
    },
    variantDay(id) {
      const { plan } = state.getState();
      const known = days.get(plan) ?? new Map<string, VariantDay>();
      days.set(plan, known);
      const day = known.get(id) ?? laid(id);
      if (day) known.set(id, day);
      return day;
    },
  };
  return commands;
}

/** Kept beside a plan at most; older ones, whose variants are long gone, are forgotten. */
const MOST_KEPT = 200;

/** What variants give up, as it is put into a store. */
export function storedGivenUp(all: ReadonlyMap<string, GivenUp>): unknown {
  return [...all].slice(-MOST_KEPT);
}

/** What was found in a store; what cannot be read is left out. */
export function readGivenUp(found: unknown): ReadonlyMap<string, GivenUp> {
  if (!Array.isArray(found)) return new Map();
  return new Map(
    found.flatMap((entry: unknown): [string, GivenUp][] => {
      if (!Array.isArray(entry)) return [];
      const [id, one] = entry as [unknown, Partial<Record<keyof GivenUp, unknown>> | null];
      const changes = readChanges(one?.changes);
      if (typeof id !== "string" || typeof one?.sentence !== "string" || changes === null) return [];
      return [
        [id, { sentence: one.sentence, owner: typeof one.owner === "string" ? one.owner : null, changes }],
      ];
    }),
  );
}
