/**
 * A published or otherwise independent value and what the product makes of it. The checks run these and the
 * validation page beside the models is written from them, so the page cannot say what the tests do not hold.
 */
export interface Case {
  /** The model's file in src/physics, in src with its folder, or for one of models/ beside this `reference/` and its name; no ending. */
  readonly model: string;
  readonly what: string;
  readonly source: string;
  /** Where the value was read. */
  readonly provenance: Provenance;
  readonly unit: string;
  /** The value outside the product, or the range it must lie in. */
  readonly value: number | readonly [number, number];
  readonly ours: () => number;
  /** Greatest difference allowed, in the unit; 0 for a range. */
  readonly within: number;
}

/**
 * published: read in the source or an abstract of it. as quoted: read where another text quotes it. value from
 * memory: no text at hand. arithmetic: worked from the formula by hand. reference: computed by another route.
 */
export type Provenance = "published" | "as quoted" | "value from memory" | "arithmetic" | "reference";

export const POUND_KG = 0.45359237;
