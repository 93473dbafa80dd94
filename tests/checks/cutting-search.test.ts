import { describe, expect, test } from 'vitest';
import { fewestRolls } from '../../packages/core/src/roll/cutting/levels.ts';
import { bestFit } from '../../packages/core/src/roll/cutting/pack.ts';
import {
  type Column,
  columnOf,
  lostIn,
  lostOn,
  type Problem,
  rollsIn,
} from '../../packages/core/src/roll/cutting/problem.ts';
import { type Aim, Relaxation, type State } from '../../packages/core/src/roll/cutting/relaxation.ts';
import { Search } from '../../packages/core/src/roll/cutting/search.ts';
import {
  type Call,
  cutting,
  Dear,
  isCut,
  possible,
  Silent,
  stateOf,
  steps,
  sum,
  tried,
  uneven,
  Watched,
  without,
  wrongs,
} from './cutting-lists.ts';
import { bestOfAll, type Costs, castRoomLists, type List } from './cutting-models.ts';

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
