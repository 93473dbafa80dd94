import type { castMass } from 'swathe';
import { digits, shown } from '../library/show.ts';
import { type Figure, figure, type In, label, type Out, rect, scale, wide } from './svg.ts';

/** The same fabric off the roll, laid on and dry: what of its mass is fabric, what stays of the water and what leaves. */
export function castMassFigure({ area }: In<typeof castMass>, value: Out<typeof castMass>): Figure {
  const bound = value.dry - value.fabric;
  const leaves = value.wet - value.dry;
  const x = scale([0, Math.max(value.wet, Number.MIN_VALUE)], [0, wide - 48]);
  const kinds = [
    { says: 'dry fabric', mass: value.fabric, of: 'used' },
    { says: 'water that stays', mass: bound, of: 'taken' },
    { says: 'water that dries off', mass: leaves, of: 'left' },
  ];
  const bars = [
    { says: 'off the roll', whole: value.fabric, parts: 1 },
    { says: 'laid on, wet', whole: value.wet, parts: 3 },
    { says: 'dry, some days later', whole: value.dry, parts: 2 },
  ].map(({ says, whole, parts }, n) => {
    const y = 34 + n * 64;
    let at = 24;
    const pieces = kinds.slice(0, parts).map(({ mass, of }) => {
      const piece = rect(at, y, x(mass), 28, of);
      at += x(mass);
      return piece;
    });
    return (
      label(24, y - 9, says, 'start') + label(wide - 24, y - 9, shown(whole, 'g', 4), 'end') + pieces.join('')
    );
  });
  const key = kinds.map(({ says, mass, of }, n) => {
    const y = 232 + n * 24;
    return (
      rect(24, y - 11, 18, 12, of) +
      label(52, y, says, 'start') +
      label(wide - 24, y, shown(mass, 'g', 4), 'end')
    );
  });
  const words = `Bars of mass to one scale, for ${shown(area, 'mm2')} of fabric. Off the roll it is ${shown(value.fabric, 'g', 4)}. Laid on it is ${shown(value.wet, 'g', 4)}: the fabric, ${shown(bound, 'g', 4)} of water that stays for good and ${shown(leaves, 'g', 4)} that dries off. Dry it is ${shown(value.dry, 'g', 4)}${value.wet > 0 ? `, ${digits((100 * value.dry) / value.wet, 3)} % of what it was wet` : ''}.`;
  return figure(294, 'Mass off the roll, wet and dry', words, [...bars, ...key], {
    columns: ['when', 'dry fabric [g]', 'water that stays [g]', 'water that dries off [g]', 'in all [g]'],
    rows: [
      ['off the roll', value.fabric, 0, 0, value.fabric],
      ['laid on', value.fabric, bound, leaves, value.wet],
      ['dry', value.fabric, bound, 0, value.dry],
    ],
  });
}
