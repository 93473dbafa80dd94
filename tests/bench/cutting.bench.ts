import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { csvParse } from 'd3-dsv';
import highsLoader from 'highs';
import { solve } from 'yalps';
import { fewestRolls as prove } from '../../packages/core/src/roll/cutting/levels.ts';
import { problemOf } from '../../packages/core/src/roll/cutting/problem.ts';
import {
  arcFlow,
  castRoomLists,
  fewestPatterns,
  fewestRolls,
  fewestRollsForYalps,
  least,
  leastLost,
  patternsOf,
  planOf,
} from '../checks/cutting-models.ts';
import { ahead, row, timed } from './beside.ts';

// Both sides solve every instance to proof, one after the other, so that the machine's drift meets both; a peer's model is
// written before its time starts. Peers that take seconds are timed once: `beside` would take them several times.
const highs = await highsLoader();

const lists = castRoomLists(40, 5)
  .map((list) => ({ list, patterns: patternsOf(list) }))
  .filter(({ patterns }) => patterns.length <= 600);
const short = lists.filter(({ patterns }) => patterns.length <= 220);
for (const { list } of lists) planOf(list);

const oneLevel = lists.map(({ list, patterns }) => {
  const model = fewestRolls(list, patterns);
  return [timed(() => planOf(list), 3), timed(() => least(highs, model) ?? 'none', 1)] as const;
});

const allLevels = short.flatMap(({ list, patterns }) => {
  const plan = planOf(list);
  if (plan.kind === 'cannot' || !plan.lost.proven || !plan.distinct.proven) return [];
  const models = [
    fewestRolls(list, patterns),
    leastLost(list, plan.rolls.value, patterns),
    fewestPatterns(list, plan.rolls.value, plan.lost.value, patterns),
  ];
  const theirs = timed(() => models.map((model) => least(highs, model)), 1);
  return [[timed(() => planOf(list), 3), theirs] as const];
});

const byYalps = short.flatMap(({ list, patterns }) => {
  const model = fewestRollsForYalps(list, patterns);
  let status = '';
  const theirs = timed(() => {
    status = solve(model, { timeout: 500 }).status;
    return status;
  }, 1);
  return status === 'timedout' ? [] : [[timed(() => planOf(list), 3), theirs] as const];
});

const table = (name: string) =>
  csvParse(readFileSync(join(import.meta.dirname, '../../references/tables', name), 'utf8'));

/** Milliseconds to the fewest rolls, proved. */
const proving = (...given: Parameters<typeof problemOf>): number =>
  timed(() => {
    const found = prove(problemOf(...given), { left: 10_000_000 });
    if (!found.proven) throw new Error('not proved');
    return found;
  }, 3);

const bins = table('bin-packing-u120.csv')
  .slice(0, 4)
  .map((line) => {
    const items = (line['items'] as string).split(' ').map(Number);
    const capacity = Number(line['capacity']);
    const model = arcFlow(items, capacity);
    const ours = proving(
      items.map((item) => [item, 1]),
      [[capacity, items.length]],
      0,
      2 * capacity,
    );
    return [ours, timed(() => least(highs, model), 1)] as const;
  });

const pieces = table('cutting-stock-5600.csv').map(
  (line) => [Number(line['width_mm']), Number(line['pieces'])] as const,
);
const list = { pieces, rolls: [[5600, 219]], perCut: 0, leastUseful: 200_000 } as const;
const widths = fewestRolls(list);
const stock = [
  proving(pieces, list.rolls, list.perCut, list.leastUseful),
  timed(() => least(highs, widths), 3),
] as const;

export const rows = [
  row(
    'cutting plan, all three levels',
    'HiGHS',
    allLevels,
    `level after level; ahead in ${ahead(allLevels)} cast-room lists, each given it once`,
  ),
  row(
    'cutting plan, all three levels',
    'HiGHS on fewest rolls alone',
    oneLevel,
    `ahead in ${ahead(oneLevel)} cast-room lists, each given it once`,
  ),
  row(
    'cutting plan, all three levels',
    'yalps on fewest rolls alone',
    byYalps,
    `ahead in ${ahead(byYalps)} cast-room lists, each given it once; ${short.length - byYalps.length} left out that yalps did not prove in half a second`,
  ),
  row(
    'fewest rolls, problems u120',
    'HiGHS on arcs',
    bins,
    `ahead in ${ahead(bins)}, the first of the set, each given it once`,
  ),
  row('fewest rolls, thirteen widths from 5600 mm', 'HiGHS on patterns', [stock], 'to proof on both sides'),
];
