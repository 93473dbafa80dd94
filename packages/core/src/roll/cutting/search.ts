import type { Budget } from './knapsack.ts';
import { bestFit } from './pack.ts';
import { type Column, columnOf, rollsIn, roomBesideUse, roomOf, sum } from './problem.ts';
import type { Relaxation, Relaxed, State } from './relaxation.ts';

export interface Found {
  readonly cost: number;
  readonly plan: readonly Column[];
}

export interface Searched {
  /** The best plan, if any was found. */
  readonly best: Found | undefined;
  /** No plan costs less. */
  readonly bound: number;
  /** Whether the bound is reached, or every plan was ruled out: the steps did not run out first. */
  readonly proven: boolean;
}

/** Dives before the search proper leave the plain way down at one of so many steps, for one of so many columns. */
const divesTo = 4;
const divesAt = 8;
/** Steps of the first try of the search proper. */
const firstTry = 100_000;

const isEmpty = (demand: readonly number[]): boolean => demand.every((n) => n === 0);

/** What is left once a column is cut. */
function after(state: State, { roll, cut, times, lost }: Column): State {
  return {
    demand: state.demand.map((n, i) => n - (cut[i] as number) * times),
    stock: state.stock.map((n, t) => (t === roll ? n - times : n)),
    ...(state.rolls === undefined ? {} : { rolls: state.rolls - times }),
    ...(state.lost === undefined ? {} : { lost: state.lost - lost * times }),
  };
}

/**
 * Branch and bound over patterns. A node is what is still to be cut; it branches on the longest piece that is left, over
 * every pattern with that piece which the bound still allows. What was ruled out once is not looked at again, in
 * whatever order it was reached.
 */
export class Search {
  readonly #relaxation: Relaxation;
  readonly #budget: Budget;
  /** Nodes that lead nowhere, with the least that had been spent on reaching them. */
  readonly #ruledOut = new Map<string, number>();
  /** Whether every node has a relaxation of its own, or the first serves all. */
  #own = false;
  #best: Found | undefined;
  #goal = Number.NEGATIVE_INFINITY;
  /** What a plan may cost at most while none is found. */
  #most = Number.POSITIVE_INFINITY;

  constructor(relaxation: Relaxation, best: Found | undefined) {
    this.#relaxation = relaxation;
    this.#budget = relaxation.budget;
    this.#best = best;
  }

