import type { Random } from "../../kernel/index.ts";

const EPSILON = 1e-9;
/** A column comes in only when it gains more than this. */
const GAIN = 1e-7;
/** Pivots after which the inverse is worked out anew. */
const FRESH_AFTER = 500;

/** What a column brings, and its share of each row's limit. */
export interface Column {
  readonly worth: number;
  readonly rows: readonly number[];
  readonly share: readonly number[];
}

/**
 * A linear program that grows by columns: the most worth with every row within its limit, by the revised simplex method
 * with a dense inverse (Dantzig & Orchard-Hays 1954). Limits are not negative, so that nothing at all is a solution; they
 * are lifted by a hair so that ties end. What is wanted are the prices, and those bound whatever their rounding.
 */
export class Packing {
  readonly columns: Column[] = [];
  /** What a unit of each row is worth. */
  readonly price: Float64Array;
  private readonly size: number;
  private readonly limit: Float64Array;
  /** In each place of the basis a column, or the slack of a row as -1 - row. */
  private readonly basis: Int32Array;
  private readonly slackIn: Uint8Array;
  private readonly columnIn: boolean[] = [];
  private readonly inverse: Float64Array;
  private readonly amount: Float64Array;
  private readonly direction: Float64Array;
  private pivots = 0;

  constructor(limits: ArrayLike<number>, random: Random) {
    const size = limits.length;
    this.size = size;
    this.limit = Float64Array.from(limits, (limit) => limit + (1 + random.next()) * 1e-6);
    this.basis = Int32Array.from({ length: size }, (_, i) => -1 - i);
    this.slackIn = new Uint8Array(size).fill(1);
    this.inverse = new Float64Array(size * size);
    for (let i = 0; i < size; i += 1) this.inverse[i * size + i] = 1;
    this.amount = this.limit.slice();
    this.direction = new Float64Array(size);
    this.price = new Float64Array(size);
  }

  add(column: Column): void {
    this.columns.push(column);
    this.columnIn.push(false);
  }

  /** Takes away what a column brings, so that nothing is gained by using it. */
  void(c: number): void {
    this.columns[c] = { ...this.columns[c]!, worth: 0 };
  }

  /** Columns in use, with how much of each. */
  used(): { column: number; amount: number }[] {
    const list: { column: number; amount: number }[] = [];
    this.basis.forEach((column, i) => {
      if (column >= 0 && this.amount[i]! > 1e-5) list.push({ column, amount: this.amount[i]! });
    });
    return list;
  }

  /** What a column gains beyond what its rows are worth. */
  reduced(c: number): number {
    const { worth, rows, share } = this.columns[c]!;
    let value = worth;
    for (let k = 0; k < rows.length; k += 1) value -= this.price[rows[k]!]! * share[k]!;
    return value;
  }

  /** Solves for the columns there are. */
  *solve(): Generator<void> {
    this.reprice();
    for (let turn = 1; ; turn += 1) {
      const enters = this.entering();
      if (enters === null || !this.pivot(enters)) return;
      if (turn % 8 === 0) yield;
    }
  }

  /** The column or slack that gains most by coming in; null where nothing gains. */
  private entering(): number | null {
    const { size, price } = this;
    let enters: number | null = null;
    let gain = GAIN;
    for (let c = 0; c < this.columns.length; c += 1) {
      if (this.columnIn[c]) continue;
      const more = this.reduced(c);
      if (more <= gain) continue;
      gain = more;
      enters = c;
    }
    for (let i = 0; i < size; i += 1) {
      if (this.slackIn[i] === 1 || -price[i]! <= gain) continue;
      gain = -price[i]!;
      enters = -1 - i;
    }
    return enters;
  }

  /** Brings in a column or a slack; false when nothing limits it. */
  private pivot(enters: number): boolean {
    const { size, direction, inverse, amount, basis } = this;
    this.directionOf(enters);
    let out = -1;
    let least = Infinity;
    for (let i = 0; i < size; i += 1) {
      if (direction[i]! <= 1e-8) continue;
      const ratio = amount[i]! / direction[i]!;
      if (ratio >= least) continue;
      least = ratio;
      out = i;
    }
    if (out < 0) return false;
    this.mark(basis[out]!, false);
    this.mark(enters, true);
    basis[out] = enters;
    eliminate(inverse, direction, out, size);
    for (let i = 0; i < size; i += 1)
      if (i !== out) amount[i] = Math.max(0, amount[i]! - least * direction[i]!);
    amount[out] = least;
    this.pivots += 1;
    if (this.pivots % FRESH_AFTER === 0) this.refresh();
    this.reprice();
    return true;
  }

  private directionOf(code: number): void {
    const { size, direction, inverse } = this;
    direction.fill(0);
    this.eachRow(code, (row, share) => {
      for (let i = 0; i < size; i += 1) direction[i]! += inverse[i * size + row]! * share;
    });
  }

  private eachRow(code: number, see: (row: number, share: number) => void): void {
    if (code < 0) {
      see(-1 - code, 1);
      return;
    }
    const { rows, share } = this.columns[code]!;
    rows.forEach((row, k) => {
      see(row, share[k]!);
    });
  }

  private mark(code: number, inside: boolean): void {
    if (code < 0) this.slackIn[-1 - code] = inside ? 1 : 0;
    else this.columnIn[code] = inside;
  }

  private reprice(): void {
    const { size, basis, inverse, price } = this;
    price.fill(0);
    for (let i = 0; i < size; i += 1) {
      const code = basis[i]!;
      if (code < 0) continue;
      const { worth } = this.columns[code]!;
      for (let j = 0; j < size; j += 1) price[j]! += worth * inverse[i * size + j]!;
    }
    for (let j = 0; j < size; j += 1) if (Math.abs(price[j]!) < EPSILON) price[j] = 0;
  }

  /** The inverse from scratch: every column of the basis brought in again, the largest pivot first within each. */
  private refresh(): void {
    const { size, inverse, basis, amount, limit, direction } = this;
    const codes = [...basis];
    inverse.fill(0);
    for (let i = 0; i < size; i += 1) inverse[i * size + i] = 1;
    const free = new Uint8Array(size).fill(1);
    for (const code of codes) {
      this.directionOf(code);
      let at = -1;
      for (let i = 0; i < size; i += 1)
        if (free[i] === 1 && (at < 0 || Math.abs(direction[i]!) > Math.abs(direction[at]!))) at = i;
      free[at] = 0;
      basis[at] = code;
      eliminate(inverse, direction, at, size);
    }
    for (let i = 0; i < size; i += 1) {
      let value = 0;
      for (let j = 0; j < size; j += 1) value += inverse[i * size + j]! * limit[j]!;
      amount[i] = Math.max(0, value);
    }
  }
}

/** The inverse after the column with `direction` has taken place `out`. */
function eliminate(inverse: Float64Array, direction: Float64Array, out: number, size: number): void {
  const by = direction[out]!;
  for (let j = 0; j < size; j += 1) inverse[out * size + j]! /= by;
  for (let i = 0; i < size; i += 1) {
    const times = direction[i]!;
    if (i === out || times === 0) continue;
    for (let j = 0; j < size; j += 1) inverse[i * size + j]! -= times * inverse[out * size + j]!;
  }
}
