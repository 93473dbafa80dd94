import { formula } from '../formula.ts';
import { length } from '../measure.ts';
import { cm } from '../quantity.ts';
import { girthBetween, unmeasured } from './frustum.ts';
import { outOfOrder, stations } from './profile.ts';

/**
 * Girth of a limb at any place between two measured girths.
 *
 * Between two girths the limb is taken as straight-sided. Beyond the first and the last nothing is guessed.
 *
 * @throws InputError when the place lies outside the measured girths, or they are out of order
 * @example
 * girthAt({
 *   stations: [
 *     { at: cm(0), girth: cm(17) },
 *     { at: cm(20), girth: cm(26) },
 *   ],
 *   at: cm(8),
 * }).value // 206 mm
 */
export const girthAt = /* @__PURE__ */ formula({
  id: 'segment.girth-at',
  revision: 1,
  basis: 'identity',
  inputs: {
    stations,
    at: length('place along the limb, from the same mark', { symbol: 'x', possible: [cm(-150), cm(150)] }),
  },
  joint: [
    {
      input: 'stations',
      possible: 'each station farther along the limb than the one before',
      breach: (i) => outOfOrder(i.stations),
    },
    {
      input: 'at',
      possible: 'a place between the first and the last girth',
      breach: (i) => unmeasured(i.stations, i.at),
    },
  ],
  output: length('girth there', { symbol: 'C' }),
  sources: ['derivation.frustum'],
  compute: ({ stations, at }) => girthBetween(stations, at),
});
