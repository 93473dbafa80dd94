/** A column of a linear program: its cost, and its entries by row. */
export interface Entries {
  readonly cost: number;
  readonly rows: readonly number[];
  readonly values: readonly number[];
}

/** A row: what its columns must come to, and what a stand-in for them costs. */
export interface Row {
  readonly right: number;
  readonly standIn: number;
}

/**
 * A linear program of least cost in equality form that grows by columns: the revised simplex method with an explicit
 * inverse. It starts from a stand-in for each row.
 */
export class Simplex<C extends Entries> {
  /** Dual values of the rows. */
  readonly duals: Float64Array;
  readonly #inverse: readonly Float64Array[];
  readonly #amounts: Float64Array;
  readonly #basis: (C | undefined)[];

  constructor(rows: readonly Row[]) {
    this.duals = Float64Array.from(rows, ({ standIn }) => standIn);
    this.#inverse = rows.map((_, i) => new Float64Array(rows.length).fill(1, i, i + 1));
    // Right sides a hair apart, so that no two rows tie and the method cannot turn in circles.
    this.#amounts = Float64Array.from(rows, ({ right }, i) => right + 1e-7 * (1 + ((i * 0.618034) % 1)));
    this.#basis = rows.map(() => undefined);
  }

  /** What the dual values gain on a column: above nothing, taking it in lowers the cost. */
  gain({ cost, rows, values }: C): number {
    let sum = -cost;
    for (let k = 0; k < rows.length; k++)
      sum += (this.duals[rows[k] as number] as number) * (values[k] as number);
    return sum;
  }

  /** Takes a column into the basis; false where nothing limits it. */
  enter(column: C): boolean {
    const size = this.duals.length;
    const gain = this.gain(column);
    const along = new Float64Array(size);
    let leaving = -1;
    let amount = Number.POSITIVE_INFINITY;
    for (let i = 0; i < size; i++) {
      const row = this.#inverse[i] as Float64Array;
      let sum = 0;
      for (let k = 0; k < column.rows.length; k++)
        sum += (row[column.rows[k] as number] as number) * (column.values[k] as number);
      along[i] = sum;
      if (sum <= 1e-9) continue;
      const ratio = Math.max(0, this.#amounts[i] as number) / sum;
      if (ratio < amount) {
        amount = ratio;
        leaving = i;
      }
    }
    if (leaving < 0) return false;
    const pivot = along[leaving] as number;
    const row = this.#inverse[leaving] as Float64Array;
    for (let k = 0; k < size; k++) row[k] = (row[k] as number) / pivot;
    for (let i = 0; i < size; i++) {
      const factor = along[i] as number;
      if (i === leaving || factor === 0) continue;
      const other = this.#inverse[i] as Float64Array;
      for (let k = 0; k < size; k++) other[k] = (other[k] as number) - factor * (row[k] as number);
      this.#amounts[i] = (this.#amounts[i] as number) - factor * amount;
    }
    this.#amounts[leaving] = amount;
    for (let k = 0; k < size; k++) this.duals[k] = (this.duals[k] as number) - gain * (row[k] as number);
    this.#basis[leaving] = column;
    return true;
  }

  /** Columns of the basis and how much of each. */
  solution(): (readonly [C, number])[] {
    return this.#basis.flatMap((column, i) => {
      const x = this.#amounts[i] as number;
      return column && x > 1e-6 ? [[column, x] as const] : [];
    });
  }
}
