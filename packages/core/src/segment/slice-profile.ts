import { formula } from '../formula.ts';
import { area, group, length, list, volume } from '../measure.ts';
import { cm, type Length } from '../quantity.ts';
import { frusta, girthBetween, unmeasured } from './frustum.ts';
import { outOfOrder, type Station, stations } from './profile.ts';

const place = (says: string, symbol: string) => length(says, { symbol, possible: [cm(-150), cm(150)] });

/**
 * The part of a measured limb between two places: its girths, length, skin and volume.
 *
 * Parts that meet add up to the whole.
 *
 * @throws InputError when the part is empty, reaches outside the measured girths, or they are out of order
 * @example
 * sliceProfile({
 *   stations: [
 *     { at: cm(0), girth: cm(17) },
 *     { at: cm(20), girth: cm(26) },
 *   ],
 *   from: cm(0),
 *   to: cm(8),
 * }).value.volume // 225694.44… mm³, that is 226 mL
 */
export const sliceProfile = /* @__PURE__ */ formula({
  id: 'segment.slice-profile',
  revision: 1,
  basis: 'identity',
  inputs: {
    stations,
    from: place('where the part begins, from the same mark', 'x_a'),
    to: place('where it ends', 'x_b'),
  },
  joint: [
    {
      input: 'stations',
      possible: 'each station farther along the limb than the one before',
      breach: (i) => outOfOrder(i.stations),
    },
    {
      input: 'from',
      possible: 'a place between the first and the last girth',
      breach: (i) => unmeasured(i.stations, i.from),
    },
    {
      input: 'to',
      possible: 'a place between the first and the last girth, beyond where the part begins',
      breach: (i) => (i.to > i.from ? unmeasured(i.stations, i.to) : `${i.to} mm, beginning at ${i.from} mm`),
    },
  ],
  output: group({
    stations: list(
      group({
        at: length('distance along the limb, from the same mark'),
        girth: length('girth there'),
      }),
      [2, 200],
    ),
    length: length('length along the axis', { symbol: 'L' }),
    slant: length('length along the skin', { symbol: 's' }),
    area: area('surface of the skin', { symbol: 'A' }),
    volume: volume('volume', { symbol: 'V' }),
  }),
  sources: ['derivation.frustum'],
  compute: ({ stations, from, to }) => {
    const end = (at: Length): Station => ({ at, girth: girthBetween(stations, at) as Length });
    const part = [end(from), ...stations.filter(({ at }) => at > from && at < to), end(to)];
    const { length, slant, area, volume } = frusta(part);
    return { stations: part, length, slant, area, volume };
  },
});
