import type { AnyFormula, dipWater, Span } from 'swathe';
import { numberOf } from 'swathe/definition';
import { shown } from '../library/show.ts';
import { marksOf } from './axes.ts';
import {
  type Figure,
  figure,
  type In,
  label,
  line,
  type Out,
  type Point,
  rect,
  scale,
  variable,
  wide,
} from './svg.ts';

/** What each source says of the water for one material, and where the water stands. */
export function dipWaterFigure(
  { material, water }: In<typeof dipWater>,
  value: Out<typeof dipWater>,
  formula: AnyFormula,
  nameOf: (source: string | undefined) => string,
): Figure {
  const rows = Object.entries((formula as typeof dipWater).constants ?? {}).filter(([name]) =>
    name.startsWith(material),
  );
  const span: Point = [Math.min(10, water), Math.max(40, water + 4)];
  const x = scale(span, [24, wide - 24]);
  const along = marksOf({ span, unit: 'Cel' });
  const base = 38 + rows.length * 50;
  const bars = rows.map(([, constant], k) => {
    const y = 48 + k * 50;
    const number: number | Span = numberOf(constant);
    const [low, high] = typeof number === 'number' ? [undefined, number] : number;
    const from = x(low ?? span[0]);
    return (
      rect(from, y, x(high) - from, 12, low === undefined ? 'limit' : 'window') +
      line([x(high), y - 4], [x(high), y + 16], 'stop') +
      label(
        24,
        y - 8,
        `${nameOf(constant.source)}: ${low === undefined ? 'at most ' : ''}${constant.printed} °C`,
        'start',
      )
    );
  });
  const parts = [
    ...bars,
    line([x(water), 26], [x(water), base], 'strong'),
    variable(x(water), 16, 'T'),
    line([24, base], [wide - 24, base], 'axis'),
    ...along.marks.map(
      ({ at, says }) =>
        line([x(at), base], [x(at), base + 5], 'axis') +
        label(x(at), base + 22, `${says}\u00a0${along.word}`),
    ),
  ];
  const words = `${rows
    .map(([, c]) => `${nameOf(c.source)}: ${c.says} ${c.printed} °C.`)
    .join(
      ' ',
    )} The water, ${shown(water, 'Cel')}, stands ${value.place}${value.place === 'within' ? '' : ' what is published'}.`;
  return figure(base + 34, `What is published about dip water for ${material}`, words, parts, {
    columns: ['source', 'says', 'printed [Cel]'],
    rows: rows.map(([, { source, says, printed }]) => [nameOf(source), says, printed]),
  });
}
