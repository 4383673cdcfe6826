/** One of several ways of doing a thing, and how often it is taken: shares of a list sum to 1. */
interface Share {
  readonly share: number;
}

/** The operator that a number from 0 to below 1 falls to, by shares in the order of the list. */
export function drawn<Operator extends Share>(operators: readonly Operator[], at: number): Operator {
  let sum = 0;
  for (const one of operators) {
    sum += one.share;
    if (at < sum) return one;
  }
  return operators.at(-1)!;
}
