import highsLoader from 'highs';
import { cuttingPlan, mm } from 'swathe';
import { describe, expect, test } from 'vitest';
import { byHalves, byMaterial } from '../../packages/core/src/roll/cutting/bounds.ts';
import { knapsack } from '../../packages/core/src/roll/cutting/knapsack.ts';
import { fewestPatterns, fewestRolls, leastLost } from '../../packages/core/src/roll/cutting/levels.ts';
import { bestFit, fillRolls } from '../../packages/core/src/roll/cutting/pack.ts';
import { inPatterns } from '../../packages/core/src/roll/cutting/patterns.ts';
import {
  type Column,
  columnOf,
  gathered,
  lostIn,
  lostOn,
  type Problem,
  problemOf,
  rollsIn,
} from '../../packages/core/src/roll/cutting/problem.ts';
import {
  type Aim,
  Relaxation,
  type Relaxed,
  type State,
} from '../../packages/core/src/roll/cutting/relaxation.ts';
import { Search } from '../../packages/core/src/roll/cutting/search.ts';
import { type Entries, Simplex } from '../../packages/core/src/roll/cutting/simplex.ts';
import {
  bestOfAll,
  type Costs,
  castRoomLists,
  closeLists,
  dice,
  fewestPatterns as fewestPatternsFor,
  fewestRolls as fewestRollsFor,
  type List,
  least,
  leastLost as leastLostFor,
  lostOn as lostOnList,
  model,
  patternsOf,
  planOf,
  smallLists,
  terms,
} from './cutting-models.ts';

const highs = await highsLoader();
const sum = (of: readonly number[]): number => of.reduce((total, x) => total + x, 0);
const steps = (left: number) => ({ left });
const cutting = ({ pieces, rolls, perCut, leastUseful }: List): Problem =>
  problemOf(pieces, rolls, perCut, leastUseful);

/** Every plan of each was tried: once, for all tests. */
const tried = smallLists(200)
  .map((list) => ({ list, patterns: patternsOf(list) }))
  .filter(({ patterns }) => patterns.length > 0 && patterns.length <= 60)
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
const close = [...special, ...closeLists(60)].map((list) => ({ list, best: bestOfAll(list) }));
const possible = tried.filter(({ best }) => best) as (Omit<(typeof tried)[number], 'best'> & {
  best: Costs;
})[];
/** The same, of lengths without a common measure. */
const uneven = smallLists(40, 5)
  .map((list) => ({
    ...list,
    pieces: list.pieces.map(([length, n]) => [length + (Math.sqrt(length + 0.5) % 7), n] as const),
  }))
  .map((list) => ({ list, patterns: patternsOf(list) }))
  .filter(({ patterns }) => patterns.length > 0 && patterns.length <= 60)
  .map((of) => ({ ...of, best: bestOfAll(of.list, of.patterns) }));

test('of the lists that are tried some have no plan, and most have one', () => {
  expect(possible.length).toBeGreaterThan(70);
  expect(tried.length - possible.length).toBeGreaterThan(10);
});

