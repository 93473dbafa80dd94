import { celsius, mm, percent, temperatureHistory } from 'swathe';
import { type CastCase, castColumn, castHistory } from '../../../packages/core/src/setting/cast-model.ts';
import { sampled } from '../../../packages/core/src/setting/trace.ts';
import { digits } from '../library/show.ts';
import { axesOf } from './axes.ts';
import { circle, type Figure, figure, label, type Point } from './svg.ts';

export const given: CastCase = {
  material: 'fast plaster',
  plies: 12,
  dip: celsius(24),
  room: celsius(22),
  humidity: percent(50),
  paddingLayers: 3,
  stockinette: true,
  compression: percent(0),
  body: { kind: 'limb', radius: mm(45) / 1000, blood: 'flows' },
  cover: 'bare',
};
const minutes = Array.from({ length: 60 }, (_, n) => 60 * (n + 1));
export const used = { cells: 16, tolerance: 0.05 };
const finest = { cells: 256, tolerance: 1e-5 };
const grids = [4, 8, 16, 32, 64];
const tolerances = [1, 0.2, 0.05, 0.01, 0.002];

function run(fineness: typeof used) {
  const { interface: under } = castHistory(given, temperatureHistory.numbers, 3600, fineness);
  const { length } = castColumn(given, temperatureHistory.numbers, fineness).grid.capacity;
  const steps = under.time.length - 1;
  return { course: sampled(under, minutes), cells: length, steps, work: length * steps };
}

/** What a course of temperature costs, in cells times steps, and how far it is from a very fine one. Drawn when the site is built. */
export function accuracyFigure(): Figure & { readonly course: readonly number[] } {
  const truth = run(finest);
  const runs = grids.flatMap((cells) =>
    tolerances.map((tolerance) => {
      const { course, ...cost } = run({ cells, tolerance });
      const error = Math.max(...course.map((t, n) => Math.abs(t - (truth.course[n] as number))));
      return { plaster: cells, tolerance, error, course, ...cost };
    }),
  );
  const [work, errors] = [runs.map((r) => r.work), runs.map((r) => r.error)];
  const axes = axesOf(
    {
      span: [Math.min(...work) / 1.3, Math.max(...work) * 2.6],
      symbol: 'cells × steps',
      unit: '1',
      log: true,
    },
    { span: [Math.min(...errors) / 1.6, Math.max(...errors) * 1.4], symbol: 'error', unit: 'K', log: true },
    { base: 300 },
  );
  const { x, y } = axes;
  const of = (plaster: number) => runs.filter((r) => r.plaster === plaster);
  const chosen = runs.find(
    (r) => r.plaster === used.cells && r.tolerance === used.tolerance,
  ) as (typeof runs)[number];
  const parts = [
    ...axes.parts,
    ...grids.flatMap((cells) => {
      const points = of(cells).map((r): Point => [r.work, r.error]);
      return [
        axes.curve(points, cells === used.cells ? 'strong' : 'soft-line'),
        ...points.map(([a, b]) => circle(x(a), y(b), 2.6, 'dot')),
      ];
    }),
    circle(x(chosen.work), y(chosen.error), 7, 'construction'),
  ];
  const names = grids.map((cells) => {
    const { work, error } = of(cells).at(-1) as (typeof runs)[number];
    return label(x(work) + 9, y(error) + 5, `${cells}`, 'start', 'small');
  });
  const told = (error: number): string => `${digits(error, 2)} K`;
  const best = runs.at(-1) as (typeof runs)[number];
  const words =
    `Error of the temperature between plaster and padding against work, each step on either axis the same factor, for ${digits(given.plies)} plies on a limb: a line for ${grids.join(', ')} cells in the plaster, and on each a dot for a tolerance of ${tolerances.join(', ')} K, from left to right. ` +
    `The error is the largest at any whole minute of the hour against ${finest.cells} cells and ${digits(finest.tolerance)} K; the work is the cells of the column times the steps that were accepted. ` +
    `The ring is what the formula uses: ${used.cells} cells and ${used.tolerance} K, ${digits(chosen.cells)} cells in all times ${digits(chosen.steps)} steps, wrong by ${told(chosen.error)}. The finest drawn costs ${digits(best.work / chosen.work, 2)} times as much and is wrong by ${told(best.error)}.`;
  const drawn = figure(
    axes.height,
    'Error of a course of temperature against its cost',
    words,
    [...parts, ...names],
    {
      columns: [
        'cells in the plaster',
        'cells in all',
        'tolerance [K]',
        'steps',
        'cells × steps',
        'error [K]',
      ],
      rows: runs.map((r) => [r.plaster, r.cells, r.tolerance, r.steps, r.work, r.error]),
    },
  );
  return { ...drawn, course: chosen.course };
}
