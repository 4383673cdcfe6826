import { isEqual } from "../kernel/index.ts";
import { isHeavySite, type Plan } from "../plan/index.ts";
import type { History } from "./history.ts";

/** A plan with the steps that can be taken back. */
interface EditedPlan {
  readonly plan: Plan;
  readonly history: History;
}

/** A step as it is made on whatever the plan is by then; null where it does not fit that. */
interface HeavyStep {
  readonly name: string;
  make(from: EditedPlan): EditedPlan | null;
}

/** Steps after which ways take longer than a moment: these are worked out beside the page first, and then the steps are made, in their order. */
export interface HeavySteps {
  /** True while a step waits to be made: it is in no store yet. */
  readonly waits: boolean;
  /** True where the step was taken up here; it is made, or said not to be, later. */
  takes(step: HeavyStep, before: Plan, after: Plan): boolean;
  /** Breaks off what is under way: true where something was. */
  breakOff(): boolean;
}

/** What ways follow from. */
const WALKING = ["site", "ground", "rules", "suits", "crew", "evas"] as const;

export function heavySteps(how: {
  now(): EditedPlan & { readonly slot: string };
  makeReady(plan: Plan): Promise<boolean>;
  show(edited: EditedPlan): void;
  tell(tone: "news" | "problem", words: string): void;
}): HeavySteps {
  let waiting: readonly HeavyStep[] = [];
  let round = 0;

  /** All that waits, made on the plan as it is; what does not fit it is told. */
  const made = (): EditedPlan => {
    let edited: EditedPlan = how.now();
    for (const step of waiting) {
      const next = step.make(edited);
      if (next) edited = next;
      else {
        how.tell("problem", `"${step.name}" was not made: the plan was changed in the meantime.`);
        waiting = waiting.filter((one) => one !== step);
      }
    }
    return edited;
  };
  const left = (): void => {
    for (const { name } of waiting) how.tell("news", `"${name}" was broken off; the plan is as it was.`);
    waiting = [];
  };

  const prepare = async (): Promise<void> => {
    const mine = (round += 1);
    const { slot } = how.now();
    const prepared = made().plan;
    if (waiting.length === 0) return;
    const ready = await how.makeReady(prepared);
    // A later step has taken these along.
    if (mine !== round) return;
    if (!ready || how.now().slot !== slot) return left();
    const { plan, history } = made();
    if (waiting.length === 0) return;
    waiting = [];
    // The ways are known by the very site they were worked out for.
    const site = isEqual(plan.site, prepared.site) ? prepared.site : plan.site;
    const ground = isEqual(plan.ground, prepared.ground) ? prepared.ground : plan.ground;
    how.show({ plan: { ...plan, site, ground }, history });
  };

  return {
    get waits() {
      return waiting.length > 0;
    },
    takes(step, before, after) {
      const same = WALKING.every((key) => before[key] === after[key]);
      if (same || !isHeavySite(after)) return false;
      waiting = [...waiting, step];
      void prepare();
      return true;
    },
    breakOff() {
      if (waiting.length === 0) return false;
      round += 1;
      left();
      return true;
    },
  };
}
