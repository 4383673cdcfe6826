import { done, failed, type Outcome } from "../../kernel/index.ts";
import {
  type Fault,
  type Merged,
  parse,
  patchBetween,
  type Plan,
  type Renumbered,
} from "../../plan/index.ts";
import type { Core } from "../core.ts";
import type { EditCommands } from "../editing.ts";
import type { Keeping } from "./keeping.ts";
import { readRecord } from "./opening.ts";
import type { KeptState } from "./records.ts";

/** The open plan and a colleague's, with the state from which both come. */
export interface MergeOffer {
  readonly base: Plan;
  /** The state that `base` is. */
  readonly from: KeptState;
  readonly mine: Plan;
  readonly theirs: Plan;
  readonly merged: Merged;
}

/** Commands that put a colleague's plan and the open one together. Promises reject with an Error when the store cannot be used. */
export interface MergeCommands {
  /** Keeps the open plan as one that was saved to a file, so that what comes back can be merged. */
  keepSent(): Promise<void>;
  /** What a merge would make; of the state `from`, or of the kept state that is nearest to theirs. Null where no state is kept. */
  offerMerge(theirs: Plan, from?: number): Promise<MergeOffer | null>;
  /** Merges as one step, with theirs at the clashes of these numbers: the tasks of theirs that got another number. With faults the plan stays as it was. */
  merge(
    offer: MergeOffer,
    taken: ReadonlySet<number>,
  ): Promise<Outcome<readonly Renumbered[], readonly Fault[]>>;
}

/** So many states are looked into for the one that both plans come from, the newest first. */
const MOST_TRIED = 40;

const together = () => import("../../plan/patch/together.ts");

export function mergeCommands(core: Core, edits: EditCommands, keeping: Keeping): MergeCommands {
  const { state, ports } = core;
  const planAt = async ({ key }: KeptState): Promise<Plan | null> => {
    const read = readRecord({ text: await ports.archive.readState(key), savedAtMs: 0, writer: "" });
    return read.ok ? read.plan : null;
  };

  return {
    async keepSent() {
      const { slot, plan } = state.getState();
      await keeping.keep(slot, "sent", plan);
    },
    async offerMerge(theirs, from) {
      const { slot, plan: mine } = state.getState();
      const states = await ports.archive.states(slot);
      const tried =
        from === undefined ? states.slice(0, MOST_TRIED) : states.filter(({ key }) => key === from);
      let nearest: { readonly base: Plan; readonly from: KeptState; readonly size: number } | null = null;
      for (const one of tried) {
        const base = await planAt(one);
        const size = base ? patchBetween(base, theirs).length : Infinity;
        if (base && (!nearest || size < nearest.size)) nearest = { base, from: one, size };
      }
      if (!nearest) return null;
      const { base } = nearest;
      const { mergePlans } = await together();
      const merged = mergePlans(base, mine, theirs);
      return { base, from: nearest.from, mine, theirs: merged.theirs, merged };
    },
    async merge(offer, taken) {
      const { takeTheirs, withOwnNumbers } = await together();
      const { slot, plan } = state.getState();
      if (plan !== offer.mine)
        return failed([{ path: "", message: "the open plan has changed since: look at it again" }]);
      const { clashes } = offer.merged;
      const made = clashes.reduce(
        (one, clash, k) => (taken.has(k) ? takeTheirs(one, clash) : one),
        offer.merged.plan,
      );
      const { plan: numbered, renumbered } = withOwnNumbers(made, plan, offer.theirs);
      const read = parse(numbered);
      if (!read.ok) return read;
      await keeping.keep(slot, "merge", plan);
      const put = edits.edit(`Merge ${offer.theirs.title}`, () => read.value);
      return put.ok ? done(renumbered) : put;
    },
  };
}
