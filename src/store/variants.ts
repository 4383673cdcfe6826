import type { Outcome } from "../kernel/index.ts";
import { editBetween, type Fault, type Plan } from "../plan/index.ts";
import type { Core } from "./core.ts";
import type { EditCommands } from "./editing.ts";

/** Commands on named alternative schedules. */
export interface VariantCommands {
  /** Keeps the open schedule as a variant of this name. */
  keepVariant(name: string): Outcome<Plan, readonly Fault[]>;
  /** Makes a variant's schedule the plan's. False when there is none of this id. */
  adoptVariant(id: string): boolean;
  renameVariant(id: string, name: string): Outcome<Plan, readonly Fault[]>;
  removeVariant(id: string): void;
}

export function variantCommands(core: Core, edits: EditCommands): VariantCommands {
  const { state, ports } = core;
  const named = (id: string) => state.getState().plan.variants.find((variant) => variant.id === id);
  return {
    keepVariant: (name) =>
      edits.edit(`Keep variant ${name}`, (plan) => ({
        variants: [...plan.variants, { id: `variant-${ports.newId()}`, name, schedule: plan.schedule }],
      })),
    adoptVariant(id) {
      const variant = named(id);
      if (variant) edits.reschedule(`Adopt variant ${variant.name}`, variant.schedule);
      return variant !== undefined;
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
  };
}
