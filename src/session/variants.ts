import type { Verdict } from "../answers/index.ts";
import { done, failed, type Outcome } from "../kernel/index.ts";
import {
  applyPatch,
  type Change,
  type Edit,
  editBetween,
  type Fault,
  fitPatch,
  type GivesUp,
  parse,
  type Patch,
  type Plan,
  sameSchedule,
  type Schedule,
} from "../plan/index.ts";
import type { Core } from "./core.ts";
import type { EditCommands } from "./editing.ts";
import type { SessionPorts } from "./ports.ts";

/**
 * Named alternatives to the day as it stands. Names, schedules and what each gives up of the plan beside (a longer EVA, another
 * window) lie in the plan, are saved with it and undone like all else.
 */

/** A schedule with what is given up for it. */
interface Offered {
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
  readonly givesUp: GivesUp | null;
  /** Changes that the open plan no longer takes as they were meant. */
  readonly clashes: readonly Change[];
  /** True when the open day is already this one. */
  readonly isOpenDay: boolean;
}
/** Commands on named alternatives. */
export interface VariantCommands {
  /** Keeps the open schedule as a variant of this name; the answer is its id. */
  keepVariant(name: string): Outcome<string, readonly Fault[]>;
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
  const variantDay = variantDays(ports);

  const keep = (name: string, schedule: Schedule, givesUp?: GivesUp): Outcome<string, readonly Fault[]> => {
    const id = `variant-${ports.newId()}`;
    const kept = edits.edit(`Keep variant ${name}`, (plan) => ({
      variants: [...plan.variants, { id, name, schedule, ...(givesUp ? { givesUp } : {}) }],
    }));
    return kept.ok ? done(id) : failed(kept.error);
  };

  return {
    keepVariant: (name) => keep(name, state.getState().plan.schedule),
    keepOffered: (name, { edit, schedule, sentence, owner }) =>
      keep(
        name,
        { placements: [...schedule.placements] },
        { sentence, owner, patch: edit.patch.map((one) => ({ ...one, path: [...one.path] })) },
      ),
    adoptVariant(id) {
      const { plan } = state.getState();
      const day = variantDay(plan, id);
      if (!day) return false;
      if (day.clashes.length > 0) {
        core.notice(
          "problem",
          `${day.name} was not adopted: the plan has changed where it gives something up.`,
        );
        return false;
      }
      const adopted = edits.edit(`Adopt variant ${day.name}`, () => ({
        ...day.plan,
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
    variantDay: (id) => variantDay(state.getState().plan, id),
  };
}

/** The days of a plan's variants, each laid and judged once. */
function variantDays(ports: SessionPorts): (plan: Plan, id: string) => VariantDay | null {
  const days = new WeakMap<Plan, Map<string, VariantDay>>();

  const laid = (plan: Plan, id: string): VariantDay | null => {
    const variant = plan.variants.find((one) => one.id === id);
    if (!variant) return null;
    const { name, schedule, givesUp = null } = variant;
    const { changed, clashes } = withPatch(plan, givesUp?.patch ?? []);
    const verdict = ports.judgeFor(changed)(schedule);
    const isOpenDay = clashes.length === 0 && changed === plan && sameSchedule(plan.schedule, schedule);
    return { id, name, plan: changed, schedule, verdict, givesUp, clashes, isOpenDay };
  };

  return (plan, id) => {
    const known = days.get(plan) ?? new Map<string, VariantDay>();
    days.set(plan, known);
    const day = known.get(id) ?? laid(plan, id);
    if (day) known.set(id, day);
    return day;
  };
}

/** The plan with what still means the same on it; all of a patch clashes with what would be no plan with it. */
function withPatch(
  plan: Plan,
  patch: Patch,
): { readonly changed: Plan; readonly clashes: readonly Change[] } {
  const fit = fitPatch(plan, patch);
  const made = fit.ok ? applyPatch(plan, fit.value.patch) : fit;
  if (!fit.ok || !made.ok || !parse(made.value).ok) return { changed: plan, clashes: patch };
  return { changed: made.value, clashes: fit.value.clashes };
}
