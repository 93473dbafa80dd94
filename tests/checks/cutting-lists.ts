import highsLoader from 'highs';
import { type Column, type Problem, problemOf } from '../../packages/core/src/roll/cutting/problem.ts';
import { Relaxation, type Relaxed, type State } from '../../packages/core/src/roll/cutting/relaxation.ts';
import {
  bestOfAll,
  type Costs,
  closeLists,
  type List,
  least,
  lostOn as lostOnList,
  patternsOf,
  smallLists,
} from './cutting-models.ts';

export const highs = await highsLoader();
export const sum = (of: readonly number[]): number => of.reduce((total, x) => total + x, 0);
export const steps = (left: number) => ({ left });
export const cutting = ({ pieces, rolls, perCut, leastUseful }: List): Problem =>
  problemOf(pieces, rolls, perCut, leastUseful);

/** The lists whose plans are few enough to try them all. */
const ofFewPatterns = (lists: readonly List[]) =>
  lists
    .map((list) => ({ list, patterns: patternsOf(list) }))
    .filter(({ patterns }) => patterns.length > 0 && patterns.length <= 60);

/** Every plan of each was tried: once, for all tests. */
export const tried = ofFewPatterns(smallLists(200))
  .slice(0, 120)
  .map((of) => ({
    ...of,
    best: bestOfAll(of.list, of.patterns),
    get problem(): Problem {
      return cutting(of.list);
    },
  }));
const special: List[] = [
  // The first packing on the longest rolls loses one unit of length more than the best.
  {
    pieces: [
      [500, 2],
      [499, 2],
    ],
    rolls: [
      [1000, 2],
      [999, 2],
    ],
    perCut: 0,
    leastUseful: 5000,
  },
  // Shorter rolls are filled to the end.
  {
    pieces: [
      [300, 2],
      [200, 2],
    ],
    rolls: [
      [600, 2],
      [500, 2],
    ],
    perCut: 0,
    leastUseful: 5000,
  },
  {
    pieces: [
      [300, 2],
      [200, 2],
    ],
    rolls: [
      [600, 2],
      [500, 2],
    ],
    perCut: 0,
    leastUseful: 100,
  },
  // What is lost at first is one unit more than the least, or as little as a bound that is left open.
  {
    pieces: [
      [520, 1],
      [500, 1],
      [480, 3],
    ],
    rolls: [
      [1000, 2],
      [990, 2],
      [970, 2],
    ],
    perCut: 0,
    leastUseful: 5000,
  },
  {
    pieces: [
      [360, 1],
      [120, 6],
    ],
    rolls: [
      [850, 4],
      [750, 9],
      [500, 9],
    ],
    perCut: 0,
    leastUseful: 80,
  },
  {
    pieces: [[180, 6]],
    rolls: [
      [950, 9],
      [600, 2],
    ],
    perCut: 30,
    leastUseful: 80,
  },
  // It matters which cut is the first to choose a roll.
  {
    pieces: [
      [380, 3],
      [300, 2],
      [260, 4],
      [180, 1],
    ],
    rolls: [
      [900, 2],
      [750, 3],
      [500, 4],
    ],
    perCut: 30,
    leastUseful: 200,
  },
];
export const close = [...special, ...closeLists(60)].map((list) => ({ list, best: bestOfAll(list) }));
export const possible = tried.filter(({ best }) => best) as (Omit<(typeof tried)[number], 'best'> & {
  best: Costs;
})[];
/** The same, of lengths without a common measure. */
export const uneven = ofFewPatterns(
  smallLists(40, 5).map((list) => ({
    ...list,
    pieces: list.pieces.map(([length, n]) => [length + (Math.sqrt(length + 0.5) % 7), n] as const),
  })),
).map((of) => ({ ...of, best: bestOfAll(of.list, of.patterns) }));

/** What is wrong with a plan, reckoned from the list. */
export function wrongs(list: List, problem: Problem, plan: readonly Column[]): string[] {
  const cut = list.pieces.map((_, i) => sum(plan.map((column) => column.times * (column.cut[i] as number))));
  const opened = list.rolls.map((_, t) =>
    sum(plan.flatMap((column) => (column.roll === t ? [column.times] : []))),
  );
  return [
    ...list.pieces.flatMap(([length, n], i) =>
      cut[i] === n ? [] : [`${cut[i]} of ${n} pieces of ${length}`],
    ),
    ...list.rolls.flatMap(([length, n], t) =>
      (opened[t] as number) <= n ? [] : [`${opened[t]} of ${n} rolls of ${length}`],
    ),
    ...plan.flatMap(({ roll, cut, lost, times }) => {
      const of = lostOnList(list, roll, cut);
      const isSo =
        of !== undefined && Math.abs(lost * problem.unit - of) < 1e-6 && times >= 1 && sum(cut) > 0;
      return isSo ? [] : [`${times} of ${cut} from ${roll} lose ${lost}`];
    }),
  ];
}

/** The pieces and rolls of a list, so many rolls to use, so much to lose. */
export const stateOf = ({ demand, stock }: Problem, rolls?: number, lost?: number): State => ({
  demand,
  stock,
  ...(rolls === undefined ? {} : { rolls }),
  ...(lost === undefined ? {} : { lost }),
});

/** What HiGHS finds, once for all runs. */
const known = new Map<string, number>();
export const optimumOf = (text: string): number => {
  if (!known.has(text)) known.set(text, least(highs, text) as number);
  return known.get(text) as number;
};

/** A relaxation whose solution leads nowhere: the search proper has to find all plans by itself. */
export class Silent extends Relaxation {
  override relax(state: State, limit: number) {
    return { ...super.relax(state, limit), solution: [] };
  }
}

/** One that is dear but for the first, so that the bounds of the first have to serve all nodes. */
export class Dear extends Silent {
  #many = 0;
  override relax(state: State, limit: number) {
    const found = super.relax(state, limit);
    this.#many += 1;
    if (this.#many > 1) this.budget.left -= 100_001;
    return found;
  }
}

/** Every call of a relaxation, what it was asked and what it found. */
export interface Call {
  readonly state: State;
  readonly limit: number;
  readonly found: Relaxed;
}
export class Watched extends Relaxation {
  readonly calls: Call[] = [];
  readonly kept: Column[] = [];
  /** What the search is told instead of what was found; the first call is of all, the second of the search proper. */
  told: (found: Relaxed, nth: number) => Relaxed = (found) => found;
  override relax(state: State, limit: number) {
    const found = this.told(super.relax(state, limit), this.calls.length);
    this.calls.push({ state, limit, found });
    return found;
  }
  override keep(column: Column) {
    this.kept.push(column);
    return super.keep(column);
  }
}
export const without = (state: State, { roll, cut, times, lost }: Column): State => ({
  demand: state.demand.map((n, i) => n - times * (cut[i] as number)),
  stock: state.stock.map((n, t) => (t === roll ? n - times : n)),
  ...(state.rolls === undefined ? {} : { rolls: state.rolls - times }),
  ...(state.lost === undefined ? {} : { lost: state.lost - times * lost }),
});
export const isCut = ({ demand }: State): boolean => demand.every((n) => n === 0);
