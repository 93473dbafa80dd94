import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { csvParse } from 'd3-dsv';
import highsLoader from 'highs';
import { expect, test } from 'vitest';
import { greaterEq, lessEq, type Model, solve } from 'yalps';
import { fewestRolls as prove } from '../../packages/core/src/roll/cutting/levels.ts';
import { problemOf } from '../../packages/core/src/roll/cutting/problem.ts';
import {
  arcFlow,
  castRoomLists,
  fewestPatterns,
  fewestRolls,
  type List,
  least,
  leastLost,
  patternsOf,
  planOf,
} from '../checks/cutting-models.ts';

// Both sides solve every instance to proof, one after the other, so that the machine's drift meets both; a peer's model is
// written before its time starts. Peers that take seconds are timed once: `beside` would take them ten times.
const highs = await highsLoader();
const timed = (run: () => unknown, times: number): number => {
  let best = Number.POSITIVE_INFINITY;
  for (let n = 0; n < times; n++) {
    const start = performance.now();
    run();
    best = Math.min(best, performance.now() - start);
  }
  return best;
};
const median = (of: readonly number[]): number => of.toSorted((a, b) => a - b)[of.length >> 1] as number;

interface Pair {
  readonly ours: number;
  readonly peer: number;
}

/** Prints medians, the median of the ratios, and how often ours is ahead. */
function told(what: string, pairs: readonly Pair[]): number {
  const ratio = median(pairs.map(({ ours, peer }) => peer / ours));
  const ahead = pairs.filter(({ ours, peer }) => ours < peer).length;
  const [ours, peer] = [median(pairs.map((p) => p.ours)), median(pairs.map((p) => p.peer))];
  console.log(
    `${what}: ${ours.toPrecision(3)} ms beside ${peer.toPrecision(3)} ms by median; ${ratio.toPrecision(3)} times as long; ahead in ${ahead} of ${pairs.length}`,
  );
  return ratio;
}

const lists = castRoomLists(40, 5)
  .map((list) => ({ list, patterns: patternsOf(list) }))
  .filter(({ patterns }) => patterns.length <= 600);

test('cast-room lists beside HiGHS, which proves the fewest rolls alone', () => {
  const pairs = lists.map(({ list, patterns }) => {
    const model = fewestRolls(list, patterns);
    return { ours: timed(() => planOf(list), 3), peer: timed(() => least(highs, model), 1) };
  });
  expect(told('cuttingPlan, all three levels, beside HiGHS on one', pairs)).toBeGreaterThan(0);
});

test('cast-room lists beside HiGHS, level after level', () => {
  const pairs = lists
    .filter(({ patterns }) => patterns.length <= 220)
    .flatMap(({ list, patterns }) => {
      const plan = planOf(list);
      if (plan.kind === 'cannot' || !plan.lost.proven || !plan.distinct.proven) return [];
      const models = [
        fewestRolls(list, patterns),
        leastLost(list, plan.rolls.value, patterns),
        fewestPatterns(list, plan.rolls.value, plan.lost.value, patterns),
      ];
      const peer = timed(() => models.map((model) => least(highs, model)), 1);
      return [{ ours: timed(() => planOf(list), 3), peer }];
    });
  expect(told('cuttingPlan beside HiGHS, all three levels', pairs)).toBeGreaterThan(0);
});

const yalpsModel = (list: List, patterns: ReturnType<typeof patternsOf>): Model => ({
  direction: 'minimize',
  objective: 'rolls',
  constraints: {
    ...Object.fromEntries(list.pieces.map(([length, n]) => [`piece ${length}`, greaterEq(n)])),
    ...Object.fromEntries(list.rolls.map(([length, onHand]) => [`roll ${length}`, lessEq(onHand)])),
  },
  variables: Object.fromEntries(
    patterns.map(({ roll, cut }, p) => [
      `${p}`,
      {
        rolls: 1,
        [`roll ${list.rolls[roll]?.[0]}`]: 1,
        ...Object.fromEntries(cut.map((n, i) => [`piece ${list.pieces[i]?.[0]}`, n])),
      },
    ]),
  ),
  integers: true,
});

test('cast-room lists beside yalps, which proves the fewest rolls alone', () => {
  let given = 0;
  const pairs = lists
    .filter(({ patterns }) => patterns.length <= 220)
    .flatMap(({ list, patterns }) => {
      const model = yalpsModel(list, patterns);
      let status = '';
      const peer = timed(() => {
        status = solve(model, { timeout: 500 }).status;
      }, 1);
      if (status === 'timedout') given += 1;
      return status === 'timedout' ? [] : [{ ours: timed(() => planOf(list), 3), peer }];
    });
  console.log(`${given} lists that yalps did not prove within half a second are left out`);
  expect(told('cuttingPlan, all three levels, beside yalps on one', pairs)).toBeGreaterThan(0);
});

const table = (name: string) =>
  csvParse(readFileSync(join(import.meta.dirname, '../../references/tables', name), 'utf8'));

test('the first four problems u120 beside HiGHS on arcs: the fewest, proved', () => {
  const pairs = table('bin-packing-u120.csv')
    .slice(0, 4)
    .map((row) => {
      const items = (row['items'] as string).split(' ').map(Number);
      const capacity = Number(row['capacity']);
      const model = arcFlow(items, capacity);
      const ours = timed(() => {
        const problem = problemOf(
          items.map((item) => [item, 1]),
          [[capacity, items.length]],
          0,
          2 * capacity,
        );
        expect(prove(problem, { left: 10_000_000 }).proven).toBe(true);
      }, 3);
      return { ours, peer: timed(() => least(highs, model), 1) };
    });
  expect(told('fewest rolls, u120, beside HiGHS', pairs)).toBeGreaterThan(0);
});

test('thirteen widths from 5600 mm beside HiGHS: the fewest, proved', () => {
  const pieces = table('cutting-stock-5600.csv').map(
    (row) => [Number(row['width_mm']), Number(row['pieces'])] as const,
  );
  const list = { pieces, rolls: [[5600, 219]], perCut: 0, leastUseful: 200_000 } as const;
  const model = fewestRolls(list);
  const ours = timed(() => {
    const problem = problemOf(pieces, list.rolls, list.perCut, list.leastUseful);
    expect(prove(problem, { left: 10_000_000 }).proven).toBe(true);
  }, 3);
  expect(
    told('fewest rolls, 5600 mm, beside HiGHS', [{ ours, peer: timed(() => least(highs, model), 3) }]),
  ).toBeGreaterThan(0);
});
