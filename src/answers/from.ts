import type { Explained } from "../kernel/index.ts";
import type { Consumable } from "../plan/index.ts";
import type { RuleId } from "../rules/index.ts";
import type { Subject } from "./verdict.ts";

/** A figure on a screen, asked from what it comes. */
export type ExplainRequest =
  /** What a suit has left of a consumable at a time; at ingress complete when `atS` is null. */
  | {
      readonly what: "left";
      readonly eva: string;
      readonly crew: string;
      readonly consumable: Consumable;
      readonly atS: number | null;
    }
  /** The heat stored in a body over an EVA. */
  | { readonly what: "heat"; readonly eva: string; readonly crew: string }
  /** Walk-back needed and allowed at a time; at the moment with the least to spare when `atS` is null. */
  | { readonly what: "walkback"; readonly eva: string; readonly crew: string; readonly atS: number | null }
  /** Where a placed task stands: its crew's rates in it, and the way back from its end. */
  | { readonly what: "task"; readonly task: string }
  | { readonly what: "worth" }
  | { readonly what: "walked" }
  /** Need and have of a finding, with the sums behind them. */
  | { readonly what: "finding"; readonly rule: RuleId; readonly subjects: readonly Subject[] }
  /** The number that a rule asks for. */
  | { readonly what: "rule"; readonly rule: RuleId };

/** From what a figure comes: what it is worked out from, and what it is the sum of, line by line. */
export interface FromAnswer {
  /** In a sentence, where there is more to say than figures. */
  readonly says?: string;
  readonly figures: readonly Explained[];
  readonly sums: FromTable | null;
}

/** Lines that add up to a figure, ready to be read. The first column is words, all others are numbers. */
export interface FromTable {
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}
