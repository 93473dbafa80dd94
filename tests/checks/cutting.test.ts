import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { csvParse } from 'd3-dsv';
import highsLoader from 'highs';
import { describe, expect, test, vi } from 'vitest';
import { solve } from 'yalps';
import {
  arcFlow,
  castRoomLists,
  fewestPatterns,
  fewestRolls,
  fewestRollsForYalps,
  type List,
  least,
  leastLost,
  lostOn,
  patternsOf,
  planOf,
} from './cutting-models.ts';

// HiGHS takes its time, and the machine may be shared.
vi.setConfig({ testTimeout: 120_000 });

const tables = join(import.meta.dirname, '../../references/tables');
const text = (name: string): string => readFileSync(join(tables, name), 'utf8');
const table = (name: string) => csvParse(text(`${name}.csv`));
const highs = await highsLoader();

/** A count that a solver in floating point found, which is whole but for its last bits. */
function whole(found: number | undefined): number | undefined {
  if (found === undefined) return undefined;
  expect(found).toBeCloseTo(Math.round(found), 6);
  return Math.round(found);
}

type Plan = Extract<ReturnType<typeof planOf>, { kind: 'planned' }>;

/** What is wrong with a plan, reckoned anew from its patterns alone. */
function wrongs(list: List, plan: Plan): string[] {
  const wrong: string[] = [];
  const say = (is: boolean, what: string): void => void (is || wrong.push(what));
  for (const [length, pieces] of list.pieces) {
    const cut = plan.patterns.flatMap((p) =>
      p.pieces.filter((x) => x.length === length).map((x) => x.pieces * p.rolls),
    );
    say(cut.reduce((a, b) => a + b, 0) === pieces, `pieces of ${length}`);
  }
  for (const [length, onHand] of list.rolls) {
    const opened = plan.patterns.filter((p) => p.length === length).reduce((sum, p) => sum + p.rolls, 0);
    say(opened <= onHand, `rolls of ${length}`);
  }
  let lost = 0;
  for (const pattern of plan.patterns) {
    const roll = list.rolls.findIndex(([length]) => length === pattern.length);
    const cut = list.pieces.map(
      ([length]) => pattern.pieces.find((piece) => piece.length === length)?.pieces ?? 0,
    );
    const of = lostOn(list, roll, cut);
    say(of !== undefined, 'does not fit');
    say(Math.abs((of ?? 0) - pattern.inCuts - pattern.scrap) < 1e-6, 'lost on a roll');
    lost += (of ?? 0) * pattern.rolls;
  }
  say(Math.abs(lost - plan.lost.value) < 1e-6, 'lost in all');
  say(plan.patterns.reduce((sum, p) => sum + p.rolls, 0) === plan.rolls.value, 'number of rolls');
  say(plan.patterns.length === plan.distinct.value, 'number of patterns');
  const distinct = new Set(plan.patterns.map((p) => JSON.stringify([p.length, p.pieces])));
  say(distinct.size === plan.patterns.length, 'a pattern stands twice');
  return wrong;
}

const planned = (list: List, steps?: number): Plan => {
  const plan = planOf(list, steps);
  if (plan.kind !== 'planned') throw new Error(plan.reason);
  expect(wrongs(list, plan)).toEqual([]);
  return plan;
};

test.each(['cutting-stock-5600', 'bin-packing-u120', 'bin-packing-n1'])(
  '%s says where it is from, by what right, and is the file that it speaks of',
  (name) => {
    const said = JSON.parse(text(`${name}.json`));
    expect(Object.keys(said)).toEqual(['table', 'source', 'says', 'licence', 'made', 'sha256']);
    expect(said.table).toBe(`${name}.csv`);
    expect(said.sha256).toBe(
      createHash('sha256')
        .update(text(`${name}.csv`))
        .digest('hex'),
    );
  },
);

