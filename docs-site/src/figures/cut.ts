import type { cutLength } from 'swathe';
import { digits, shown } from '../library/show.ts';
import {
  type Figure,
  figure,
  type In,
  label,
  line,
  measure,
  type Out,
  rect,
  scale,
  variable,
  wide,
} from './svg.ts';

/** The piece to cut, under the path that was measured. */
export function cutFigure(
  { path, times, distal, proximal }: In<typeof cutLength>,
  value: Out<typeof cutLength>,
): Figure {
  const run = path * times;
  const low = Math.min(0, -distal);
  const high = Math.max(run, run + proximal);
  const x = scale([low, high], [24, wide - 24]);
  const end = (
    from: number,
    to: number,
    symbol: string,
    allowance: number,
    anchor: 'start' | 'end',
  ): string => {
    const taken = allowance < 0;
    return (
      rect(Math.min(x(from), x(to)), 66, Math.abs(x(to) - x(from)), 44, taken ? 'left' : 'strip') +
      variable(anchor === 'start' ? x(low) : x(high), 134, symbol, anchor) +
      label(anchor === 'start' ? x(low) + 22 : x(high) - 22, 134, shown(allowance, 'mm'), anchor)
    );
  };
  const parts = [
    measure([x(0), 40], [x(run), 40]),
    variable((x(0) + x(run)) / 2 - 8, 28, times === 1 ? 'p' : 'k p'),
    rect(
      x(Math.max(0, -distal)),
      66,
      x(Math.min(run, run + proximal)) - x(Math.max(0, -distal)),
      44,
      'skin accent-fill',
    ),
    end(0, -distal, 'a_d', distal, 'start'),
    end(run, run + proximal, 'a_p', proximal, 'end'),
    ...[0, run].map((at) => line([x(at), 46], [x(at), 116], 'guide')),
    measure([x(-distal), 158], [x(run + proximal), 158]),
    variable(wide / 2, 180, 'l'),
  ];
  const words = `A path of ${shown(path, 'mm')}${times === 1 ? '' : `, taken ${digits(times)} times`}, with ${shown(distal, 'mm')} added at the distal end and ${shown(proximal, 'mm')} at the proximal end: ${shown(value, 'mm')} to cut. A negative allowance stops short of the end.`;
  return figure(196, 'A piece to cut with its allowances', words, parts, {
    columns: ['place', 'along the piece [mm]'],
    rows: [
      ['distal end as cut', -distal],
      ['distal end of the path', 0],
      ['proximal end of the path', run],
      ['proximal end as cut', run + proximal],
    ],
  });
}