/** What is wrong with a plan, reckoned from the list. */
function wrongs(list: List, problem: Problem, plan: readonly Column[]): string[] {
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

describe('a problem', () => {
  const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

  test('is told in the greatest common measure of its lengths', () => {
    const upTo = dice(7);
    for (let n = 0; n < 300; n++) {
      const by = [1, 0.1, 25.4, 304.8, 1 / 3][upTo(5)] as number;
      const times = 1 + upTo(30);
      const counted = (from: number, to: number) => times * (from + upTo(to - from));
      const [pieces, rolls] = [counted, counted].map((of) =>
        [...new Set([of(20, 200), of(20, 200), of(20, 200)])].sort((a, b) => b - a),
      ) as [number[], number[]];
      const [perCut, useful] = [counted(0, 4), counted(0, 400)];
      const longest = rolls[0] as number;
      const of = [...pieces, ...rolls, perCut, ...(useful <= longest ? [useful] : [])];
      const measure = of.reduce(divisor);
      const problem = problemOf(
        pieces.map((x) => [x * by, 1]),
        rolls.map((x) => [x * by, 5]),
        perCut * by,
        useful * by,
      );
      expect(problem.whole).toBe(true);
      expect(problem.slack).toBe(0);
      expect(Math.abs(problem.unit / (measure * by) - 1)).toBeLessThan(1e-9);
      expect(problem.pieces).toEqual(pieces.map((x) => x / measure));
      expect(problem.rolls).toEqual(rolls.map((x) => x / measure));
      expect(problem.perCut).toBe(perCut / measure);
      if (useful <= longest) expect(problem.useful).toBe(useful / measure);
      else expect(problem.useful).toBeGreaterThan(problem.rolls[0] as number);
    }
  });

  test('keeps lengths without a common measure as they are', () => {
    const problem = problemOf([[100 * Math.SQRT2, 2]], [[1000, 3]], 0, 5000);
    expect(problem.whole).toBe(false);
    expect(problem.unit).toBe(1);
    expect(problem.pieces[0]).toBeCloseTo(141.4213562373, 8);
    expect(problem.rolls).toEqual([1000]);
    expect(problem.useful).toBeGreaterThan(1000);
    // What rounding of lengths known to twelve digits may make of it, and far below what is cut.
    expect(problem.slack).toBeGreaterThan(1e-9);
    expect(problem.slack).toBeLessThan(1e-5);
  });

  test('counts an off-cut of use in the same measure, up to a whole roll', () => {
    expect(problemOf([[100, 2]], [[300, 3]], 0, 150)).toMatchObject({ unit: 50, useful: 3, rolls: [6] });
    expect(problemOf([[100, 2]], [[300, 3]], 0, 300)).toMatchObject({ unit: 100, useful: 3, rolls: [3] });
    // To rounding, what is left here is as long as an off-cut of use, and there it is not.
    const [piece, useful] = [858.578643764, 141.421356237];
    expect(1000 - piece).toBeLessThan(useful);
    expect(lostOn(problemOf([[piece, 1]], [[1000, 1]], 0, useful), 0, [1])).toBe(0);
    expect(lostOn(problemOf([[piece, 1]], [[1000, 1]], 0, useful + 1e-3), 0, [1])).toBeCloseTo(useful, 6);
  });

  test('has each length once, the longest first, none of which there is none, and no more rolls than pieces', () => {
    const problem = problemOf(
      [
        [300, 2],
        [500, 1],
        [300, 3],
        [400, 0],
        [100 + 200 + 1e-13, 1],
      ],
      [
        [700, 1],
        [900, 50],
        [800, 0],
        [700, 2],
      ],
      0,
      100,
    );
    expect(problem).toMatchObject({
      pieces: [5, 3],
      demand: [1, 6],
      rolls: [9, 7],
      stock: [7, 3],
      unit: 100,
    });
  });

  test('with no rolls or no cut at all', () => {
    const problem = problemOf([[300, 2]], [], 0, 0);
    expect(problem).toMatchObject({ pieces: [300], demand: [2], rolls: [], stock: [], whole: false });
  });

  test('loses on a roll its cuts, or all but its pieces', () => {
    for (const { list, patterns, problem } of tried)
      for (const { roll, cut, lost } of patterns) {
        expect((lostOn(problem, roll, cut) as number) * problem.unit).toBeCloseTo(lost, 6);
        expect(columnOf(problem, roll, cut, 3)).toMatchObject({ roll, cut, times: 3 });
        const more = cut.map((n) => n + 3);
        expect(lostOn(problem, roll, more) === undefined).toBe(lostOnList(list, roll, more) === undefined);
        expect(columnOf(problem, roll, more, 1) === undefined).toBe(
          lostOnList(list, roll, more) === undefined,
        );
      }
  });

  test('of which the same column stands once', () => {
    const column = { roll: 0, cut: [1, 2], times: 2, lost: 5 };
    const other = { roll: 1, cut: [1, 2], times: 1, lost: 7 };
    const plan = gathered([column, other, { ...column, times: 3 }]);
    expect(plan).toEqual([{ ...column, times: 5 }, other]);
    expect(rollsIn(plan)).toBe(6);
    expect(lostIn(plan)).toBe(32);
  });
});

describe('bounds', () => {
  const items = ({ pieces, demand, perCut }: Problem): number[] =>
    pieces.flatMap((length, i) => Array<number>(demand[i] as number).fill(length + perCut));

  test('by material: the fewest of the longest rolls that are as long as all pieces with their cuts', () => {
    let beyond = 0;
    for (const { problem } of tried) {
      const opened = problem.rolls.flatMap((length, t) =>
        Array<number>(problem.stock[t] as number).fill(length + problem.perCut),
      );
      const wanted = sum(items(problem));
      let fewest = 0;
      while (fewest <= opened.length && sum(opened.slice(0, fewest)) < wanted) fewest += 1;
      const isEnough = fewest <= opened.length;
      expect(byMaterial(problem)).toBe(isEnough ? fewest : Number.POSITIVE_INFINITY);
      if (!isEnough) beyond += 1;
    }
    expect(beyond).toBeGreaterThan(0);
    expect(byMaterial(problemOf([], [[900, 3]], 0, 0))).toBe(0);
  });

  test('by halves: L2 as Martello and Toth define it, over every threshold', () => {
    for (const { problem } of tried) {
      const c = (problem.rolls[0] as number) + problem.perCut;
      const w = items(problem);
      let most = 0;
      for (let alpha = 0; alpha <= c / 2; alpha++) {
        const n1 = w.filter((x) => x > c - alpha);
        const n2 = w.filter((x) => x <= c - alpha && x > c / 2);
        const n3 = w.filter((x) => x <= c / 2 && x >= alpha);
        const needs = Math.ceil((sum(n3) - (n2.length * c - sum(n2))) / c);
        most = Math.max(most, n1.length + n2.length + Math.max(0, needs));
      }
      expect(byHalves(problem)).toBe(most);
    }
  });

  test('see no further roll in what lengths told to twelve digits are too long by', () => {
    const part = 141.421356237;
    const longer = 858.578643764;
    expect(part + longer).toBeGreaterThan(1000);
    const list: List = {
      pieces: [
        [longer, 2],
        [part, 2],
      ],
      rolls: [[1000, 5]],
      perCut: 0,
      leastUseful: 0,
    };
    const problem = cutting(list);
    expect(problem.whole).toBe(false);
    expect(byMaterial(problem)).toBe(2);
    expect(byHalves(problem)).toBe(2);
    expect(fewestRolls(problem, steps(1e5))).toMatchObject({ best: { cost: 2 }, bound: 2, proven: true });
  });

  test('are never above the fewest', () => {
    for (const { problem, best } of possible) {
      expect(byMaterial(problem)).toBeLessThanOrEqual(best[0]);
      expect(byHalves(problem)).toBeLessThanOrEqual(best[0]);
    }
  });
});

describe('a knapsack', () => {
  test('holds the best of all contents, at every capacity', () => {
    const upTo = dice(3);
    for (let n = 0; n < 150; n++) {
      const kinds = 1 + upTo(4);
      const by = [1, 0.1, Math.SQRT2][upTo(3)] as number;
      const some = (make: () => number): number[] => Array.from({ length: kinds }, make);
      const sizes = some(() => (1 + upTo(12)) * by);
      const values = some(() => upTo(9) - 1 + upTo(2) / 3);
      const copies = some(() => upTo(4));
      const capacity = (5 + upTo(40)) * by;
      const all: [size: number, value: number][] = [[0, 0]];
      for (const [i, size] of sizes.entries())
        for (const [had, worth] of [...all])
          for (let k = 1; k <= (copies[i] as number); k++)
            all.push([had + k * size, worth + k * (values[i] as number)]);
      const budget = steps(1e6);
      const filled = knapsack(sizes, values, copies, capacity, budget);
      for (let part = 0; part <= 20; part++) {
        // Between whole sizes, so that none fits to a hair.
        const most = Math.min(capacity, (Math.floor((part / 20) * (capacity / by)) + 0.5) * by);
        const most20 = part === 20 ? capacity : most;
        const best = Math.max(...all.filter(([size]) => size <= most20 + 1e-9).map(([, value]) => value));
        expect(filled.within(most20 + 1e-9)).toBeCloseTo(best, 9);
        const contents = filled.contents(most20 + 1e-9);
        expect(sum(contents.map((k, i) => k * (sizes[i] as number)))).toBeLessThanOrEqual(most20 + 1e-8);
        expect(sum(contents.map((k, i) => k * (values[i] as number)))).toBeCloseTo(best, 9);
        for (const [i, k] of contents.entries()) {
          expect(k).toBeLessThanOrEqual(copies[i] as number);
          if ((values[i] as number) <= 0) expect(k).toBe(0);
        }
      }
    }
  });

  test('takes more steps where there is more to try', () => {
    const cost = (kinds: number, copies: number, capacity: number): number => {
      const budget = steps(1e6);
      const sizes = Array.from({ length: kinds }, (_, i) => 7 + i);
      knapsack(
        sizes,
        sizes,
        sizes.map(() => copies),
        capacity,
        budget,
      );
      return 1e6 - budget.left;
    };
    expect(cost(1, 1, 5)).toBeGreaterThan(0);
    expect(cost(9, 1, 5)).toBeGreaterThan(cost(1, 1, 5));
    expect(cost(3, 1, 100)).toBeGreaterThan(cost(3, 1, 5));
    expect(cost(3, 3, 100)).toBeGreaterThan(cost(3, 1, 100));
    // What is worth nothing, is not there or does not fit costs no more than to look at it.
    const useless = [
      [3, 0, 9],
      [3, 1, 0],
      [3, -1, 1],
      [30, 1, 9],
    ].map(([size, value, copies]) => {
      const budget = steps(1e6);
      knapsack(
        [size, size] as number[],
        [value, value] as number[],
        [copies, copies] as number[],
        20,
        budget,
      );
      return 1e6 - budget.left;
    });
    expect(new Set(useless).size).toBe(1);
    // What no longer fits is not tried again and again.
    expect(cost(3, 5000, 100)).toBe(cost(3, 50, 100));
    expect(cost(3, 50, 1000)).toBeGreaterThan(cost(3, 50, 100));
  });
});

describe('the simplex method', () => {
  /** Solves small equations by elimination; nothing where they are not independent. */
  function solved(columns: readonly (readonly number[])[], right: readonly number[]): number[] | undefined {
    const m = right.length;
    const a = right.map((b, i) => [...columns.map((column) => column[i] as number), b]);
    for (let k = 0; k < m; k++) {
      const pivot = a
        .slice(k)
        .reduce(
          (best, row, r) => (Math.abs(row[k] as number) > Math.abs(a[best]?.[k] ?? 0) ? k + r : best),
          k,
        );
      [a[k], a[pivot]] = [a[pivot] as number[], a[k] as number[]];
      const by = a[k]?.[k] as number;
      if (Math.abs(by) < 1e-9) return undefined;
      for (const [r, row] of a.entries()) {
        if (r === k) continue;
        const times = (row[k] as number) / by;
        for (let c = k; c <= m; c++) row[c] = (row[c] as number) - times * (a[k]?.[c] as number);
      }
    }
    return a.map((row, k) => (row[m] as number) / (row[k] as number));
  }
  function* subsets<T>(of: readonly T[], many: number): Generator<readonly T[]> {
    if (many === 0) yield [];
    else
      for (let i = 0; i <= of.length - many; i++)
        for (const rest of subsets(of.slice(i + 1), many - 1)) yield [of[i] as T, ...rest];
  }

  test('finds the best of all bases, with its dual values', () => {
    const upTo = dice(11);
    for (let n = 0; n < 200; n++) {
      const m = 1 + upTo(3);
      const right = Array.from({ length: m }, () => 1 + upTo(9));
      const rows = right.map((b) => ({ right: b, standIn: 5 + upTo(9) }));
      const dense = Array.from({ length: 5 }, () => ({
        cost: 1 + upTo(9),
        values: right.map(() => (upTo(4) === 0 ? upTo(3) - 2 : upTo(4))),
      }));
      const columns: Entries[] = dense.map(({ cost, values }) => {
        const kept = [...values.keys()].filter((i) => values[i] !== 0);
        return { cost, rows: kept, values: kept.map((i) => values[i] as number) };
      });
      const all = [
        ...dense,
        ...rows.map(({ standIn }, r) => ({ cost: standIn, values: right.map((_, i) => (i === r ? 1 : 0)) })),
      ];
      let best = Number.POSITIVE_INFINITY;
      for (const basis of subsets(all, m)) {
        const x = solved(
          basis.map(({ values }) => values),
          right,
        );
        if (x?.every((amount) => amount > -1e-9))
          best = Math.min(best, sum(x.map((amount, k) => amount * (basis[k]?.cost as number))));
      }

      const program = new Simplex(rows);
      for (const [k, column] of columns.entries()) {
        const { cost, values } = dense[k] as (typeof dense)[number];
        expect(program.gain(column)).toBeCloseTo(
          sum(values.map((v, i) => v * (rows[i]?.standIn as number))) - cost,
          9,
        );
      }
      for (let turn = 0; turn < 50; turn++) {
        const [next] = columns.toSorted((a, b) => program.gain(b) - program.gain(a));
        if (!next || program.gain(next) <= 1e-9) break;
        expect(program.enter(next)).toBe(true);
        expect(Math.abs(program.gain(next))).toBeLessThan(1e-9);
      }
      for (const column of columns) expect(program.gain(column)).toBeLessThan(1e-8);
      for (const [i, { standIn }] of rows.entries())
        expect(program.duals[i] as number).toBeLessThanOrEqual(standIn + 1e-9);
      expect(sum(right.map((b, i) => b * (program.duals[i] as number)))).toBeCloseTo(best, 6);
      const solution = program.solution();
      for (const [, x] of solution) expect(x).toBeGreaterThan(1e-6);
      const reached = right.map((_, i) =>
        sum(solution.map(([column, x]) => x * (dense[columns.indexOf(column)]?.values[i] as number))),
      );
      for (const [i, b] of right.entries()) expect(reached[i] as number).toBeLessThanOrEqual(b + 1e-4);
      const paid = sum(solution.map(([{ cost }, x]) => x * cost));
      const lacking = sum(rows.map(({ right: b, standIn }, i) => standIn * (b - (reached[i] as number))));
      expect(paid + lacking).toBeCloseTo(best, 4);
    }
  });

  test('says where nothing limits a column', () => {
    const program = new Simplex([
      { right: 1, standIn: 1 },
      { right: 2, standIn: 1 },
    ]);
    const before = [...program.duals];
    expect(program.enter({ cost: -9, rows: [0, 1], values: [-1, 0] })).toBe(false);
    expect([...program.duals]).toEqual(before);
    expect(program.solution()).toEqual([]);
  });

  test('comes to an end where Beale’s example turns in circles', () => {
    const program = new Simplex([
      { right: 0, standIn: 0 },
      { right: 0, standIn: 0 },
      { right: 1, standIn: 0 },
    ]);
    const columns: Entries[] = [
      { cost: -0.75, rows: [0, 1], values: [0.25, 0.5] },
      { cost: 20, rows: [0, 1], values: [-8, -12] },
      { cost: -0.5, rows: [0, 1, 2], values: [-1, -0.5, 1] },
      { cost: 6, rows: [0, 1], values: [9, 3] },
    ];
    let turns = 0;
    for (; turns < 100; turns++) {
      const [next] = columns.toSorted((a, b) => program.gain(b) - program.gain(a));
      if (!next || program.gain(next) <= 1e-9) break;
      program.enter(next);
    }
    expect(turns).toBeLessThan(100);
    expect(program.duals[2]).toBeCloseTo(-1.25, 9);
  });
});

describe('a quick packing', () => {
  test('puts the longest piece first, each where it fits best', () => {
    for (const { list, problem } of tried) {
      const next = list.rolls.flatMap(([length, n]) => Array<number>(Math.min(n, 40)).fill(length));
      const open: { length: number; room: number; cut: number[] }[] = [];
      let isDone = true;
      for (const [i, [length, n]] of list.pieces.entries())
        for (let k = 0; k < n && isDone; k++) {
          let into = open
            .filter(({ room }) => room >= length + list.perCut)
            .toSorted((a, b) => a.room - b.room)[0];
          if (!into) {
            const roll = next.shift();
            if (roll === undefined || roll < length) {
              isDone = false;
              continue;
            }
            into = { length: roll, room: roll + list.perCut, cut: list.pieces.map(() => 0) };
            open.push(into);
          }
          into.room -= length + list.perCut;
          into.cut[i] = (into.cut[i] as number) + 1;
        }
      const plan = bestFit(problem, problem.demand);
      if (!plan) {
        expect(isDone).toBe(false);
        continue;
      }
      expect(isDone).toBe(true);
      expect(wrongs(list, problem, plan)).toEqual([]);
      const told = open.map(({ length, cut }) => `${length}: ${cut}`).sort();
      const found = plan.flatMap(({ roll, cut, times }) =>
        Array<string>(times).fill(`${list.rolls[roll]?.[0]}: ${cut}`),
      );
      expect(found.sort()).toEqual(told);
    }
  });

  test('takes of two rolls with as much room the one that was opened first', () => {
    const list = {
      pieces: [700, 500, 300].map((x) => [x, 1] as const),
      rolls: [
        [1000, 1],
        [800, 1],
      ],
      perCut: 0,
      leastUseful: 0,
    } as List;
    const problem = cutting(list);
    expect(bestFit(problem, problem.demand)).toMatchObject([
      { roll: 0, cut: [1, 0, 1] },
      { roll: 1, cut: [0, 1, 0] },
    ]);
  });

  test('knows a piece as long as its roll', () => {
    const problem = cutting({ pieces: [[800, 2]], rolls: [[800, 2]], perCut: 4, leastUseful: 0 });
    const plan = [{ roll: 0, cut: [1], times: 2 }];
    expect(bestFit(problem, problem.demand)).toMatchObject(plan);
    expect(fillRolls(problem, steps(1e6))).toMatchObject(plan);
    const longer = cutting({ pieces: [[804, 2]], rolls: [[800, 2]], perCut: 4, leastUseful: 0 });
    expect(bestFit(longer, longer.demand)).toBeUndefined();
    expect(fillRolls(longer, steps(1e6))).toBeUndefined();
  });

  test('fills roll after roll as well as it can with the longest piece in it', () => {
    let filled = 0;
    for (const { list, problem } of tried) {
      const plan = fillRolls(problem, steps(1e6));
      const [longest] = problem.pieces;
      if (!plan) continue;
      filled += 1;
      expect(wrongs(list, problem, plan)).toEqual([]);
      const first = plan[0] as Column;
      const lengthOf = (cut: readonly number[]): number =>
        sum(cut.map((n, i) => n * ((problem.pieces[i] as number) + problem.perCut)));
      const best = Math.max(
        ...patternsOf(list)
          .filter(({ roll, cut }) => roll === 0 && (cut[0] as number) > 0)
          .map(({ cut }) => lengthOf(cut)),
      );
      expect(first.roll).toBe(0);
      expect(first.cut[0] as number).toBeGreaterThan(0);
      expect(lengthOf(first.cut)).toBe(best);
      expect(longest).toBe(problem.pieces[0]);
      // What is left is filled in the same way.
      const rest = fillRolls(
        {
          ...problem,
          demand: problem.demand.map((n, i) => n - (first.cut[i] as number)),
          stock: problem.stock.map((n, t) => (t === 0 ? n - 1 : n)),
        },
        steps(1e6),
      );
      expect(rest && gathered([{ ...first, times: 1 }, ...rest])).toEqual(plan);
    }
    expect(filled).toBeGreaterThan(60);
    expect(
      fillRolls(cutting({ pieces: [[300, 3]], rolls: [[500, 2]], perCut: 0, leastUseful: 0 }), steps(1e6)),
    ).toBeUndefined();
    expect(
      fillRolls(cutting({ pieces: [[600, 1]], rolls: [[500, 2]], perCut: 0, leastUseful: 0 }), steps(1e6)),
    ).toBeUndefined();
    // The longest piece has no room left, where a shorter one had.
    expect(
      fillRolls(
        cutting({
          pieces: [[700, 2]],
          rolls: [
            [800, 1],
            [600, 5],
          ],
          perCut: 0,
          leastUseful: 0,
        }),
        steps(1e6),
      ),
    ).toBeUndefined();
  });
});

/** The pieces and rolls of a list, so many rolls to use, so much to lose. */
const stateOf = ({ demand, stock }: Problem, rolls?: number, lost?: number): State => ({
  demand,
  stock,
  ...(rolls === undefined ? {} : { rolls }),
  ...(lost === undefined ? {} : { lost }),
});

/** What HiGHS finds, once for all runs. */
const known = new Map<string, number>();
const optimumOf = (text: string): number => {
  if (!known.has(text)) known.set(text, least(highs, text) as number);
  return known.get(text) as number;
};

describe('a linear program over patterns', () => {
  type Made = {
    readonly roll: number;
    readonly cut: readonly number[];
    readonly times: number;
    readonly lost: number;
  };
  const programs = possible.slice(0, 30).map(({ list, patterns, best: [rolls, lost] }) => {
    const timesMost = Math.min(rolls, Math.max(...list.pieces.map(([, n]) => n)));
    // A program may open a roll and cut nothing from it.
    const uncut = list.rolls.map((_, roll) => {
      const cut = list.pieces.map(() => 0);
      return { roll, cut, lost: lostOnList(list, roll, cut) as number };
    });
    const made = (most: number): Made[] =>
      [...patterns, ...uncut].flatMap((pattern) =>
        Array.from({ length: most }, (_, k) => ({ ...pattern, times: k + 1 })).filter(
          ({ roll, cut, times }) =>
            times <= (list.rolls[roll]?.[1] as number) &&
            cut.every((n, i) => n * times <= (list.pieces[i]?.[1] as number)),
        ),
      );
    const limits = (columns: readonly Made[], sign: string): string[] => [
      ...list.pieces.map(
        ([, n], i) =>
          `${terms(columns.map(({ cut, times }, p) => [times * (cut[i] as number), `x${p}`]))} ${sign} ${n}`,
      ),
      ...list.rolls.map(
        ([, n], t) =>
          `${terms(columns.map(({ roll, times }, p) => [roll === t ? times : 0, `x${p}`]))} <= ${n}`,
      ),
    ];
    const [once, often] = [made(1), made(timesMost)];
    const cost = (columns: readonly Made[], of: (column: Made) => number) =>
      terms(columns.map((column, p) => [of(column), `x${p}`]));
    const all = (columns: readonly Made[]) => `${cost(columns, ({ times }) => times)} = ${rolls}`;
    const lostIn = (columns: readonly Made[]) => cost(columns, ({ times, lost }) => times * lost);
    const texts: Record<Aim, string> = {
      rolls: model(
        cost(once, () => 1),
        limits(once, '>='),
        [],
      ),
      lost: model(lostIn(once), [...limits(once, '='), all(once)], []),
      patterns: model(
        cost(often, () => 1),
        [...limits(often, '='), all(often), `${lostIn(often)} <= ${lost + 1e-6}`],
        [],
      ),
    };
    return { list, rolls, lost, columns: { rolls: once, lost: once, patterns: often }, texts };
  });
  const aims: Aim[] = ['rolls', 'lost', 'patterns'];
  const relaxed = (
    problem: Problem,
    aim: Aim,
    rolls: number,
    lost: number,
    limit = Number.POSITIVE_INFINITY,
  ) => {
    const budget = steps(50_000);
    const relaxation = new Relaxation(problem, aim, budget);
    const state = stateOf(
      problem,
      aim === 'rolls' ? undefined : rolls,
      aim === 'patterns' ? lost / problem.unit : undefined,
    );
    return { relaxation, budget, state, found: relaxation.relax(state, limit) };
  };

  test.each(aims)('HiGHS: the same bound on %s', (aim) => {
    let above = 0;
    for (const { list, rolls, lost, texts } of programs) {
      const problem = cutting(list);
      const unit = aim === 'lost' ? problem.unit : 1;
      const { relaxation, found } = relaxed(problem, aim, rolls, lost);
      const optimum = optimumOf(texts[aim]) / unit;
      expect(found.bound).toBeLessThanOrEqual(optimum + 1e-5);
      expect(found.base).toBeLessThanOrEqual(found.bound + 1e-9);
      expect(relaxation.up(found.bound)).toBe(relaxation.up(optimum));
      if (optimum > 0) above += 1;
    }
    expect(above).toBeGreaterThan(10);
  });

  test.each(aims)('no pattern costs less than the dual values of %s say, nor does a plan', (aim) => {
    for (const { list, rolls, lost, columns } of programs) {
      const problem = cutting(list);
      const { relaxation, found } = relaxed(problem, aim, rolls, lost);
      const { worth } = found;
      const priced = columns[aim].map((column) =>
        relaxation.priced({ ...column, lost: column.lost / problem.unit }),
      );
      for (const [n, column] of priced.entries()) {
        const { roll, cut, times } = columns[aim][n] as Made;
        const excess = found.excess(column);
        expect(excess).toBeGreaterThan(-1e-6);
        // What its pieces bring, by what is lost beside them, and its roll.
        const over = (of: readonly number[]): number => sum(cut.map((k, i) => k * (of[i] as number)));
        const rollLength = problem.rolls[roll] as number;
        const used = over(problem.pieces) + sum(cut) * problem.perCut;
        const toEnd = over(worth.scrapped) - worth.lost * rollLength;
        const toUse = used <= rollLength - problem.useful ? over(worth.spared) : Number.NEGATIVE_INFINITY;
        const gain = times * (Math.max(toEnd, toUse) + (worth.roll[roll] as number)) - worth.each;
        expect(found.gain - gain).toBeLessThanOrEqual(excess + 1e-6);
      }
      const plan = fewestPatterns(
        problem,
        leastLost(problem, fewestRolls(problem, steps(1e6)).best?.plan as Column[], steps(1e6)).best.plan,
        steps(1e6),
      ).best.plan;
      const asTaken =
        aim === 'patterns'
          ? plan
          : plan.flatMap((column) => Array<Column>(column.times).fill({ ...column, times: 1 }));
      const cost = sum(asTaken.map((column) => relaxation.costOf(column)));
      const excess = sum(asTaken.map((column) => found.excess(relaxation.priced(column))));
      expect(found.base + excess).toBeLessThanOrEqual(cost + 1e-5);
    }
  });

  test.each(aims)('its solution of %s gives every piece from the rolls there are', (aim) => {
    let exact = 0;
    for (const { list, rolls, lost } of programs) {
      const problem = cutting(list);
      const { found, relaxation } = relaxed(problem, aim, rolls, lost);
      let isExact = true;
      const over = (of: (column: Column) => number): number =>
        sum(found.solution.map(([column, x]) => x * of(column)));
      for (const [i, n] of problem.demand.entries()) {
        const cut = over((column) => column.times * (column.cut[i] as number));
        if (aim === 'rolls') expect(cut).toBeGreaterThan(n - 1e-4);
        else expect(cut).toBeLessThan(n + 1e-4);
        if (Math.abs(cut - n) > 1e-4) isExact = false;
      }
      for (const [t, n] of problem.stock.entries())
        expect(over((column) => (column.roll === t ? column.times : 0))).toBeLessThan(n + 1e-4);
      if (aim !== 'rolls' && isExact) expect(Math.abs(over(({ times }) => times) - rolls)).toBeLessThan(1e-4);
      if (aim === 'patterns')
        expect(over((column) => column.times * column.lost) * problem.unit).toBeLessThan(lost + 0.1);
      const cost = over((column) => relaxation.costOf(column));
      if (isExact) expect(cost).toBeGreaterThan(found.bound - 1e-3);
      // Where a stand-in is left, it costs the more.
      expect(cost).toBeLessThan(relaxation.up(found.bound) + 1e-3 * (1 + Math.abs(found.bound)));
      if (isExact) exact += 1;
    }
    expect(exact).toBeGreaterThan(20);
  });

  test('ended early, its bound is still none too high, and it takes fewer steps', () => {
    let fewer = 0;
    for (const { list, rolls, lost, texts } of programs)
      for (const aim of aims) {
        const problem = cutting(list);
        const unit = aim === 'lost' ? problem.unit : 1;
        const optimum = optimumOf(texts[aim]) / unit;
        const whole = relaxed(problem, aim, rolls, lost);
        const early = relaxed(problem, aim, rolls, lost, optimum / 3);
        if (optimum > 1e-3) expect(early.found.bound).toBeGreaterThan(optimum / 3 - 1e-6);
        // Up to its limit it holds.
        for (const limit of [optimum, 1.5 * optimum, 1e6])
          expect(relaxed(problem, aim, rolls, lost, limit).found.bound).toBeLessThanOrEqual(optimum + 1e-5);
        expect(early.budget.left).toBeGreaterThanOrEqual(whole.budget.left);
        if (early.budget.left > whole.budget.left) fewer += 1;
        expect(whole.budget.left).toBeLessThan(50_000);
        for (let left = 0; left < 300; left += 11) {
          const relaxation = new Relaxation(problem, aim, steps(left));
          expect(relaxation.relax(whole.state, Number.POSITIVE_INFINITY).bound).toBeLessThanOrEqual(
            optimum + 1e-5,
          );
        }
      }
    expect(fewer).toBeGreaterThan(60);
  });

  test('knows which costs are whole, by how much one is better, and how many rolls are taken as one', () => {
    const [whole, not] = [cutting(possible[0]?.list as List), cutting(uneven[0]?.list as List)];
    const of = (problem: Problem, aim: Aim) => new Relaxation(problem, aim, steps(1e5));
    for (const aim of aims) expect(of(whole, aim)).toMatchObject({ whole: true, least: 1 });
    for (const aim of ['rolls', 'patterns'] as const)
      expect(of(not, aim)).toMatchObject({ whole: true, least: 1 });
    const lost = of(not, 'lost');
    expect(lost.whole).toBe(false);
    expect(lost.up(12.3)).toBe(12.3);
    expect(of(whole, 'lost').up(12.3)).toBe(13);
    expect(of(whole, 'lost').up(12.0000001)).toBe(12);
    // More than what lengths known to twelve digits differ by, and less than anything that is cut.
    const roll = not.rolls[0] as number;
    expect(lost.least).toBeGreaterThan(10 * not.slack);
    expect(lost.least).toBeLessThan(1e-5 * roll);
    const state = { demand: [5, 3], stock: [9], rolls: 4 };
    expect(aims.map((aim) => of(whole, aim).timesMost(state))).toEqual([1, 1, 4]);
    expect(of(whole, 'patterns').timesMost({ ...state, rolls: 7 })).toBe(5);
    expect(of(whole, 'rolls').timesMost({ demand: [5], stock: [9] })).toBe(1);
  });

  test('without rolls is told by a cost above all that it could be, and with few by none but those', () => {
    for (const { list, rolls, lost } of programs)
      for (const aim of aims) {
        const problem = cutting(list);
        const { relaxation } = relaxed(problem, aim, rolls, lost);
        const none = {
          ...stateOf(problem, aim === 'rolls' ? undefined : rolls, aim === 'patterns' ? 1e6 : undefined),
          stock: problem.stock.map(() => 0),
        };
        const { bound } = relaxation.relax(none, Number.POSITIVE_INFINITY);
        expect(bound).toBeGreaterThan(aim === 'lost' ? (problem.rolls[0] as number) : 1);
        expect(bound).toBeLessThan(Number.POSITIVE_INFINITY);
        // Columns kept from the whole that are too much for a part of it are left out.
        const part = { ...none, demand: problem.demand.map(() => 1), stock: problem.stock.map(() => 1) };
        for (const [column] of relaxation.relax(part, Number.POSITIVE_INFINITY).solution) {
          expect(column.times).toBe(1);
          for (const n of column.cut) expect(n).toBeLessThanOrEqual(1);
        }
      }
  });

  test('counts what each column of its basis costs: a look at every row for every row', () => {
    const pieces = Array.from({ length: 30 }, (_, i) => [480 - 7 * i, 3] as const);
    const problem = cutting({ pieces, rolls: [[1000, 99]], perCut: 0, leastUseful: 0 });
    const budget = steps(1e7);
    const relaxation = new Relaxation(problem, 'rolls', budget);
    relaxation.relax(stateOf(problem), 1e6);
    // The second time all columns that are wanted are there.
    const before = budget.left;
    const { solution } = relaxation.relax(stateOf(problem), 1e6);
    expect(solution.length).toBeGreaterThan(20);
    // In steps of eight such looks.
    expect(before - budget.left).toBeGreaterThan((solution.length * 31 ** 2) / 8);
  });

  test('keeps its columns for the next program, and for a part of it', () => {
    let [firsts, seconds] = [0, 0];
    for (const { list, rolls, lost } of programs)
      for (const aim of aims) {
        const problem = cutting(list);
        const { relaxation, budget, state, found } = relaxed(problem, aim, rolls, lost);
        const first = 50_000 - budget.left;
        const again = relaxation.relax(state, Number.POSITIVE_INFINITY);
        expect(relaxation.up(again.bound)).toBe(relaxation.up(found.bound));
        firsts += first;
        seconds += 50_000 - budget.left - first;
        const half = { ...problem, demand: problem.demand.map((n) => Math.ceil(n / 2)) };
        const part = stateOf(half, aim === 'rolls' ? undefined : rolls, aim === 'patterns' ? 1e6 : undefined);
        const fresh = new Relaxation(problem, aim, steps(50_000)).relax(part, Number.POSITIVE_INFINITY);
        const kept = relaxation.relax(part, Number.POSITIVE_INFINITY);
        // Columns of more rolls at once were made for the whole.
        if (aim === 'patterns') expect(kept.bound).toBeLessThanOrEqual(fresh.bound + 1e-5);
        else expect(relaxation.up(kept.bound)).toBe(relaxation.up(fresh.bound));
      }
    expect(seconds).toBeLessThan(firsts);
  });
});

describe('the levels of a plan', () => {
  test('are the best of all plans, one after the other, each proved', () => {
    for (const { list, best } of [...tried, ...close]) {
      const problem = cutting(list);
      const first = fewestRolls(problem, steps(30_000));
      if (!best) {
        expect(first).toEqual({ best: undefined, bound: Number.POSITIVE_INFINITY, proven: true });
        continue;
      }
      const [rolls, lost, patterns] = best;
      expect(first).toMatchObject({ best: { cost: rolls }, bound: rolls, proven: true });
      const plan = first.best?.plan as Column[];
      expect(wrongs(list, problem, plan)).toEqual([]);
      expect(rollsIn(plan)).toBe(rolls);
      const second = leastLost(problem, plan, steps(30_000));
      expect(second.best.cost * problem.unit).toBeCloseTo(lost, 6);
      expect(second.bound).toBe(second.best.cost);
      expect(second.proven).toBe(true);
      expect(wrongs(list, problem, second.best.plan)).toEqual([]);
      expect(lostIn(second.best.plan)).toBe(second.best.cost);
      expect(rollsIn(second.best.plan)).toBe(rolls);
      const third = fewestPatterns(problem, second.best.plan, steps(30_000));
      expect(third).toMatchObject({ best: { cost: patterns }, bound: patterns, proven: true });
      expect(wrongs(list, problem, third.best.plan)).toEqual([]);
      expect(third.best.plan.length).toBe(patterns);
      expect(gathered(third.best.plan).length).toBe(patterns);
      expect(rollsIn(third.best.plan)).toBe(rolls);
      expect(lostIn(third.best.plan)).toBeLessThanOrEqual(second.best.cost + problem.slack);
    }
  });

  test('are the best of all plans too where lengths have no common measure', () => {
    for (const { list, patterns, best } of uneven) {
      const problem = cutting(list);
      expect(problem.whole).toBe(false);
      const first = fewestRolls(problem, steps(100_000));
      expect(first.best?.cost).toBe(best?.[0]);
      expect(first.proven).toBe(true);
      if (!best) continue;
      const second = leastLost(problem, first.best?.plan as Column[], steps(100_000));
      expect(second.best.cost).toBeCloseTo(best[1], 4);
      expect(second.bound).toBeCloseTo(best[1], 4);
      expect(second.proven).toBe(true);
      const third = fewestPatterns(problem, second.best.plan, steps(100_000));
      expect(third).toMatchObject({ best: { cost: best[2] }, bound: best[2], proven: true });
      expect(wrongs(list, problem, third.best.plan)).toEqual([]);
      expect(patterns.length).toBeGreaterThan(0);
    }
  });

  test('claim with few steps no more than is so', () => {
    let open = 0;
    for (const { list, best } of [...possible, ...close])
      for (const left of [0, 20, 100, 300, 1000]) {
        const problem = cutting(list);
        if (!best) continue;
        const [rolls, lost, patterns] = best;
        const first = fewestRolls(problem, steps(left));
        expect(first.bound).toBeLessThanOrEqual(rolls);
        if (first.proven) expect(first.best?.cost).toBe(rolls);
        else open += 1;
        if (!first.best) {
          expect(first.proven).toBe(false);
          continue;
        }
        expect(wrongs(list, problem, first.best.plan)).toEqual([]);
        if (first.best.cost !== rolls) continue;
        const second = leastLost(problem, first.best.plan, steps(left));
        expect(second.bound * problem.unit).toBeLessThanOrEqual(lost + 1e-6);
        expect(second.proven).toBe(second.bound === second.best.cost);
        expect(wrongs(list, problem, second.best.plan)).toEqual([]);
        expect(rollsIn(second.best.plan)).toBe(rolls);
        if (second.proven) expect(second.best.cost * problem.unit).toBeCloseTo(lost, 6);
        else open += 1;
        if (Math.abs(second.best.cost * problem.unit - lost) > 1e-6) continue;
        const third = fewestPatterns(problem, second.best.plan, steps(left));
        expect(third.bound).toBeLessThanOrEqual(patterns);
        expect(third.proven).toBe(third.bound === third.best.cost);
        expect(wrongs(list, problem, third.best.plan)).toEqual([]);
        if (third.proven) expect(third.best.cost).toBe(patterns);
        else open += 1;
      }
    expect(open).toBeGreaterThan(20);
  });

  test('know at once what quick bounds and packings tell', () => {
    let atOnce = 0;
    for (const { list, best } of [...tried, ...close]) {
      const problem = cutting(list);
      const budget = steps(0);
      const first = fewestRolls(problem, budget);
      const bound = Math.max(byMaterial(problem), byHalves(problem));
      expect(first.bound).toBeGreaterThanOrEqual(bound);
      const packed = bestFit(problem, problem.demand);
      if (bound === Number.POSITIVE_INFINITY || (packed && rollsIn(packed) <= bound)) {
        expect(first).toMatchObject({ bound, proven: true });
        expect(budget.left).toBe(0);
        atOnce += 1;
      }
      const packings = [packed, fillRolls(problem, steps(1e6))].filter((x) => !!x);
      if (packings.some((plan) => rollsIn(plan) <= bound)) expect(first.proven).toBe(true);
      if (!best || first.best?.cost !== best[0]) continue;
      // Each piece is freed by a cut, but the last of each roll may end with it.
      const second = leastLost(problem, first.best.plan, steps(0));
      const pieces = sum(list.pieces.map(([, n]) => n));
      expect(second.bound * problem.unit).toBeGreaterThanOrEqual((pieces - best[0]) * list.perCut - 1e-6);
      if (list.leastUseful < 5000) continue;
      // No off-cut is of use: all is lost of the shortest so many rolls that hold the pieces, but the pieces.
      const room = (rolls: readonly number[]): number => sum(rolls) + best[0] * list.perCut;
      const shortest = (from: number, rolls: readonly number[]): number => {
        if (rolls.length === best[0])
          return room(rolls) < sum(list.pieces.map(([length, n]) => n * (length + list.perCut)))
            ? Number.POSITIVE_INFINITY
            : sum(rolls);
        let least = Number.POSITIVE_INFINITY;
        for (const [t, [length, n]] of list.rolls.entries())
          if (t >= from && rolls.filter((x) => x === length).length < n)
            least = Math.min(least, shortest(t, [...rolls, length]));
        return least;
      };
      const wanted = sum(list.pieces.map(([length, n]) => length * n));
      expect(second.bound * problem.unit).toBeGreaterThanOrEqual(shortest(0, []) - wanted - 1e-6);
      if (list.rolls.length > 1) continue;
      // Rolls of one length, and no off-cut of use: all but the pieces is lost, however they are cut.
      const lost = best[0] * (list.rolls[0]?.[0] as number) - wanted;
      expect(second.best.cost * problem.unit).toBeCloseTo(lost, 6);
      expect(second.proven).toBe(true);
    }
    expect(atOnce).toBeGreaterThan(50);
  });

  test('keep a plan that is the best already, and sort its cuts if it is told backwards', () => {
    for (const { list, best } of [...possible, ...close]) {
      if (!best) continue;
      const problem = cutting(list);
      const first = fewestRolls(problem, steps(1e5)).best?.plan as Column[];
      const second = leastLost(problem, first, steps(1e5)).best;
      for (const plan of [second.plan, second.plan.toReversed()]) {
        const again = leastLost(problem, plan, steps(0)).best;
        expect(again.cost).toBe(second.cost);
        expect(wrongs(list, problem, again.plan)).toEqual([]);
      }
      const [there, back] = [first, first.toReversed()].map(
        (plan) => leastLost(problem, plan, steps(0)).best.cost,
      );
      expect(back).toBeLessThanOrEqual((there as number) + 1e-9);
    }
  });

  test('HiGHS: from more choices of rolls than are looked at one by one', () => {
    const lists: List[] = [
      [[310, 9]],
      [
        [310, 7],
        [170, 2],
      ],
    ].map((pieces) => ({
      pieces: pieces as [number, number][],
      rolls: [620, 600, 580, 560, 540, 520, 500].map((length) => [length, 3] as const),
      perCut: 0,
      leastUseful: 200,
    }));
    for (const list of [...lists, ...lists.map((list) => ({ ...list, leastUseful: 5000 }))]) {
      const problem = cutting(list);
      const patterns = patternsOf(list);
      const rolls = Math.round(optimumOf(fewestRollsFor(list, patterns)));
      const first = fewestRolls(problem, steps(1e5));
      expect(first).toMatchObject({ best: { cost: rolls }, proven: true });
      const second = leastLost(problem, first.best?.plan as Column[], steps(1e5));
      expect(second.proven).toBe(true);
      const lost = optimumOf(leastLostFor(list, rolls, patterns));
      expect(second.best.cost * problem.unit).toBeCloseTo(lost, 6);
      const third = fewestPatterns(problem, second.best.plan, steps(1e5));
      expect(third.proven).toBe(true);
      expect(third.best.cost).toBe(Math.round(optimumOf(fewestPatternsFor(list, rolls, lost, patterns))));
      expect(wrongs(list, problem, third.best.plan)).toEqual([]);
    }
  });

  test('start from the best of what is found at once', () => {
    let better = 0;
    for (const { list, best } of [...possible, ...close]) {
      if (!best) continue;
      const problem = cutting(list);
      const packings = [bestFit(problem, problem.demand), fillRolls(problem, steps(1e6))].filter((x) => !!x);
      const first = fewestRolls(problem, steps(0));
      if (packings.length === 0) continue;
      expect(first.best?.cost).toBeLessThanOrEqual(Math.min(...packings.map(rollsIn)));
      // The same cuts on other rolls: the longest first, each on the roll of those left that loses least.
      const plan = first.best?.plan as Column[];
      const lengthOf = (cut: readonly number[]): number =>
        sum(cut.map((n, i) => n * ((list.pieces[i]?.[0] as number) + list.perCut)));
      const cuts = plan
        .flatMap(({ cut, times }) => Array.from({ length: times }, () => cut))
        .sort((a, b) => lengthOf(b) - lengthOf(a));
      const left = list.rolls.map(([, n]) => n);
      let lost = 0;
      for (const cut of cuts) {
        let best = -1;
        const of = (roll: number) => lostOnList(list, roll, cut) ?? Number.POSITIVE_INFINITY;
        for (const roll of left.keys())
          if ((left[roll] as number) > 0 && (best < 0 || of(roll) < of(best))) best = roll;
        left[best] = (left[best] as number) - 1;
        lost += of(best);
      }
      const second = leastLost(problem, plan, steps(0)).best;
      expect(wrongs(list, problem, second.plan)).toEqual([]);
      expect(second.cost * problem.unit).toBeLessThanOrEqual(
        Math.min(lost, lostIn(plan) * problem.unit) + 1e-6,
      );
      if (lost < lostIn(plan) * problem.unit - 1e-6) better += 1;
    }
    expect(better).toBeGreaterThan(5);
  });

  test('in so many patterns there is a plan, and in fewer there is none', () => {
    // Here three batches are alike for a piece or two, and then not.
    const alike: List[] = [
      {
        pieces: [
          [440, 3],
          [420, 3],
          [400, 1],
        ],
        rolls: [[600, 9]],
        perCut: 0,
        leastUseful: 200,
      },
      {
        pieces: [
          [380, 4],
          [180, 3],
        ],
        rolls: [
          [1000, 2],
          [600, 9],
          [400, 2],
        ],
        perCut: 0,
        leastUseful: 80,
      },
    ];
    const more = alike.map((list) => ({ list, best: bestOfAll(list) }));
    for (const { list, best } of [...possible, ...close, ...more]) {
      if (!best) continue;
      const problem = cutting(list);
      const [rolls, lost, patterns] = best;
      const most = lost / problem.unit;
      for (let fewer = 1; fewer < patterns; fewer++)
        expect(inPatterns(problem, rolls, fewer, most, steps(1e6))).toBeUndefined();
      const plan = inPatterns(problem, rolls, patterns, most, steps(1e6)) as Column[];
      expect(wrongs(list, problem, plan)).toEqual([]);
      expect(plan.length).toBe(patterns);
      expect(rollsIn(plan)).toBe(rolls);
      expect(lostIn(plan)).toBeLessThanOrEqual(most + problem.slack + 1e-9);
      expect(inPatterns(problem, rolls - 1, patterns, 1e6, steps(1e6))).toBeUndefined();
      if (lost > 0) expect(inPatterns(problem, rolls, patterns, most - 1e-3, steps(1e6))).toBeUndefined();
      const budget = steps(0);
      expect(inPatterns(problem, rolls, patterns, most, budget)).toBeUndefined();
      expect(budget.left).toBeLessThan(0);
    }
  });
});

/** A relaxation whose solution leads nowhere: the search proper has to find all plans by itself. */
class Silent extends Relaxation {
  override relax(state: State, limit: number) {
    return { ...super.relax(state, limit), solution: [] };
  }
}

describe('plans of so many patterns, by their steps', () => {
  /** Ways to share rolls among batches, each of one length of which there are enough, by trying them all. */
  const waysTo = (rolls: number, batches: number, stock: readonly number[]): number => {
    const found = new Set<string>();
    const share = (left: number, told: readonly string[], there: readonly number[]): void => {
      if (told.length === batches) {
        if (left === 0) found.add([...told].sort().join());
        return;
      }
      for (let times = 1; times <= left; times++)
        for (const [t, n] of there.entries())
          if (n >= times) share(left - times, [...told, `${times}*${t}`], there.with(t, n - times));
    };
    share(rolls, [], stock);
    return found.size;
  };
  const used = (list: List, rolls: number, patterns: number, lost = 1e6): number => {
    const budget = steps(1e6);
    expect(inPatterns(cutting(list), rolls, patterns, lost, budget)).toBeUndefined();
    return 1e6 - budget.left;
  };

  test('every way to share the rolls is looked at once, and left where it is too short for all pieces', () => {
    const list: List = {
      pieces: [
        [500, 40],
        [300, 40],
      ],
      rolls: [
        [1000, 5],
        [900, 4],
      ],
      perCut: 0,
      leastUseful: 0,
    };
    for (const [rolls, patterns] of [
      [6, 3],
      [7, 2],
      [8, 4],
      [9, 3],
      [3, 3],
    ] as const)
      expect(used(list, rolls, patterns)).toBe(waysTo(rolls, patterns, [5, 4]));
  });

  test('what no batch can give is seen at once', () => {
    const one = (pieces: List['pieces'], length = 1000): List => ({
      pieces,
      rolls: [[length, 40]],
      perCut: 0,
      leastUseful: 0,
    });
    // Eight rolls cut alike give a multiple of eight.
    expect(used(one([[100, 9]]), 8, 1)).toBeLessThanOrEqual(3);
    // Two rolls of three pieces each give six in one way only: it is shared out, given by each roll, and found.
    expect(used(one([[300, 6]]), 2, 2, -1)).toBeLessThanOrEqual(4);
  });

  test('rolls that are cut alike are not told apart', () => {
    // Six of each of two lengths from six rolls, and too much lost in every way: all ways are tried, each in 13 steps at most.
    const list: List = {
      pieces: [
        [400, 6],
        [60, 6],
      ],
      rolls: [[1000, 6]],
      perCut: 0,
      leastUseful: 5000,
    };
    const cuts = patternsOf(list).map(({ cut }) => cut);
    const ways = (from: number, rolls: number, a: number, b: number): number => {
      if (rolls === 0) return a === 0 && b === 0 ? 1 : 0;
      let many = 0;
      for (const [k, [x, y]] of [...cuts, [0, 0]].entries())
        if (k >= from && (x as number) <= a && (y as number) <= b)
          many += ways(k, rolls - 1, a - (x as number), b - (y as number));
      return many;
    };
    const lost = 6 * (1000 - 400 - 60);
    expect(used(list, 6, 6, (lost - 1) / cutting(list).unit)).toBeLessThan(13 * ways(0, 6, 6, 6));
  });

  test('are tried for a quarter of the steps at most', () => {
    const list: List = {
      pieces: [
        [300, 6],
        [200, 1],
      ],
      rolls: [
        [550, 9],
        [500, 1],
        [400, 1],
      ],
      perCut: 0,
      leastUseful: 5000,
    };
    const [rolls, lost] = bestOfAll(list) as Costs;
    const problem = cutting(list);
    const plan = leastLost(problem, fewestRolls(problem, steps(1e5)).best?.plan as Column[], steps(1e5)).best
      .plan;
    const budget = steps(25);
    expect(inPatterns(problem, rolls, 1, lost / problem.unit, budget)).toBeUndefined();
    expect(inPatterns(problem, rolls, 2, lost / problem.unit, budget)).toBeUndefined();
    expect(budget.left).toBeLessThan(0);
    expect(fewestPatterns(problem, plan, steps(100)).proven).toBe(false);
  });

  test('ends soon after its steps have run out', () => {
    const pieces = Array.from({ length: 6 }, (_, i) => [150 - 11 * i, 12] as const);
    const problem = cutting({ pieces, rolls: [[1000, 40]], perCut: 0, leastUseful: 0 });
    for (const patterns of [3, 5, 9]) {
      const budget = steps(100);
      expect(inPatterns(problem, 30, patterns, -1, budget)).toBeUndefined();
      expect(budget.left).toBeLessThan(0);
      expect(budget.left).toBeGreaterThan(-10);
    }
  });
});

/** One that is dear but for the first, so that the bounds of the first have to serve all nodes. */
class Dear extends Silent {
  #many = 0;
  override relax(state: State, limit: number) {
    const found = super.relax(state, limit);
    this.#many += 1;
    if (this.#many > 1) this.budget.left -= 100_001;
    return found;
  }
}

describe('a search', () => {
  const kinds = { 'with dives': Relaxation, 'without dives': Silent, 'by the first bounds alone': Dear };
  const none = { best: undefined, bound: Number.POSITIVE_INFINITY, proven: true };

  describe.each(Object.entries(kinds))('%s, knowing nothing', (_, Kind) => {
    const run = (problem: Problem, aim: Aim, state: State, left = Kind === Dear ? 2_000_000 : 400_000) =>
      new Search(new Kind(problem, aim, steps(left)), undefined).run(state, Number.NEGATIVE_INFINITY);

    test('finds the fewest rolls', () => {
      for (const { list, problem, best } of tried.slice(0, 80)) {
        const found = run(problem, 'rolls', stateOf(problem));
        if (!best) {
          expect(found).toEqual(none);
          continue;
        }
        expect(found).toMatchObject({ best: { cost: best[0] }, bound: best[0], proven: true });
        expect(wrongs(list, problem, found.best?.plan as Column[])).toEqual([]);
        expect(rollsIn(found.best?.plan as Column[])).toBe(best[0]);
      }
    });

    test('finds the least lost', () => {
      for (const { list, problem, best } of possible.slice(0, 50)) {
        const [rolls, lost] = best;
        const found = run(problem, 'lost', stateOf(problem, rolls));
        expect(found.proven).toBe(true);
        expect((found.best?.cost as number) * problem.unit).toBeCloseTo(lost, 6);
        expect(found.bound).toBe(found.best?.cost);
        expect(wrongs(list, problem, found.best?.plan as Column[])).toEqual([]);
        expect(rollsIn(found.best?.plan as Column[])).toBe(rolls);
      }
    });

    test('finds the fewest patterns', () => {
      for (const { list, problem, best } of possible.slice(0, 50)) {
        const [rolls, lost, patterns] = best;
        const found = run(problem, 'patterns', stateOf(problem, rolls, lost / problem.unit));
        expect(found).toMatchObject({ best: { cost: patterns }, bound: patterns, proven: true });
        expect(wrongs(list, problem, found.best?.plan as Column[])).toEqual([]);
        expect(found.best?.plan.length).toBe(patterns);
      }
    });

    test('finds the fewest patterns where lengths have no common measure', () => {
      for (const { list, best } of uneven.slice(0, 25)) {
        if (!best) continue;
        const problem = cutting(list);
        const [rolls, lost, patterns] = best;
        const found = run(problem, 'patterns', stateOf(problem, rolls, lost));
        expect(found).toMatchObject({ best: { cost: patterns }, bound: patterns, proven: true });
        expect(wrongs(list, problem, found.best?.plan as Column[])).toEqual([]);
      }
    });

    test('finds nothing with a roll fewer, or less lost', () => {
      let proved = 0;
      for (const { problem, best } of possible.slice(0, 50)) {
        const [rolls, lost] = best;
        const tries = [run(problem, 'lost', stateOf(problem, rolls - 1), 20_000)];
        if (lost > 0)
          tries.push(run(problem, 'patterns', stateOf(problem, rolls, lost / problem.unit - 1), 20_000));
        for (const found of tries) {
          expect(found.best).toBeUndefined();
          if (!found.proven) continue;
          proved += 1;
          expect(found).toEqual(none);
        }
      }
      if (Kind !== Dear) expect(proved).toBeGreaterThan(30);
    });
  });
});

test('a bound is none too high wherever the steps run out', () => {
  const list: List = {
    pieces: [
      [340, 3],
      [260, 4],
      [220, 3],
      [60, 1],
    ],
    rolls: [
      [800, 1],
      [650, 9],
    ],
    perCut: 0,
    leastUseful: 5000,
  };
  const problem = cutting(list);
  const [rolls, lost, patterns] = bestOfAll(list) as Costs;
  const state = stateOf(problem, rolls, lost / problem.unit);
  for (let left = 0; left < 3000; left += 20) {
    const found = new Search(new Relaxation(problem, 'patterns', steps(left)), undefined).run(state, 0);
    expect(found.bound).toBeLessThanOrEqual(patterns);
  }
});

test('a search that its first tries do not end goes on with more steps', () => {
  const list: List = {
    pieces: [
      [460, 4],
      [380, 4],
      [200, 4],
    ],
    rolls: [
      [850, 9],
      [750, 9],
      [450, 1],
    ],
    perCut: 0,
    leastUseful: 0,
  };
  const problem = cutting(list);
  // Five rolls are the fewest, and that four cannot do is ruled out way by way.
  expect(bestOfAll(list)?.[0]).toBe(5);
  const proven = (many: number): boolean =>
    new Search(new Relaxation(problem, 'lost', steps(many)), undefined).run(stateOf(problem, 4), 0).proven;
  expect([proven(200_000), proven(650_000)]).toEqual([false, true]);
});

test('the first bounds rule out the more, the more of a plan is fixed', () => {
  /** What a column costs over its bound is not told, so that nothing adds up. */
  class Flat extends Dear {
    override relax(state: State, limit: number) {
      return { ...super.relax(state, limit), excess: () => 0 };
    }
  }
  // Own bounds use up the first 100 000 steps.
  const open = (Kind: typeof Relaxation): number =>
    possible.filter(({ problem, best }) => {
      const search = new Search(new Kind(problem, 'lost', steps(103_000)), undefined);
      return !search.run(stateOf(problem, best[0]), 0).proven;
    }).length;
  expect(open(Dear)).toBeLessThan(open(Flat));
});

test('a dive finds a plan sooner than the search proper alone', () => {
  // A hard search needs more steps than are given here.
  const open = (Kind: typeof Relaxation, aim: 'rolls' | 'lost'): number =>
    possible.filter(({ problem, best }) => {
      const state = stateOf(problem, aim === 'rolls' ? undefined : best[0]);
      return !new Search(new Kind(problem, aim, steps(1000)), undefined).run(state, 0).proven;
    }).length;
  for (const aim of ['rolls', 'lost'] as const)
    expect(2 * open(Relaxation, aim)).toBeLessThan(open(Silent, aim));
});

/** Every call of a relaxation, what it was asked and what it found. */
interface Call {
  readonly state: State;
  readonly limit: number;
  readonly found: Relaxed;
}
class Watched extends Relaxation {
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
const without = (state: State, { roll, cut, times, lost }: Column): State => ({
  demand: state.demand.map((n, i) => n - times * (cut[i] as number)),
  stock: state.stock.map((n, t) => (t === roll ? n - times : n)),
  ...(state.rolls === undefined ? {} : { rolls: state.rolls - times }),
  ...(state.lost === undefined ? {} : { lost: state.lost - times * lost }),
});
const isCut = ({ demand }: State): boolean => demand.every((n) => n === 0);

describe('a search, followed call by call', () => {
  const states = (of: (typeof possible)[number]): [Aim, State, number][] => {
    const { problem, best } = of;
    const [rolls, lost, patterns] = best;
    return [
      ['rolls', stateOf(problem), rolls],
      ['lost', stateOf(problem, rolls), lost / problem.unit],
      ['patterns', stateOf(problem, rolls, lost / problem.unit), patterns],
    ];
  };

  test('branches over every column with the longest piece left whose excess is allowed, the least excess first', () => {
    const branched = { rolls: 0, lost: 0, patterns: 0 };
    for (const of of possible.slice(0, 60)) {
      const { list, patterns, problem } = of;
      for (const [aim, state, optimum] of states(of)) {
        const relaxation = new Watched(problem, aim, steps(1e5));
        // Nothing to dive to, and every node of the search proper but the first leads nowhere.
        relaxation.told = (found, nth) => ({
          ...found,
          solution: [],
          ...(nth > 1 && { bound: Number.POSITIVE_INFINITY }),
        });
        const most = optimum + relaxation.least;
        const best = { cost: most, plan: [] };
        new Search(relaxation, best).run(state, Number.NEGATIVE_INFINITY);
        const [, root, ...children] = relaxation.calls;
        if (!root) continue;
        expect(root.state).toEqual(state);
        const allowed = most - relaxation.least - root.found.base;
        const longest = state.demand.findIndex((n) => n > 0);
        const isFull = ({ roll, cut }: Column): boolean =>
          !state.demand.some(
            (n, i) =>
              (cut[i] as number) < n &&
              lostOn(problem, roll, cut.with(i, (cut[i] as number) + 1)) !== undefined,
          );
        const expected = patterns
          .filter(({ cut }) => (cut[longest] as number) > 0)
          .flatMap(({ roll, cut }) =>
            Array.from(
              { length: relaxation.timesMost(state) },
              (_, k) => columnOf(problem, roll, cut, k + 1) as Column,
            ),
          )
          .filter(
            ({ roll, cut, times, lost }) =>
              times <= (state.stock[roll] as number) &&
              cut.every((n, i) => n * times <= (state.demand[i] as number)) &&
              times * lost <= (state.lost ?? Number.POSITIVE_INFINITY) + problem.slack,
          )
          .filter((column) => aim !== 'rolls' || isFull(column))
          .map((column) => ({ column, excess: root.found.excess(relaxation.priced(column)) }))
          .filter(({ excess }) => excess <= allowed + 1e-9);
        const told = expected.map(({ column }) => without(state, column)).filter((next) => !isCut(next));
        const order = children.map(({ state }) => state);
        const key = (of: State) => JSON.stringify(of);
        // What is cut by then is not asked about, and ends the search if it is as good.
        const isOver = children.length < told.length && expected.length > told.length;
        if (!isOver) expect(order.map(key).sort()).toEqual(told.map(key).sort());
        const from = order.map((next) =>
          expected.find(({ column }) => key(without(state, column)) === key(next)),
        );
        for (const [n, found] of from.entries()) {
          expect(found).toBeDefined();
          expect(children[n]?.limit).toBeCloseTo(
            most - relaxation.costOf((found as (typeof expected)[number]).column) - relaxation.least,
            6,
          );
          const before = from[n - 1];
          if (!before || !found) continue;
          expect(before.excess).toBeLessThanOrEqual(found.excess);
          if (before.excess === found.excess)
            expect(before.column.times).toBeGreaterThanOrEqual(found.column.times);
        }
        branched[aim] += children.length;
      }
      expect(list.pieces.length).toBeGreaterThan(0);
    }
    for (const many of Object.values(branched)) expect(many).toBeGreaterThan(50);
  });

  test('looks at no node twice, and leaves what has no room to be better', () => {
    let nodes = 0;
    for (const of of possible.slice(0, 60))
      for (const [aim, state, optimum] of states(of)) {
        const relaxation = new Watched(of.problem, aim, steps(100_000));
        relaxation.told = (found) => ({ ...found, solution: [] });
        const found = new Search(relaxation, undefined).run(state, Number.NEGATIVE_INFINITY);
        expect(found.proven).toBe(true);
        const asked = relaxation.calls.slice(1);
        // The cost of what was cut goes by the rolls taken.
        const keys = asked.map(({ state }) => JSON.stringify([state, aim]));
        if (aim === 'rolls') expect(new Set(keys).size).toBe(keys.length);
        nodes += asked.length;
        for (const { state: at, limit } of asked) {
          const used = sum(state.stock) - sum(at.stock);
          if (aim === 'rolls') expect(limit + used).toBeLessThanOrEqual(sum(state.stock));
          if (aim === 'rolls') expect(limit + used).toBeGreaterThanOrEqual(optimum - 1);
        }
      }
    expect(nodes).toBeGreaterThan(300);
  });

  test('with the best known asks nothing, and keeps the columns of a plan that is not', () => {
    for (const of of possible.slice(0, 40)) {
      const { problem, best } = of;
      const plan = fewestRolls(problem, steps(1e5)).best?.plan as Column[];
      const budget = steps(1e5);
      const relaxation = new Watched(problem, 'rolls', budget);
      const known = { cost: best[0], plan };
      const found = new Search(relaxation, known).run(stateOf(problem), best[0]);
      expect(found).toEqual({ best: known, bound: best[0], proven: true });
      expect([relaxation.calls.length, relaxation.kept.length, budget.left]).toEqual([0, 0, 1e5]);
      new Search(relaxation, known).run(stateOf(problem), 0);
      expect(relaxation.kept.slice(0, plan.length)).toEqual(plan);
    }
  });

  test('dives by what the relaxation has whole, or most of, and off that way once at each of four steps', () => {
    let dives = 0;
    let offs = 0;
    for (const of of possible)
      for (const [aim, from] of states(of)) {
        const { problem } = of;
        const relaxation = new Watched(problem, aim, steps(1e5));
        const search = new Search(relaxation, undefined);
        search.run(from, Number.NEGATIVE_INFINITY);
        const calls = [...relaxation.calls];
        const root = (calls.shift() as Call).found;
        const goal = relaxation.up(root.bound);
        let best: number | undefined;
        const limitFor = (spent: number): number =>
          (best === undefined
            ? aim === 'rolls'
              ? sum(from.stock)
              : Number.POSITIVE_INFINITY
            : best - relaxation.least) - spent;
        const isOver = () => best !== undefined && best <= goal;
        const dive = (off?: { readonly step: number; readonly nth: number }): void => {
          let [state, relaxed, spent] = [from, root, 0];
          for (let step = 0; ; step++) {
            const isOff = off?.step === step;
            const most = relaxed.solution.toSorted(([a, x], [b, y]) => b.times * y - a.times * x);
            let taken = 0;
            const take = (column: Column | undefined, x: number): void => {
              if (!column) return;
              // As often as it is there in whole, if so much is asked for; or once, without what is not asked for.
              const often = column.times * Math.max(1, Math.floor(x + 1e-5));
              const isAsked = column.cut.every((n, i) => n * often <= (state.demand[i] as number));
              const times = isAsked ? often : column.times;
              const cut = column.cut.map((n, i) =>
                Math.min(n, Math.floor((state.demand[i] as number) / times)),
              );
              const made = columnOf(problem, column.roll, cut, times);
              if (!made || sum(cut) === 0 || (state.stock[column.roll] as number) < times) return;
              state = without(state, made);
              spent += relaxation.costOf(made);
              taken += 1;
            };
            if (isOff) take(most[off.nth - 1]?.[0], 1);
            else
              for (const [column, x] of relaxed.solution)
                if (x > 1 - 1e-5) take(column, aim === 'patterns' ? 1 : x);
            if (taken === 0) take(most[isOff ? off.nth - 1 : 0]?.[0], 1);
            const offer = (cost: number): void => {
              const isWithin = (state.rolls ?? 0) === 0 && (state.lost ?? 0) >= -problem.slack;
              if (isWithin && (best === undefined || cost < best)) best = cost;
            };
            if (isCut(state)) offer(spent);
            if (isCut(state) || taken === 0) return;
            const rest = aim === 'rolls' && bestFit({ ...problem, stock: state.stock }, state.demand);
            if (rest) offer(spent + rollsIn(rest));
            if (isOver()) return;
            const call = calls.shift() as Call;
            expect(call.state).toEqual(state);
            expect(call.limit).toBeCloseTo(limitFor(spent), 9);
            dives += 1;
            if (off) offs += 1;
            relaxed = call.found;
            if (relaxed.bound > call.limit) return;
          }
        };
        dive();
        for (let step = 0; step < 4; step++)
          for (let nth = 1; nth <= 8 && !isOver(); nth++) dive({ step, nth });
        // Then the search proper begins at the beginning, if anything is left to find.
        if (isOver()) expect(calls).toEqual([]);
        else {
          expect(calls[0]?.state).toEqual(from);
          expect(calls[0]?.limit).toBeCloseTo(limitFor(0), 9);
        }
      }
    expect(dives).toBeGreaterThan(100);
    expect(offs).toBeGreaterThan(50);
  });

  test('looks at few of all columns where bounds leave little room', () => {
    const lists = castRoomLists(60, 10).filter(({ pieces }) => pieces.length >= 6);
    const looked = { rolls: 0, patterns: 0 };
    const all = { rolls: 0, patterns: 0 };
    for (const list of lists) {
      const problem = cutting(list);
      const plan = fewestRolls(problem, steps(1e5)).best?.plan;
      if (!plan) continue;
      for (const aim of ['rolls', 'patterns'] as const) {
        const state = aim === 'rolls' ? stateOf(problem) : stateOf(problem, rollsIn(plan), lostIn(plan));
        const budget = steps(1e6);
        const relaxation = new Watched(problem, aim, budget);
        const left: number[] = [];
        relaxation.told = (found, nth) => {
          left.push(budget.left);
          // No node but the first is looked into, and the first in any case.
          return { ...found, solution: [], bound: nth > 1 ? Number.POSITIVE_INFINITY : 0 };
        };
        const { base } = new Relaxation(problem, aim, steps(1e6)).relax(state, Number.POSITIVE_INFINITY);
        // A hundredth of a roll, or of a pattern, to spare.
        const best = { cost: base + relaxation.least + 0.01, plan: [] };
        new Search(relaxation, best).run(state, Number.NEGATIVE_INFINITY);
        if (left.length !== 2) continue;
        looked[aim] += (left[1] as number) - budget.left;
        const timesMost = relaxation.timesMost(state);
        for (let times = 1; times <= timesMost; times++)
          for (const [t, length] of problem.rolls.entries()) {
            if (times > (state.stock[t] as number)) continue;
            const count = (i: number, room: number): void => {
              all[aim] += 1;
              const size = (problem.pieces[i] as number) + problem.perCut;
              if (i === problem.pieces.length) return;
              const most = Math.min(
                Math.floor((state.demand[i] as number) / times),
                Math.floor((room + problem.slack) / size),
              );
              for (let n = most; n >= (i === 0 ? 1 : 0); n--) count(i + 1, room - n * size);
            };
            count(0, length + problem.perCut);
          }
      }
    }
    for (const aim of ['rolls', 'patterns'] as const) {
      expect(all[aim]).toBeGreaterThan(5000);
      expect(looked[aim]).toBeLessThan(all[aim] / { rolls: 50, patterns: 3 }[aim]);
      // No more than it did.
      expect(looked[aim]).toBeLessThanOrEqual({ rolls: 320, patterns: 11_400 }[aim]);
    }
  });

  test('counts for a node the more, the more lengths and rolls there are', () => {
    const used = (lengths: number, rolls: number): number => {
      const pieces = Array.from({ length: lengths }, (_, i) => [290 - 13 * i, 9] as const);
      const stock = Array.from({ length: rolls }, (_, t) => [1999 - t, 9] as const);
      const problem = cutting({ pieces, rolls: stock, perCut: 0, leastUseful: 100 });
      const found = new Relaxation(problem, 'rolls', steps(1e6)).relax(stateOf(problem), 1e6);
      const budget = steps(1e4);
      /** It costs nothing, and rules out every column. */
      class Free extends Relaxation {
        override relax() {
          return { ...found, solution: [], base: 0, bound: 0, gain: 1e6 };
        }
      }
      new Search(new Free(problem, 'rolls', budget), undefined).run(stateOf(problem), 0);
      return 1e4 - budget.left;
    };
    expect(used(2, 1)).toBeGreaterThan(0);
    expect(used(14, 1)).toBeGreaterThan(3 * used(2, 1));
    expect(used(14, 10)).toBeGreaterThan(3 * used(2, 10));
    expect(used(2, 10)).toBeGreaterThan(used(2, 1));
  });

  test('stops where its steps run out, however many columns there are to look at', () => {
    const pieces = Array.from({ length: 14 }, (_, i) => [290 - 13 * i, 9] as const);
    const problem = cutting({ pieces, rolls: [[1999, 99]], perCut: 0, leastUseful: 100 });
    for (const aim of ['rolls', 'lost'] as const)
      for (const left of [3000, 20_000]) {
        const budget = steps(left);
        const relaxation = new Watched(problem, aim, budget);
        // Bounds of no use, so that nothing is ruled out, and that cost nothing.
        relaxation.told = (found) => {
          budget.left = left;
          return { ...found, solution: [], base: 0, bound: 0, gain: -1e6 };
        };
        const found = new Search(relaxation, undefined).run(
          stateOf(problem, aim === 'rolls' ? undefined : 12),
          0,
        );
        expect(found.proven).toBe(false);
        expect(found.bound).toBe(0);
        expect(budget.left).toBeLessThan(0);
        // One more look at each length of a roll, but not at all columns that there are.
        expect(budget.left).toBeGreaterThan(-1000);
      }
  });
});

test('a plan in words is the best of all plans, or says why there is none', () => {
  let ties = 0;
  for (const { list, best } of tried) {
    const plan = planOf(list, 100_000);
    const pieces = sum(list.pieces.map(([length, n]) => length * n));
    const [longestPiece, longestRoll] = [list.pieces[0]?.[0] as number, list.rolls[0]?.[0] as number];
    if (plan.kind === 'cannot') {
      expect(best).toBeUndefined();
      const isTooLong = longestPiece > longestRoll;
      const all = sum(list.pieces.map(([, n]) => n));
      expect(plan.reason).toBe(isTooLong ? 'a piece is longer than a roll' : 'too few rolls');
      expect(plan.wanted).toBeCloseTo(isTooLong ? longestPiece : pieces + all * list.perCut, 6);
      const there = sum(list.rolls.map(([length, n]) => length * Math.min(n, all)));
      expect(plan.available).toBeCloseTo(isTooLong ? longestRoll : there, 6);
      continue;
    }
    const [rolls, lost, patterns] = best as Costs;
    expect(plan.rolls).toEqual({ value: rolls, bound: rolls, proven: true });
    expect(plan.lost.value).toBeCloseTo(lost, 6);
    expect(plan.lost).toMatchObject({ bound: plan.lost.value, proven: true });
    expect(plan.distinct).toEqual({ value: patterns, bound: patterns, proven: true });
    expect(plan.used).toBeCloseTo(pieces, 6);
    expect(plan.patterns.length).toBe(patterns);
    let left = 0;
    for (const [n, pattern] of plan.patterns.entries()) {
      const cut = list.pieces.map(([length]) => pattern.pieces.find((x) => x.length === length)?.pieces ?? 0);
      const used = sum(list.pieces.map(([length], i) => (cut[i] as number) * (length + list.perCut)));
      const rest = pattern.length - used;
      const isOfUse = rest >= list.leastUseful - 1e-9;
      expect(pattern.pieces.map((x) => x.length)).toEqual(
        pattern.pieces.map((x) => x.length).toSorted((a, b) => b - a),
      );
      for (const { length, pieces: n, what } of pattern.pieces) {
        expect(n).toBeGreaterThan(0);
        expect(what).toEqual([`${length} mm`]);
      }
      expect(pattern.offCut).toBeCloseTo(isOfUse ? Math.max(0, rest) : 0, 6);
      expect(pattern.scrap).toBeCloseTo(isOfUse ? 0 : Math.max(0, rest), 6);
      expect(pattern.inCuts).toBeCloseTo(sum(cut) * list.perCut + Math.min(0, rest), 6);
      left += pattern.rolls * pattern.offCut;
      // The longest roll first, then what is cut most often, then what has most of the longest piece.
      const before = plan.patterns[n - 1];
      if (!before) continue;
      const cutOf = ({ pieces }: typeof pattern) =>
        list.pieces.map(([length]) => pieces.find((x) => x.length === length)?.pieces ?? 0);
      const keys = [pattern, before].map((x) => [x.length, x.rolls, ...cutOf(x)]) as [number[], number[]];
      const differs = keys[0].findIndex((x, k) => x !== keys[1][k]);
      expect(keys[1][differs] as number).toBeGreaterThan(keys[0][differs] as number);
      if (differs > 1) ties += 1;
    }
    expect(plan.left).toBeCloseTo(left, 6);
    expect(plan.opened).toBeCloseTo(sum(plan.patterns.map((x) => x.length * x.rolls)), 6);
  }
  expect(ties).toBeGreaterThan(5);
});

test('lines may be told in any order, and lengths more than once', () => {
  const rolls = [
    { length: mm(500), onHand: 4 },
    { length: mm(1000), onHand: 0 },
    { length: mm(800), onHand: 2 },
    { length: mm(500), onHand: 1 },
  ];
  const of = (length: number, what: string, pieces = 1) => ({ what, length: mm(length), pieces });
  const ask = (pieces: ReturnType<typeof of>[], perCut = 0) =>
    cuttingPlan({ pieces, rolls, perCut: mm(perCut), leastUseful: mm(100) }).value;
  const plan = ask([
    of(200, 'strip'),
    of(600, 'slab', 2),
    of(300, 'strut', 2),
    of(200, 'band'),
    of(200, 'strip'),
  ]);
  if (plan.kind !== 'planned') throw new Error(plan.reason);
  // By hand: 600 and 200 fill each roll of 800 mm; 300 and 200 fill one of 500 mm; the last 300 leaves 200 mm.
  expect(plan.patterns.map((p) => [p.length, p.rolls, p.pieces.map((x) => [x.length, x.pieces])])).toEqual([
    [
      800,
      2,
      [
        [600, 1],
        [200, 1],
      ],
    ],
    [
      500,
      1,
      [
        [300, 1],
        [200, 1],
      ],
    ],
    [500, 1, [[300, 1]]],
  ]);
  expect(plan.patterns[0]?.pieces.map(({ what }) => what)).toEqual([['slab'], ['band', 'strip']]);
  expect(plan.left).toBe(200);
  expect(ask([of(900, 'slab'), of(100, 'strip')])).toEqual({
    kind: 'cannot',
    reason: 'a piece is longer than a roll',
    wanted: 900,
    available: 800,
  });
  expect(ask([of(803, 'slab')], 4)).toMatchObject({
    reason: 'a piece is longer than a roll',
    available: 800,
  });
  // No more rolls of a length count than there are pieces: three of the four of 500 mm.
  expect(ask([of(700, 'slab', 3)], 4)).toMatchObject({
    reason: 'too few rolls',
    wanted: 2112,
    available: 3600,
  });
  const bare = cuttingPlan({ pieces: [of(100, 'strip')], rolls: [], perCut: mm(0), leastUseful: mm(0) });
  expect(bare.value).toEqual({ kind: 'cannot', reason: 'too few rolls', wanted: 100, available: 0 });
});

test('a plan of few steps says what it did not prove', () => {
  let open = 0;
  for (const { list, best } of possible) {
    const plan = planOf(list, 1000);
    if (plan.kind !== 'planned') continue;
    const [rolls, lost] = best;
    expect(plan.rolls.bound).toBeLessThanOrEqual(rolls);
    expect(plan.lost.proven).toBe(plan.lost.bound === plan.lost.value);
    if (plan.rolls.value !== rolls) continue;
    expect(plan.lost.bound).toBeLessThanOrEqual(lost + 1e-6);
    expect(plan.lost.value).toBeGreaterThanOrEqual(lost - 1e-6);
    if (!plan.lost.proven) open += 1;
  }
  expect(open).toBeGreaterThan(3);
});

test('what the third search comes upon counts for the second as well', () => {
  const list: List = {
    pieces: [
      [320, 2],
      [280, 4],
      [200, 2],
      [140, 4],
    ],
    rolls: [
      [850, 2],
      [600, 9],
    ],
    perCut: 0,
    leastUseful: 80,
  };
  const problem = cutting(list);
  const first = fewestRolls(problem, steps(1000)).best?.plan as Column[];
  expect(leastLost(problem, first, steps(1000)).proven).toBe(false);
  // Less than nothing cannot be lost.
  expect(planOf(list, 1000)).toMatchObject({ lost: { value: 0, bound: 0, proven: true } });
});

test('more than 2000 pieces are refused, and 2000 are not', () => {
  const ask = (more: number) =>
    cuttingPlan({
      pieces: [
        { what: 'slab', length: mm(1000), pieces: 1000 },
        { what: 'strut', length: mm(500), pieces: 999 },
        { what: 'strip', length: mm(500), pieces: more },
      ],
      rolls: [{ length: mm(1000) }],
      perCut: mm(0),
      leastUseful: mm(0),
      steps: 1000,
    });
  expect(ask(1).value).toMatchObject({ kind: 'planned', rolls: { value: 1500, proven: true } });
  expect(() => ask(2)).toThrow('2001 pieces');
});

describe('no more steps are taken than were', () => {
  // How many lists are left open is no truth about cutting, but what the search costs: it may fall, and rise only for a reason.
  const left = (open: (problem: Problem, best: Costs) => boolean): number =>
    [...possible, ...close].filter(({ list, best }) => best && open(cutting(list), best)).length;
  const levelsLeft = (many: number): number[] => [
    left((problem) => !fewestRolls(problem, steps(many)).proven),
    left((problem) => {
      const { best } = fewestRolls(problem, steps(1e5));
      return !leastLost(problem, best?.plan as Column[], steps(many)).proven;
    }),
    left((problem) => {
      const { best } = fewestRolls(problem, steps(1e5));
      const second = leastLost(problem, best?.plan as Column[], steps(1e5)).best;
      return !fewestPatterns(problem, second.plan, steps(many)).proven;
    }),
  ];
  const searchLeft = (Kind: typeof Relaxation, many: number): number[] =>
    (['rolls', 'lost', 'patterns'] as const).map((aim) =>
      left((problem, [rolls, lost]) => {
        const state = stateOf(
          problem,
          aim === 'rolls' ? undefined : rolls,
          aim === 'patterns' ? lost / problem.unit : undefined,
        );
        return !new Search(new Kind(problem, aim, steps(many)), undefined).run(state, 0).proven;
      }),
    );
  const expectAtMost = (found: readonly number[], most: readonly number[]): void => {
    for (const [n, open] of found.entries()) expect(open).toBeLessThanOrEqual(most[n] as number);
  };

  test.each([
    [50, [22, 44, 53]],
    [150, [18, 41, 28]],
    [400, [2, 26, 6]],
    [1000, [0, 14, 2]],
    [2500, [0, 4, 1]],
  ])('for the levels of a plan, in %s', (many, most) => expectAtMost(levelsLeft(many), most));

  test.each([
    [150, [36, 117, 125]],
    [400, [10, 70, 92]],
    [1000, [1, 8, 23]],
    [2500, [0, 1, 7]],
  ])('for a search with dives, in %s', (many, most) => expectAtMost(searchLeft(Relaxation, many), most));

  test.each([
    [400, [110, 128, 128]],
    [1000, [32, 81, 81]],
    [2500, [3, 15, 21]],
    [6000, [0, 8, 4]],
  ])('for the search proper, in %s', (many, most) => expectAtMost(searchLeft(Silent, many), most));

  test.each([
    [100_300, [104, 135, 131]],
    [101_000, [9, 46, 47]],
    [103_000, [0, 11, 4]],
    [110_000, [0, 5, 2]],
  ])('for the search proper by the first bounds, in %s', (many, most) =>
    expectAtMost(searchLeft(Dear, many), most),
  );

  test('for a linear program', () => {
    const used = { rolls: 0, lost: 0, patterns: 0 };
    for (const { list, best } of [...possible, ...close])
      for (const aim of ['rolls', 'lost', 'patterns'] as const) {
        if (!best) continue;
        const problem = cutting(list);
        const budget = steps(1e6);
        const relaxation = new Relaxation(problem, aim, budget);
        const state = stateOf(
          problem,
          aim === 'rolls' ? undefined : best[0],
          aim === 'patterns' ? best[1] / problem.unit : undefined,
        );
        relaxation.relax(state, Number.POSITIVE_INFINITY);
        relaxation.relax(state, best[aim === 'rolls' ? 0 : 1] / 2);
        used[aim] += 1e6 - budget.left;
      }
    expectAtMost([used.rolls, used.lost, used.patterns], [48_690, 77_200, 110_550]);
  });
});
