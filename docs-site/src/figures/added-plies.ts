import { addedPlies, ratio } from 'swathe';
import { digits } from '../library/show.ts';
import { type Figure, figure, type In, label, line, measure, type Out, rect, scale, wide } from './svg.ts';

const plies = (n: number): string => (n === 1 ? '1 ply' : `${digits(n)} plies`);

/** The slab from its side before and after, ply by ply, and beneath what the change is worth against what it weighs. */
export function addedPliesFigure(
  { before, after }: In<typeof addedPlies>,
  value: Out<typeof addedPlies>,
): Figure {
  const tallest = Math.max(before, after);
  const one = Math.min(9, 126 / tallest);
  const bottom = 34 + one * tallest;
  const stack = (left: number, from: number, to: number, of: string): string =>
    Array.from({ length: to - from }, (_, k) => rect(left, bottom - (from + k + 1) * one, 140, one, of)).join(
      '',
    );
  const kept = Math.min(before, after);
  const change = after - before;
  const changed =
    change === 0 ? 'as many' : change > 0 ? `${digits(change)} more` : `${digits(-change)} fewer`;
  const [left, right] = [24, 204];

  const bars = [
    ['mass', value.mass],
    ['strength in bending', value.strength],
    ['stiffness in bending', value.stiffness],
  ] as const;
  const start = bottom + 78;
  const x = scale([0, Math.max(1.15, value.stiffness)], [24, wide - 24]);
  const end = start + bars.length * 42 - 14;
  const drawn = bars.map(([what, times], k) => {
    const y = start + k * 42;
    return (
      label(24, y - 7, what, 'start') +
      label(wide - 24, y - 7, `${digits(times, 4)} times`, 'end') +
      rect(24, y, x(times) - 24, 14, k === 0 ? 'taken' : 'window')
    );
  });
  const parts = [
    stack(left, 0, before, 'layer'),
    stack(right, 0, kept, 'layer'),
    stack(right, kept, after, 'used ply'),
    stack(right, kept, before, 'left'),
    label(left + 70, bottom + 22, `${plies(before)} before`),
    label(right + 70, bottom + 22, `${plies(after)} after`),
    ...(change === 0
      ? []
      : [measure([right + 152, bottom - kept * one], [right + 152, bottom - tallest * one])]),
    label(
      change === 0 ? right + 152 : right + 162,
      bottom - ((kept + tallest) / 2) * one + 5,
      changed,
      'start',
      'small',
    ),
    ...drawn,
    line([x(1), start - 22], [x(1), end], 'limit-line'),
    label(x(1), end + 18, 'as before', x(1) > wide - 60 ? 'end' : x(1) < 60 ? 'start' : '', 'small'),
  ];
  const loose =
    after === 1
      ? ''
      : ` Bonded, the slab of ${plies(after)} is ${digits(value.bond.strength, 4)} times as strong and ${digits(value.bond.stiffness, 4)} times as stiff as the same plies loose.`;
  const words = `The slab from its side: ${plies(before)} before, ${plies(after)} after, ${changed}; plies that are added are filled solid, plies that are taken away are drawn with broken lines. Bonded and flat it has ${digits(value.mass, 4)} times the mass, ${digits(value.strength, 4)} times the strength and ${digits(value.stiffness, 4)} times the stiffness; the broken line across the bars is what it had before.${loose}`;
  const counts = Array.from({ length: tallest + 2 }, (_, k) => k + 1).filter((n) => n >= kept - 2 && n <= 60);
  return figure(end + 30, 'More plies or fewer, and what they are worth', words, parts, {
    columns: ['plies', 'times the mass', 'times the strength', 'times the stiffness'],
    rows: counts.map((n) => {
      const { mass, strength, stiffness } = addedPlies.compute({ before, after: ratio(n) });
      return [n, mass, strength, stiffness];
    }),
  });
}
