import { type Budget, knapsack } from './knapsack.ts';
import { type Column, columnOf, type Problem, roomBesideUse, roomOf, sizesOf, sum } from './problem.ts';
import { type Entries, Simplex } from './simplex.ts';

/** What is made least: the rolls opened; with so many rolls, what is lost; with no more lost, the distinct patterns. */
export type Aim = 'rolls' | 'lost' | 'patterns';

/** What is still to be cut, from what, and within which limits. */
export interface State {
  readonly demand: readonly number[];
  readonly stock: readonly number[];
  /** Rolls to use, neither more nor fewer; without a number where the fewest are looked for. */
  readonly rolls?: number;
  /** Most that may be lost. */
  readonly lost?: number;
}

/** A column of the linear program; without a pattern where it stands for what is left of a limit. */
export interface Priced extends Entries {
  readonly column?: Column;
}

/** What dual values make of a roll: what each piece brings, what each roll costs, and what a length lost costs. */
export interface Worth {
  readonly brought: readonly number[];
  /** The same where all but the pieces is lost, and where an off-cut of use is left and only the cuts are. */
  readonly scrapped: readonly number[];
  readonly spared: readonly number[];
  readonly roll: readonly number[];
  readonly lost: number;
  /** What a column costs of itself. */
  readonly each: number;
}

/** The least cost if rolls could be cut in part. */
export interface Relaxed {
  /** Nothing costs less. */
  readonly bound: number;
  /** A plan costs this and the excess of each of its columns. */
  readonly base: number;
  excess(column: Priced): number;
  /** Most that a column gains on the dual values: nothing, but for a relaxation that was ended early. */
  readonly gain: number;
  readonly worth: Worth;
  readonly solution: readonly (readonly [Column, number])[];
}

/** Linear programs over patterns, which are made as they are needed and kept for the next program. */
export class Relaxation {
  readonly problem: Problem;
  readonly aim: Aim;
  readonly budget: Budget;
  readonly sizes: readonly number[];
  /** Costs are whole; otherwise they may be any number. */
  readonly whole: boolean;
  /** Least by which a cost counts as better. */
  readonly least: number;
  readonly #pool = new Map<string, Priced>();

  constructor(problem: Problem, aim: Aim, budget: Budget) {
    this.problem = problem;
    this.aim = aim;
    this.budget = budget;
    this.sizes = sizesOf(problem);
    this.whole = aim !== 'lost' || problem.whole;
    this.least = this.whole ? 1 : 1e-7 * (problem.rolls[0] as number);
  }

  costOf({ times, lost }: Column): number {
    if (this.aim === 'patterns') return 1;
    return this.aim === 'rolls' ? times : times * lost;
  }

  /** A bound raised to what a plan can cost. */
  up(bound: number): number {
    return this.whole ? Math.ceil(bound - 1e-6 - 1e-9 * Math.abs(bound)) : bound;
  }

  /** The most rolls that are taken as one column. */
  timesMost({ demand, rolls = 1 }: State): number {
    return this.aim === 'patterns' ? Math.min(rolls, Math.max(...demand)) : 1;
  }

  /** A column as the program sees it. Its rows: pieces, stock, number of rolls, what may be lost. */
  priced(column: Column): Priced {
    const { roll, cut, times, lost } = column;
    const rows: number[] = [];
    const values: number[] = [];
    const add = (row: number, value: number): void => {
      rows.push(row);
      values.push(value);
    };
    for (const [i, n] of cut.entries()) if (n > 0) add(i, n * times);
    const limits = cut.length + this.problem.rolls.length;
    add(cut.length + roll, times);
    if (this.aim !== 'rolls') add(limits, times);
    if (this.aim === 'patterns') add(limits + 1, times * lost);
    return { column, cost: this.costOf(column), rows, values };
  }

  /** Keeps a column for the programs to come. */
  keep(column: Column): Priced {
    const priced = this.priced(column);
    this.#pool.set(`${column.roll}*${column.times}:${column.cut.join()}`, priced);
    return priced;
  }

