import { formula } from '../formula.ts';
import { amount, angle, count, group, length } from '../measure.ts';
import { mm, wholeUp } from '../quantity.ts';
import { overlap, width } from './bandage.ts';

const degreesPerRadian = 180 / Math.PI;

const girthOf = (part: string, symbol: string) =>
  length(`girth of the part ${part} the joint`, { symbol, possible: [mm(30), mm(1200)] });

const riseOn = (part: string, symbol: string) =>
  length(`how far from the crossing the bandage lies at the back of the part ${part} the joint`, {
    symbol,
    possible: [mm(0), mm(600)],
  });

/**
 * Length and layers of figures of eight round the two parts that meet at a joint.
 *
 * Each figure is taken as four straight runs on the skin rolled out: from the crossing half round one part to its back, back
 * to the crossing, and the same on the other part. No way that crosses there and passes those backs on the skin is shorter.
 *
 * @throws InputError when a girth, width or count is past what a limb or a bandage can be
 * @example
 * figureOfEight({
 *   above: cm(24), below: cm(25), riseAbove: cm(5), riseBelow: cm(6), width: cm(7.5), overlap: percent(50), figures: 3,
 * }).value.perFigure // 537.30… mm
 */
export const figureOfEight = /* @__PURE__ */ formula({
  id: 'coverage.figure-of-eight',
  revision: 1,
  basis: 'identity',
  inputs: {
    above: girthOf('above', 'C_a'),
    below: girthOf('below', 'C_b'),
    riseAbove: riseOn('above', 'h_a'),
    riseBelow: riseOn('below', 'h_b'),
    width,
    overlap,
    figures: count('figures of eight', { symbol: 'k', possible: [1, 40] }),
  },
  output: group({
    perFigure: length('length of one figure', { symbol: 'l_1' }),
    length: length('length of all figures', { symbol: 'l' }),
    leadAngleAbove: angle('lead angle above the joint, from the circumference', { symbol: '\\alpha_a' }),
    leadAngleBelow: angle('lead angle below the joint, from the circumference', { symbol: '\\alpha_b' }),
    turnAtCrossing: angle('angle by which the bandage is turned in its plane at the crossing', {
      symbol: '\\tau',
    }),
    band: length('breadth of all figures where they lie side by side, square to the edge', { symbol: 'b' }),
    mean: amount('layers on that band, on average', { symbol: '\\bar n' }),
    most: count('most layers on that band', { symbol: 'n_{\\mathrm{max}}' }),
    meanAtCrossing: amount('layers where the runs up and down cross, on average', {
      symbol: '\\bar n_{\\times}',
    }),
    mostAtCrossing: count('most layers where the runs up and down cross', { symbol: 'n_{\\times}' }),
  }),
  sources: ['derivation.figure-of-eight'],
  compute: ({ above, below, riseAbove, riseBelow, width, overlap, figures }) => {
    const loop = (girth: number, rise: number): number => Math.sqrt(girth * girth + 4 * rise * rise);
    const lead = (girth: number, rise: number): number => Math.atan2(2 * rise, girth) * degreesPerRadian;
    const [leadAngleAbove, leadAngleBelow] = [lead(above, riseAbove), lead(below, riseBelow)];
    const perFigure = loop(above, riseAbove) + loop(below, riseBelow);
    const band = width + (figures - 1) * width * (1 - overlap);
    const mean = (figures * width) / band;
    const most = Math.min(figures, wholeUp(1 / (1 - overlap)));
    return {
      perFigure,
      length: figures * perFigure,
      leadAngleAbove,
      leadAngleBelow,
      turnAtCrossing: Math.abs(leadAngleAbove - leadAngleBelow),
      band,
      mean,
      most,
      meanAtCrossing: 2 * mean,
      mostAtCrossing: 2 * most,
    };
  },
});
