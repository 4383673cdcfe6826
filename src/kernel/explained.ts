/**
 * From what a figure comes: formula, inputs with units, source. The formula is arithmetic in the inputs' names, so that
 * whoever doubts the figure can work it out again; a test does.
 */
export interface Explained {
  /** What it is: "oxygen drawn". */
  readonly of: string;
  readonly value: number;
  readonly unit: string;
  readonly formula: string;
  readonly inputs: readonly { readonly name: string; readonly value: number; readonly unit: string }[];
  /** The model's file and where it comes from. */
  readonly source: string;
}
