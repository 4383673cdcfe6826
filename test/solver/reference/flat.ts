/** A yes or no of the model, and a whole number. */
export interface Bit {
  readonly bit: string;
}
export interface Whole {
  readonly whole: string;
}

/** A sum's term: how many times what. */
export type Term = readonly [number, Bit | Whole];

/**
 * A constraint model in FlatZinc, built line by line: linear sums over bits and whole numbers, some of them only under
 * conditions, and clauses. Written out flat because flattening takes the browser build longer than solving.
 */
export class FlatModel {
  private readonly declared: string[] = [];
  private readonly stated: string[] = [];
  /** The 0-or-1 number that goes with a bit. */
  private readonly numberOf = new Map<string, string>();
  private count = 0;

  /** A bit; with `name` its value is in the answer. */
  bit(name?: string): Bit {
    const bit = name ?? this.fresh();
    this.declared.push(`var bool: ${bit}${name === undefined ? "" : " :: output_var"};`);
    return { bit };
  }

  /** A number from `low` to `high`, both allowed; with `name` its value is in the answer. */
  whole(low: number, high: number, name?: string): Whole {
    const whole = name ?? this.fresh();
    this.declared.push(`var ${low}..${high}: ${whole}${name === undefined ? "" : " :: output_var"};`);
    return { whole };
  }

  /** The sum is at most `bound` when all of `when` are true. */
  atMost(terms: readonly Term[], bound: number, when: readonly Bit[] = []): void {
    if (terms.length === 0) {
      if (bound < 0) this.clause([], when);
      return;
    }
    const sum = this.written(terms);
    if (when.length === 0) {
      this.stated.push(`constraint int_lin_le(${sum},${bound});`);
      return;
    }
    const holds = this.bit();
    this.stated.push(`constraint int_lin_le_reif(${sum},${bound},${holds.bit});`);
    this.clause([holds], when);
  }

  /** The sum is at least `bound` when all of `when` are true. */
  atLeast(terms: readonly Term[], bound: number, when: readonly Bit[] = []): void {
    this.atMost(
      terms.map(([times, what]) => [-times, what]),
      -bound,
      when,
    );
  }

  /** The sum is `value`. */
  equals(terms: readonly Term[], value: number): void {
    if (terms.length > 0) this.stated.push(`constraint int_lin_eq(${this.written(terms)},${value});`);
    else if (value !== 0) this.clause([], []);
  }

  /** True exactly when the sum is at most `bound`. */
  whetherAtMost(terms: readonly Term[], bound: number): Bit {
    const bit = this.bit();
    this.stated.push(`constraint int_lin_le_reif(${this.written(terms)},${bound},${bit.bit});`);
    return bit;
  }

  /** One of `yes` is true or one of `no` is false. */
  clause(yes: readonly Bit[], no: readonly Bit[]): void {
    const list = (bits: readonly Bit[]): string => `[${bits.map(({ bit }) => bit).join(",")}]`;
    this.stated.push(`constraint bool_clause(${list(yes)},${list(no)});`);
  }

  /** The whole text, to make `score` as great as can be; `first` is decided on first, yes before no. */
  maximising(score: Whole, first: readonly Bit[]): string {
    const order = `bool_search([${first.map(({ bit }) => bit).join(",")}],input_order,indomain_max,complete)`;
    return [...this.declared, ...this.stated, `solve :: ${order} maximize ${score.whole};`, ""].join("\n");
  }

  private written(terms: readonly Term[]): string {
    const names = terms.map(([, what]) => ("whole" in what ? what.whole : this.asNumber(what)));
    return `[${terms.map(([times]) => times).join(",")}],[${names.join(",")}]`;
  }

  private asNumber({ bit }: Bit): string {
    let number = this.numberOf.get(bit);
    if (number === undefined) {
      number = this.whole(0, 1).whole;
      this.numberOf.set(bit, number);
      this.stated.push(`constraint bool2int(${bit},${number});`);
    }
    return number;
  }

  private fresh(): string {
    this.count += 1;
    return `v${this.count}`;
  }
}
