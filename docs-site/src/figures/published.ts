import type { AnyFormula } from 'swathe';
import { checkRow } from '../../../tests/checks/rows.ts';
import { rowsOf } from '../library/checks.ts';
import { digits, told } from '../library/show.ts';
import { shortOf, sourceOf } from '../library/sources.ts';
import { circle, type Figure, figure, label, line, rect, scale, ticks, wide } from './svg.ts';

const [left, right] = [48, wide - 20];

const at = (answer: unknown, pointer: string): number =>
  pointer
    .split('/')
    .slice(1)
    .reduce<unknown>((part, key) => (part as Record<string, unknown>)[key], answer) as number;

/** Every published temperature beside what the model gives for that experiment. Drawn when the site is built, and not again. */
export function publishedFigure(formula: AnyFormula): Figure | undefined {
  if (formula.id !== 'setting.temperature-history') return undefined;
  const rows = rowsOf(formula.id).filter(({ unit, printed }) => unit === 'Cel' && printed !== undefined);
  const scaleRow = scale([28, 54], [left, right]);
  const start = 46;
  const compared = rows.map((row, n) => {
    const y = start + n * 40;
    const [least = '', most = least] = (row.printed as string).split('–');
    const open = Number(most) > 54;
    const computed = at(formula.fromJson(row.given), row.pointer as string);
    const { pass } = checkRow(row, formula);
    const agrees = pass && row.deviates === undefined;
    const off = computed - Number(least);
    const drawn =
      least === most
        ? circle(scaleRow(Number(least)), y, 5, 'window-dot')
        : rect(
            scaleRow(Number(least)),
            y - 5,
            scaleRow(open ? 54 : Number(most)) - scaleRow(Number(least)),
            10,
            'window',
          );
    return {
      svg:
        label(left, y - 10, `${shortOf(sourceOf(row.source as string))}, ${row.id}`, 'start', 'small') +
        line([left, y], [right, y], 'grid') +
        drawn +
        circle(scaleRow(computed), y, 4, 'ring') +
        label(
          right,
          y - 10,
          agrees ? 'agrees' : `${off < 0 ? '−' : '+'}${digits(Math.abs(off), 2)} K`,
          'end',
          'small',
        ),
      words: `${row.id}: printed ${open ? `at least ${least}` : row.printed} °C, computed ${told(computed, 'Cel', 3)}.`,
    };
  });
  const end = start + rows.length * 40;
  const parts = [
    label(left, 16, 'Published (filled) and computed (ring), each as it was done', 'start', 'strong-label'),
    ...compared.map(({ svg }) => svg),
    line([left, end - 20], [right, end - 20], 'axis'),
    ...ticks(30, 54, 5).map((t) => label(scaleRow(t), end - 2, digits(t))),
  ];
  const words = `Published temperatures beside the model’s for the same experiment, in °C. ${compared.map((c) => c.words).join(' ')}`;
  return figure(end + 12, 'Published temperatures beside computed ones', words, parts);
}
