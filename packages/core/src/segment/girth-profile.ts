import { formula } from '../formula.ts';
import { amount, area, group, length, list, volume } from '../measure.ts';
import { frusta } from './frustum.ts';
import { outOfOrder, stations } from './profile.ts';

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
    const { girthByLength, ...sums } = frusta(stations);
    return { ...sums, meanGirth: girthByLength / sums.length };
  },
});
