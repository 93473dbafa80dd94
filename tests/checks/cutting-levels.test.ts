import { cuttingPlan, mm } from 'swathe';
import { describe, expect, test } from 'vitest';
import { byHalves, byMaterial } from '../../packages/core/src/roll/cutting/bounds.ts';
import { fewestPatterns, fewestRolls, leastLost } from '../../packages/core/src/roll/cutting/levels.ts';
import { bestFit, fillRolls } from '../../packages/core/src/roll/cutting/pack.ts';
import { inPatterns } from '../../packages/core/src/roll/cutting/patterns.ts';
import {
  type Column,
  gathered,
  lostIn,
  type Problem,
  rollsIn,
} from '../../packages/core/src/roll/cutting/problem.ts';
import { Relaxation } from '../../packages/core/src/roll/cutting/relaxation.ts';
import { Search } from '../../packages/core/src/roll/cutting/search.ts';
import {
  close,
  cutting,
  Dear,
  optimumOf,
  possible,
  Silent,
  stateOf,
  steps,
  sum,
  tried,
  uneven,
  wrongs,
} from './cutting-lists.ts';
import {
  bestOfAll,
  type Costs,
  fewestPatterns as fewestPatternsFor,
  fewestRolls as fewestRollsFor,
  type List,
  leastLost as leastLostFor,
  lostOn as lostOnList,
  patternsOf,
  planOf,
} from './cutting-models.ts';

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
