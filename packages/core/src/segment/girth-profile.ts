import { formula } from '../formula.ts';
import { amount, area, group, length, list, volume } from '../measure.ts';
import { intervals, outOfOrder, slant, stations } from './profile.ts';

/**
 * Length, surface, volume, mean girth and taper of a limb between the first and the last of its measured girths.
 *
 * Between two girths the limb is a frustum of a right circular cone, for which all of this is exact.
 *
 * @throws InputError when fewer than two girths are given, or they are out of order
 * @example
 * girthProfile({
 *   stations: [
 *     { at: cm(0), girth: cm(17) },
 *     { at: cm(20), girth: cm(26) },
 *   ],
 * }).value.volume // 746436.68… mm³, that is 746 mL
 */
export const girthProfile = /* @__PURE__ */ formula({
  id: 'segment.girth-profile',
  revision: 1,
  basis: 'identity',
  inputs: { stations },
  joint: [
    {
      input: 'stations',
      possible: 'each station farther along the limb than the one before',
      breach: (i) => outOfOrder(i.stations),
    },
  ],
  output: group({
    length: length('length along the axis', { symbol: 'L' }),
    slant: length('length along the skin', { symbol: 's' }),
    area: area('surface of the skin', { symbol: 'A' }),
    volume: volume('volume', { symbol: 'V' }),
    meanGirth: length('girth, averaged along the axis', { symbol: '\\bar C' }),
    taper: list(amount('change of girth per length along the axis', { symbol: 'm' }), [1, 199]),
  }),
  sources: ['derivation.frustum'],
  compute: ({ stations }) => {
    const parts = intervals(stations).map(([a, b]) => {
      const h = b.at - a.at;
      const s = slant([a, b]);
      return {
        h,
        s,
        girthByLength: (h * (a.girth + b.girth)) / 2,
        area: (s * (a.girth + b.girth)) / 2,
        volume: (h * (a.girth * a.girth + a.girth * b.girth + b.girth * b.girth)) / (12 * Math.PI),
        taper: (b.girth - a.girth) / h,
      };
    });
    const sum = (of: (part: (typeof parts)[number]) => number): number =>
      parts.reduce((t, p) => t + of(p), 0);
    const length = sum((p) => p.h);
    return {
      length,
      slant: sum((p) => p.s),
      area: sum((p) => p.area),
      volume: sum((p) => p.volume),
      meanGirth: sum((p) => p.girthByLength) / length,
      taper: parts.map((p) => p.taper),
    };
  },
});
