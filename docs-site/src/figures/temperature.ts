import type { AnyFormula, temperatureBand, temperatureHistory } from 'swathe';
import { checkRow } from '../../../tests/checks/rows.ts';
import { rowsOf } from '../library/checks.ts';
import { digits, told } from '../library/show.ts';
import { shortOf, sourceOf } from '../library/sources.ts';
import {
  circle,
  type Figure,
  figure,
  label,
  line,
  type Out,
  type Point,
  path,
  rect,
  scale,
  ticks,
  variable,
  wide,
} from './svg.ts';

const [left, right, top, base] = [48, wide - 20, 30, 230];
const levels = [44, 49] as const;

/** Axes of minutes and degrees, with the two levels that cautions use. */
function frame(lowest: number, highest: number) {
  const x = scale([0, 60], [left, right]);
  const y = scale([lowest, highest], [base, top]);
  const parts = [
    ...ticks(lowest, highest, 6).map(
      (t) => line([left, y(t)], [right, y(t)], 'grid') + label(left - 8, y(t) + 5, digits(t), 'end'),
    ),
    ...levels
      .filter((t) => t < highest)
      .map(
        (t) =>
          line([left, y(t)], [right, y(t)], 'limit-line') + label(right, y(t) - 6, `${t} °C`, 'end', 'small'),
      ),
    line([left, base], [right, base], 'axis'),
    ...ticks(0, 60, 6).map(
      (t) => line([x(t), base], [x(t), base + 5], 'axis') + label(x(t), base + 22, digits(t)),
    ),
    variable(left - 8, top - 12, 'T', 'end'),
    label(left, top - 12, '/ °C', 'start', 'small'),
    variable(right - 40, base + 44, 't', 'end'),
    label(right - 36, base + 44, '/ min', 'start', 'small'),
  ];
  const points = (time: readonly number[], values: readonly number[]): Point[] =>
    time.map((t, n) => [x(t / 60), y(values[n] as number)]);
  return { x, y, parts, points };
}

const lowestOf = (...lines: readonly (readonly number[])[]): number =>
  Math.floor(Math.min(...lines.flat()) / 5) * 5;
const highestOf = (...lines: readonly (readonly number[])[]): number =>
  Math.max(50, Math.ceil((Math.max(...lines.flat()) + 1) / 5) * 5);

const at = (answer: unknown, pointer: string): number =>
  pointer
    .split('/')
    .slice(1)
    .reduce<unknown>((part, key) => (part as Record<string, unknown>)[key], answer) as number;

/** The course of the example, and below it every published temperature beside what the model gives for that experiment. */
export function temperatureHistoryFigure(
  _: unknown,
  value: Out<typeof temperatureHistory>,
  formula: AnyFormula,
): Figure {
  const { time, interface: under, skin, outside } = value.curve;
  const { parts, points } = frame(lowestOf(under, skin, outside), highestOf(under, skin, outside));
  const rows = rowsOf(formula.id).filter(({ unit, printed }) => unit === 'Cel' && printed !== undefined);
  const scaleRow = scale([28, 54], [left, right]);
  const start = base + 92;
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
  const all = [
    ...parts,
    path(points(time, outside), 'soft-line'),
    path(points(time, skin), 'construction'),
    path(points(time, under), 'strong'),
    label(
      left,
      base + 68,
      'Published (filled) and computed (ring), each as it was done',
      'start',
      'strong-label',
    ),
    ...compared.map(({ svg }) => svg),
    line([left, end - 20], [right, end - 20], 'axis'),
    ...ticks(30, 54, 5).map((t) => label(scaleRow(t), end - 2, digits(t))),
  ];
  const words =
    `Above, the example: under the plaster (thick line) ${told(value.interface.peak, 'Cel', 3)} at most, on the skin (dark line) ${told(value.skin.peak, 'Cel', 3)}, on the outside (thin line) ${told(value.outside.peak, 'Cel', 3)}. ` +
    `Below, published temperatures beside the model’s for the same experiment, in °C. ${compared.map((c) => c.words).join(' ')}`;
  return figure(
    end + 12,
    'Temperature under a setting plaster against time, and published temperatures beside computed ones',
    words,
    all,
  );
}

/** The band of the example, and what makes it wide. */
export function temperatureBandFigure(
  _: unknown,
  value: Out<typeof temperatureBand>,
  formula: AnyFormula,
): Figure {
  const { time, interface: under, skin } = value.curve;
  const lines = [under.least, under.most, skin.least, skin.most];
  const { parts, points } = frame(lowestOf(...lines), highestOf(...lines));
  const between = (band: typeof under): string =>
    path([...points(time, band.least), ...points(time, band.most).toReversed()], 'between', true);
  const drivers = value.drivers.slice(0, 6);
  const constants = (formula as typeof temperatureBand).constants ?? {};
  const start = base + 92;
  const x = scale([-1, 1], [left + 170, right]);
  const bars = drivers.map(({ constant, onInterface }, n) => {
    const y = start + n * 22;
    const says = (constants as Record<string, { says: string }>)[constant]?.says ?? constant;
    const short = says.split(/[:,]/)[0] ?? says;
    const [from, to] = [x(Math.min(0, onInterface)), x(Math.max(0, onInterface))];
    return (
      label(left + 164, y + 5, short.length > 34 ? `${short.slice(0, 33)}…` : short, 'end', 'small') +
      rect(from, y - 5, to - from, 10, 'window')
    );
  });
  const end = start + drivers.length * 22;
  const all = [
    ...parts,
    between(under),
    between(skin),
    path(points(time, under.middle), 'strong'),
    path(points(time, skin.middle), 'construction'),
    label(left, base + 68, 'Rank correlation with the peak under the plaster', 'start', 'strong-label'),
    ...bars,
    line([x(0), start - 12], [x(0), end - 8], 'axis'),
    ...[-1, 0, 1].map((t) => label(x(t), end + 8, digits(t), '', 'small')),
  ];
  const span = ({ least, most }: { least: number; most: number }): string =>
    `${digits(least, 3)} to ${told(most, 'Cel', 3)}`;
  const words =
    `Nine in ten courses of the example lie in the bands: under the plaster they peak at ${span(value.interface.peak)} (thick line: the middle), on the skin at ${span(value.skin.peak)} (dark line). ` +
    `What moves the peak under the plaster most: ${drivers.map((d) => `${d.constant} ${digits(d.onInterface, 2)}`).join(', ')}.`;
  return figure(end + 20, 'Band of temperatures under a setting plaster, and its drivers', words, all);
}
