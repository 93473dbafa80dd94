import type { helix } from 'swathe';
import { shown } from '../library/show.ts';
import { type Figure, figure, type In, measure, type Out, path, rect, variable, wide } from './svg.ts';

const turns = 3;

/** The skin of a cylinder rolled out flat, with the turns of a bandage on it. */
export function helixFigure({ girth, width }: In<typeof helix>, value: Out<typeof helix>): Figure {
  const { advance, leadAngle, least, most } = value;
  const lean = Math.cos((leadAngle * Math.PI) / 180);
  const half = width / lean / 2;
  const tall = advance * (turns + 1) + 2 * half;
  const perMm = Math.min((wide - 130) / girth, 330 / tall);
  const left = 62;
  const right = left + girth * perMm;
  const bottom = 24 + tall * perMm;
  const y = (along: number): number => bottom - along * perMm;

  const strips = Array.from({ length: turns }, (_, k) => {
    const start = half + k * advance;
    const end = start + advance;
    const strip = [
      [left, y(start - half)],
      [right, y(end - half)],
      [right, y(end + half)],
      [left, y(start + half)],
    ] as const;
    return path(strip, 'strip', true);
  });
  const start = half + (turns - 1) * advance;
  const [a, b] = [y(start), y(start + advance)];
  const base = bottom + 26;
  const parts = [
    rect(left, 24, right - left, bottom - 24, 'skin'),
    ...strips,
    path(
      [
        [left, a],
        [right, a],
        [right, b],
      ],
      'construction',
      true,
    ),
    variable(left + (right - left) * 0.4, a - (a - b) * 0.4 - 9, 'l'),
    variable(left + (right - left) * 0.72, a - (a - b) * 0.36 + 6, 'α'),
    measure([right + 14, a], [right + 14, b]),
    variable(right + 24, (a + b) / 2 + 5, 'p', 'start'),
    measure([left, base], [right, base]),
    variable((left + right) / 2, base + 20, 'C'),
    measure([left - 14, y(0)], [left - 14, y(2 * half)]),
    variable(left - 22, y(half) - 4, 'w /', 'end'),
    variable(left - 22, y(half) + 15, 'cos α', 'end'),
  ];
  const words =
    `The skin rolled out flat: ${shown(girth, 'mm')} from side to side is once round the limb, upwards is along it. ` +
    `Each turn is a slanting stripe that climbs ${shown(advance, 'mm', 4)} as it goes round once. ` +
    `Where stripes lie over each other the colour is stronger: ` +
    `${least === most ? `${least} layers everywhere once the turns are under way` : `from ${least} to ${most} layers once the turns are under way`}.`;
  return figure(base + 34, 'Turns of a bandage on the skin of a cylinder rolled out flat', words, parts, {
    columns: ['turn', 'round [mm]', 'lower edge along [mm]', 'upper edge along [mm]'],
    rows: Array.from({ length: turns }, (_, k) => k).flatMap((k) =>
      [0, 1].map((end) => [k + 1, end * girth, (k + end) * advance, 2 * half + (k + end) * advance]),
    ),
  });
}
