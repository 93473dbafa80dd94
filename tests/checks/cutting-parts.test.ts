import { describe, expect, test } from 'vitest';
import { byHalves, byMaterial } from '../../packages/core/src/roll/cutting/bounds.ts';
import { knapsack } from '../../packages/core/src/roll/cutting/knapsack.ts';
import { fewestRolls } from '../../packages/core/src/roll/cutting/levels.ts';
import { bestFit, fillRolls } from '../../packages/core/src/roll/cutting/pack.ts';
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
import { type Entries, Simplex } from '../../packages/core/src/roll/cutting/simplex.ts';
import { cutting, possible, steps, sum, tried, wrongs } from './cutting-lists.ts';
import { dice, type List, lostOn as lostOnList, patternsOf } from './cutting-models.ts';

test('of the lists that are tried some have no plan, and most have one', () => {
  expect(possible.length).toBeGreaterThan(70);
  expect(tried.length - possible.length).toBeGreaterThan(10);
});

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