  #worthOf(duals: ArrayLike<number>): Worth {
    const { pieces, rolls, perCut } = this.problem;
    const limits = pieces.length + rolls.length;
    const brought = pieces.map((_, i) => duals[i] as number);
    const anyRoll = this.aim === 'rolls' ? 0 : (duals[limits] as number);
    const priceOf = { rolls: 0, lost: 1, patterns: Math.max(0, -(duals[limits + 1] ?? 0)) };
    const lost = priceOf[this.aim];
    return {
      brought,
      scrapped: brought.map((v, i) => v + lost * (pieces[i] as number)),
      spared: brought.map((v) => v - lost * perCut),
      roll: rolls.map((_, t) => Math.min(0, duals[pieces.length + t] as number) + anyRoll),
      lost,
      each: this.aim === 'lost' ? 0 : 1,
    };
  }

  /** The column that gains most on the dual values, for so many rolls taken as one. */
  #best(worth: Worth, { demand, stock }: State, times: number): readonly [Column | undefined, number] {
    const { problem, sizes, budget } = this;
    const copies = demand.map((n) => Math.floor(n / times));
    const there = [...problem.rolls.keys()].filter((t) => (stock[t] as number) >= times);
    let best: readonly [roll: number, contents: () => number[], gain: number] | undefined;
    const fill = (
      values: readonly number[],
      roomFor: typeof roomOf,
      priceOf: (t: number) => number,
    ): void => {
      const usable = there.filter((t) => roomFor(problem, t) >= 0);
      const room = Math.max(...usable.map((t) => roomFor(problem, t)));
      const filled = usable.length > 0 ? knapsack(sizes, values, copies, room, budget) : undefined;
      for (const t of usable) {
        const within = filled?.within(roomFor(problem, t)) ?? 0;
        const gain = times * (within + (worth.roll[t] as number) - priceOf(t)) - worth.each;
        if (!best || gain > best[2] + 1e-12)
          best = [t, () => filled?.contents(roomFor(problem, t)) ?? [], gain];
      }
    };
    fill(worth.scrapped, roomOf, (t) => worth.lost * (problem.rolls[t] as number));
    if (worth.lost > 0) fill(worth.spared, roomBesideUse, () => 0);
    return best ? [columnOf(problem, best[0], best[1](), times), best[2]] : [undefined, 0];
  }

  /** The least cost from a state if rolls could be cut in part. Ends early where it passes `limit`. */
  relax(state: State, limit: number): Relaxed {
    const { demand, stock, rolls, lost } = state;
    // What a stand-in costs: more than it could save, or the bound is merely weaker.
    const dear = this.aim === 'lost' ? 4 * (this.problem.rolls[0] as number) : 4;
    const rows: { right: number; standIn: number; spare: number }[] = [
      ...demand.map((right) => ({ right, standIn: dear, spare: this.aim === 'rolls' ? -1 : 0 })),
      ...stock.map((right) => ({ right, standIn: 0, spare: 1 })),
      ...(rolls === undefined ? [] : [{ right: rolls, standIn: dear, spare: 0 }]),
      ...(lost === undefined ? [] : [{ right: Math.max(0, lost), standIn: 0, spare: 1 }]),
    ];
    const program = new Simplex<Priced>(rows);
    const fits = ({ roll, cut, times }: Column): boolean =>
      times <= (stock[roll] as number) && cut.every((n, i) => n * times <= (demand[i] as number));
    const columns: Priced[] = [
      ...[...this.#pool.values()].filter(({ column }) => column && fits(column)),
      ...rows.flatMap(({ spare }, row): Priced[] =>
        spare === 0 ? [] : [{ cost: 0, rows: [row], values: [spare] }],
      ),
    ];
    const columnsMost = Math.min(
      this.aim === 'lost' ? Number.POSITIVE_INFINITY : limit,
      rolls ?? sum(demand),
    );
    const timesMost = this.timesMost(state);
    const least = 1e-10 * dear;
    let worth: Worth;
    let bound = Number.NEGATIVE_INFINITY;
    let base: number;
    let gainMost: number;

    for (;;) {
      // First the columns there are.
      let stuck: boolean;
      for (;;) {
        let next: Priced | undefined;
        let best = least;
        for (const column of columns) {
          const gain = program.gain(column);
          if (gain > best) {
            best = gain;
            next = column;
          }
        }
        this.budget.left -= (columns.length + rows.length * rows.length) / 8;
        stuck = next !== undefined && !program.enter(next);
        if (!next || stuck || this.budget.left < 0) break;
      }
      // Then the best that there could be.
      worth = this.#worthOf(program.duals);
      gainMost = 0;
      let grew = false;
      for (let times = 1; times <= timesMost; times++) {
        const [column, gain] = this.#best(worth, state, times);
        gainMost = Math.max(gainMost, gain);
        if (!column || gain <= least) continue;
        columns.push(this.keep(column));
        grew = true;
      }
      // Any dual values bound the cost, once what columns gain on them is taken off as often as there are columns.
      let reached = 0;
      let dual = 0;
      for (const [row, { right, spare }] of rows.entries()) {
        const y = program.duals[row] as number;
        reached += y * right;
        dual += (spare === 1 ? Math.min(0, y) : spare === -1 ? Math.max(0, y) : y) * right;
      }
      base = dual - (gainMost > 0 ? gainMost * columnsMost : 0);
      // Where every column costs one roll, they may be scaled down instead.
      bound = Math.max(bound, base, this.aim === 'rolls' ? dual / (1 + gainMost) : base);
      if (!grew || stuck || bound > limit || this.up(bound) >= reached || this.budget.left < 0) break;
    }
    return {
      bound,
      base,
      gain: gainMost,
      worth,
      excess: (column) => gainMost - program.gain(column),
      solution: program.solution().flatMap(([{ column }, x]) => (column ? [[column, x] as const] : [])),
    };
  }
}