describe('HiGHS, on every pattern of a list', () => {
  // So that HiGHS, too, proves the fewest patterns within seconds.
  const lists = castRoomLists(120, 4).filter((list) => patternsOf(list).length <= 220);

  test('fewest rolls, least lost, fewest patterns', () => {
    let proved = 0;
    let refused = 0;
    for (const list of lists.slice(0, 50)) {
      const plan = planOf(list);
      const patterns = patternsOf(list);
      const rolls = whole(least(highs, fewestRolls(list, patterns)));
      if (plan.kind === 'cannot') {
        refused += 1;
        expect(rolls).toBeUndefined();
        continue;
      }
      expect(wrongs(list, plan)).toEqual([]);
      expect(plan.rolls).toEqual({ value: rolls, bound: rolls, proven: true });
      const lost = least(highs, leastLost(list, plan.rolls.value, patterns)) as number;
      expect(plan.lost.bound).toBeLessThanOrEqual(lost + 1e-6);
      expect(plan.lost.value).toBeGreaterThanOrEqual(lost - 1e-6);
      if (plan.lost.proven) expect(plan.lost.value).toBeCloseTo(lost, 6);
      const fewest = whole(least(highs, fewestPatterns(list, plan.rolls.value, plan.lost.value, patterns)));
      expect(plan.distinct.bound).toBeLessThanOrEqual(fewest as number);
      if (plan.distinct.proven) expect(plan.distinct.value).toBe(fewest);
      if (plan.lost.proven && plan.distinct.proven) proved += 1;
    }
    expect(lists.length).toBeGreaterThanOrEqual(50);
    expect(refused).toBeGreaterThan(0);
    expect(proved + refused).toBeGreaterThanOrEqual(48);
  });

  test('with few steps it claims no more than is so', () => {
    let unproved = 0;
    for (const list of lists.slice(50, 80)) {
      const plan = planOf(list, 1000);
      if (plan.kind === 'cannot') {
        if (plan.reason === 'too few rolls') expect(least(highs, fewestRolls(list))).toBeUndefined();
        continue;
      }
      expect(wrongs(list, plan)).toEqual([]);
      const rolls = whole(least(highs, fewestRolls(list))) as number;
      expect(plan.rolls.bound).toBeLessThanOrEqual(rolls);
      if (plan.rolls.proven) expect(plan.rolls.value).toBe(rolls);
      const lost = least(highs, leastLost(list, plan.rolls.value)) as number;
      expect(plan.lost.bound).toBeLessThanOrEqual(lost + 1e-6);
      if (plan.lost.proven) expect(plan.lost.value).toBeCloseTo(lost, 6);
      if (![plan.rolls, plan.lost, plan.distinct].every(({ proven }) => proven)) unproved += 1;
    }
    expect(unproved).toBeGreaterThan(0);
  });
});

test('yalps: fewest rolls for lists of few patterns', () => {
  const lists = castRoomLists(60, 3).filter((list) => patternsOf(list).length <= 60);
  expect(lists.length).toBeGreaterThanOrEqual(15);
  for (const list of lists) {
    const patterns = patternsOf(list);
    const { status, result } = solve(fewestRollsForYalps(list, patterns), { timeout: 5000 });
    if (status === 'timedout') continue;
    const plan = planOf(list);
    expect(plan.kind).toBe(status === 'optimal' ? 'planned' : 'cannot');
    if (plan.kind === 'planned') expect(plan.rolls.value).toBe(result);
  }
});

const oneRoll = (pieces: List['pieces'], length: number): List => ({
  pieces,
  rolls: [[length, 2000]],
  perCut: 0,
  leastUseful: 200_000,
});

test('HiGHS: thirteen widths from 5600 mm, 73 rolls, proved', () => {
  const pieces = table('cutting-stock-5600').map(
    (row) => [Number(row['width_mm']), Number(row['pieces'])] as const,
  );
  const list = oneRoll(pieces, 5600);
  const plan = planned(list);
  expect(plan.rolls).toEqual({ value: 73, bound: 73, proven: true });
  expect(plan.lost).toEqual({ value: 1640, bound: 1640, proven: true });
  expect(plan.distinct.value).toBe(10);
  const patterns = patternsOf(list);
  expect(patterns.length).toBe(308);
  expect(whole(least(highs, fewestRolls(list, patterns)))).toBe(73);
});

/** Items of a bin packing problem as lengths: a tenth of a metre is the shortest roll, so each unit is a centimetre. */
const problems = (name: string) =>
  table(name).map((row) => {
    const items = (row['items'] as string).split(' ').map(Number);
    const counts = new Map<number, number>();
    for (const item of items) counts.set(10 * item, (counts.get(10 * item) ?? 0) + 1);
    return {
      instance: row['instance'] as string,
      items,
      capacity: Number(row['capacity']),
      optimum: Number(row['optimum']),
      best: Number(row['best_known'] ?? row['optimum']),
      list: oneRoll([...counts], 10 * Number(row['capacity'])),
    };
  });

test.each([...problems('bin-packing-u120'), ...problems('bin-packing-n1')])(
  '$instance: the optimum, proved',
  ({ list, optimum, best, items, capacity }) => {
    const plan = planned(list, 1_000_000);
    expect(plan.rolls).toEqual({ value: optimum, bound: optimum, proven: true });
    expect(best).toBe(optimum);
    expect(plan.lost).toEqual({
      value: 10 * (optimum * capacity - items.reduce((a, b) => a + b, 0)),
      bound: plan.lost.value,
      proven: true,
    });
  },
);

test.each(problems('bin-packing-u120').slice(0, 3))(
  'HiGHS on arcs: $instance',
  ({ items, capacity, optimum }) => {
    expect(whole(least(highs, arcFlow(items, capacity)))).toBe(optimum);
  },
);