  /** The least cost from a state, with a bound that is known already. */
  run(state: State, known: number): Searched {
    this.#goal = known;
    if (this.#relaxation.aim === 'rolls') this.#most = sum(state.stock);
    if (!this.#isDone()) {
      for (const column of this.#best?.plan ?? []) this.#relaxation.keep(column);
      const root = this.#relaxation.relax(state, this.#limit(0));
      const most = this.#best?.cost ?? Number.POSITIVE_INFINITY;
      this.#goal = Math.max(known, Math.min(this.#relaxation.up(root.bound), most));
      this.#dive(state, root, 0, 0);
      for (let depth = 0; depth < divesTo; depth++)
        for (let nth = 1; nth <= divesAt && !this.#isOver(); nth++) this.#dive(state, root, depth, nth);
      this.#try(state, root);
    }
    const proven = this.#budget.left >= 0 || this.#isDone();
    const bound = proven ? (this.#best?.cost ?? Number.POSITIVE_INFINITY) : this.#goal;
    return { best: this.#best, bound, proven };
  }

  #isDone(): boolean {
    return this.#best !== undefined && this.#best.cost <= this.#goal;
  }

  #isOver(): boolean {
    return this.#budget.left < 0 || this.#isDone();
  }

  /** Most that what is to come may cost, to better the best so far. */
  #limit(spent: number): number {
    if (!this.#best) return this.#most - spent;
    return this.#best.cost - spent - this.#relaxation.least;
  }

  #offer(cost: number, state: State, plan: readonly Column[]): void {
    const isWithin = (state.rolls ?? 0) === 0 && (state.lost ?? 0) >= -this.#relaxation.problem.slack;
    if (isWithin && (!this.#best || cost < this.#best.cost)) this.#best = { cost, plan };
  }

  /** The search proper, with bounds of either kind by turns and ever more steps: which is quicker shows in trying. */
  #try(state: State, root: Relaxed): void {
    let left = this.#budget.left;
    for (let steps = firstTry; !this.#isOver(); steps *= this.#own ? 1 : 4) {
      this.#own = !this.#own;
      this.#budget.left = Math.min(left, steps);
      left -= this.#budget.left;
      this.#descend(state, 0, [], root, root.base);
      if (this.#budget.left >= 0) return;
      if (left > 0) this.#budget.left = left;
    }
  }

  /**
   * Takes whole what the relaxation has whole, or else what it has most of, and relaxes the rest, down to a plan. At one
   * depth it may take the nth fullest column instead.
   */
  #dive(from: State, root: Relaxed, depth: number, nth: number): void {
    const relaxation = this.#relaxation;
    const { problem, aim } = relaxation;
    let [state, relaxed, spent] = [from, root, 0];
    let plan: Column[] = [];
    // Columns taken together may cut more than is asked for: those go without.
    const take = ({ roll, cut, times }: Column, x: number): void => {
      const many = times * Math.max(1, Math.floor(x + 1e-5));
      const isWhole = cut.every((n, i) => n * many <= (state.demand[i] as number));
      const taken = isWhole ? many : times;
      const cutTo = cut.map((n, i) => Math.min(n, Math.floor((state.demand[i] as number) / taken)));
      const column = columnOf(problem, roll, cutTo, taken);
      if (!column || isEmpty(cutTo) || (state.stock[roll] as number) < taken) return;
      state = after(state, column);
      plan = [...plan, column];
      spent += relaxation.costOf(column);
    };
    for (let step = 0; ; step++) {
      const isOff = nth > 0 && step === depth;
      const rolls = ([{ times }, x]: readonly [Column, number]): number => times * x;
      const fullest = relaxed.solution.toSorted((a, b) => rolls(b) - rolls(a));
      const one = fullest[isOff ? nth - 1 : 0];
      const whole = relaxed.solution.filter(([, x]) => x > 1 - 1e-5);
      const before = plan.length;
      for (const [column, x] of isOff ? [] : whole) take(column, aim === 'patterns' ? 1 : x);
      if (plan.length === before && one) take(one[0], 1);
      if (isEmpty(state.demand)) this.#offer(spent, state, plan);
      if (isEmpty(state.demand) || plan.length === before) return;
      if (aim === 'rolls') {
        const rest = bestFit({ ...problem, stock: state.stock }, state.demand);
        if (rest) this.#offer(spent + rollsIn(rest), state, [...plan, ...rest]);
      }
      if (this.#isOver()) return;
      const limit = this.#limit(spent);
      relaxed = relaxation.relax(state, limit);
      if (relaxed.bound > limit) return;
    }
  }

  /** Every plan from a node on. `paid` is what it is bound to cost with what was spent on reaching it. */
  #descend(state: State, spent: number, plan: readonly Column[], from: Relaxed, paid: number): void {
    if (this.#isOver()) return;
    if (isEmpty(state.demand)) {
      this.#offer(spent, state, plan);
      return;
    }
    this.#budget.left -= 20 * state.demand.length;
    const key = `${state.demand.join()};${state.stock.join()};${state.rolls};${state.lost}`;
    if ((this.#ruledOut.get(key) ?? Number.POSITIVE_INFINITY) <= spent) return;
    const limit = this.#limit(spent);
    const relaxed = this.#own ? this.#relaxation.relax(state, limit) : from;
    const bound = this.#own ? spent + relaxed.base : paid;
    if (!this.#own || this.#relaxation.up(relaxed.bound) <= limit)
      for (const { column, excess } of this.#branches(state, relaxed, bound)) {
        const cost = spent + this.#relaxation.costOf(column);
        this.#descend(after(state, column), cost, [...plan, column], relaxed, bound + excess);
        if (this.#isOver()) return;
      }
    if (this.#budget.left >= 0) this.#ruledOut.set(key, spent);
  }

  /** Every column with the longest piece that is left whose excess is allowed, the least excess first. */
  #branches(state: State, relaxed: Relaxed, bound: number): { column: Column; excess: number }[] {
    const { problem, sizes, aim } = this.#relaxation;
    const { demand, stock, lost = Number.POSITIVE_INFINITY } = state;
    const { scrapped, spared, roll: rollWorth, lost: price, each } = relaxed.worth;
    const allowed = this.#limit(0) - bound + 1e-7 * (1 + Math.abs(bound));
    const first = demand.findIndex((n) => n > 0);
    const found: { column: Column; excess: number }[] = [];

    // The most that room can bring with the pieces from one on.
    const rates = (values: readonly number[]): number[] => {
      let best = 0;
      return [...values, 0]
        .map((value, i) => ((demand[i] ?? 0) > 0 ? value / (sizes[i] as number) : 0))
        .reverse()
        .map((rate) => (best = Math.max(best, rate)))
        .reverse();
    };
    const [scrappedRate, sparedRate] = [rates(scrapped), rates(spared)];

    for (let times = this.#relaxation.timesMost(state); times >= 1; times--) {
      if (times > (demand[first] as number)) continue;
      const copies = demand.map((n) => Math.floor(n / times));
      for (const roll of problem.rolls.keys()) {
        if ((stock[roll] as number) < times) continue;
        this.#budget.left -= 5 + sizes.length;
        if (this.#budget.left < 0) return [];
        const room = roomOf(problem, roll);
        const beside = roomBesideUse(problem, roll);
        const cut = sizes.map(() => 0);
        const rolled = rollWorth[roll] as number;
        const wholeRoll = price * (problem.rolls[roll] as number);
        const add = (i: number, used: number, ifScrapped: number, ifSpared: number): void => {
          this.#budget.left -= 1;
          if (this.#budget.left < 0) return;
          const toEnd = ifScrapped + (room - used) * (scrappedRate[i] as number) - wholeRoll;
          const toUse =
            used <= beside
              ? ifSpared + (beside - used) * (sparedRate[i] as number)
              : Number.NEGATIVE_INFINITY;
          const gain = times * (Math.max(toEnd, toUse) + rolled) - each;
          if (relaxed.gain - gain > allowed) return;
          if (i < sizes.length) {
            const size = sizes[i] as number;
            const least = i === first ? 1 : 0;
            for (let n = Math.min(copies[i] as number, Math.floor((room - used) / size)); n >= least; n--) {
              cut[i] = n;
              add(
                i + 1,
                used + n * size,
                ifScrapped + n * (scrapped[i] as number),
                ifSpared + n * (spared[i] as number),
              );
            }
            cut[i] = 0;
            return;
          }
          // Where only rolls count, a roll with room left for a piece is never better.
          const hasRoom = (n: number, k: number): boolean =>
            (cut[k] as number) < n && used + (sizes[k] as number) <= room;
          if (aim === 'rolls' && demand.some(hasRoom)) return;
          const column = columnOf(problem, roll, [...cut], times);
          if (!column || column.lost * times > lost + problem.slack) return;
          const excess = relaxed.excess(this.#relaxation.priced(column));
          if (excess <= allowed) found.push({ column, excess });
        };
        add(first, 0, 0, 0);
      }
    }
    return found.sort((a, b) => a.excess - b.excess || b.column.times - a.column.times);
  }
}
