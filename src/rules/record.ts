import type { NumberGroup, NumberKey } from "./numbers.ts";

/**
 * What a flight rule is, but for its arithmetic: judge and maker have each their own. RULES.md is the law; a test holds the sentences
 * here to it. A rule with numbers in the plan's rules has its level there; any other is a breach always (S9), `must-do` open.
 */
export interface FlightRule {
  /** Short plain name, for screens and paper. */
  readonly words: string;
  /** As RULES.md says it. */
  readonly sentence: string;
  /** Who decides on it; null where the planner does. Common practice, no source. */
  readonly decides: string | null;
  /** How whoever decides may be asked to ease it for one task, EVA or suit; null where it is not for bargaining. */
  readonly eases: Easing | null;
  /** What can stand against a task or a schedule by it, as "why not" calls it; nothing where no relaxation makes room for it. */
  readonly causes: readonly string[];
  /** Its numbers in the plan's flight rules; null where tasks, links, EVAs and the site say what it asks for. */
  readonly numbers: RuleNumbers | null;
  /** By the unit that need and have come in: whether there must be at least or at most what is needed. */
  readonly amounts: Readonly<Partial<Record<Unit, Sense>>>;
}

export type Unit = "s" | "m" | "kg" | "Wh" | "kJ" | "L" | "deg" | "m/s" | "count" | "none";

/** either: a bound may be missed on both sides. */
export type Sense = "least" | "most" | "either";

/** Steps by which a rule is eased, and how many of them are asked for at most; choice: one thing taken away or put elsewhere. */
interface Easing {
  readonly by: "min" | "%" | "0.1 degree" | "unit" | "choice";
  readonly most: number;
}

/** Numbers of one group of the plan's flight rules; `limit` is the one that the rule is held to, the first where it is left out. */
type RuleNumbers = {
  readonly [Group in NumberGroup]: {
    readonly group: Group;
    readonly keys: readonly NumberKey<Group>[];
    readonly limit?: NumberKey<Group>;
  };
}[NumberGroup];
