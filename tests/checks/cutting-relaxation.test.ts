import { describe, expect, test } from 'vitest';
import { fewestPatterns, fewestRolls, leastLost } from '../../packages/core/src/roll/cutting/levels.ts';
import type { Column, Problem } from '../../packages/core/src/roll/cutting/problem.ts';
import { type Aim, Relaxation } from '../../packages/core/src/roll/cutting/relaxation.ts';
import { cutting, optimumOf, possible, stateOf, steps, sum, uneven } from './cutting-lists.ts';
import { type List, lostOn as lostOnList, model, terms } from './cutting-models.ts';

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
