import type { AnyFormula, temperatureBand, temperatureHistory } from 'swathe';
import { digits, shown } from '../library/show.ts';
import { axesOf } from './axes.ts';
import { type Figure, figure, label, line, linesOf, type Out, type Point, path, rect, scale } from './svg.ts';

const levels = [44, 49] as const;

/** Axes of time and temperature, with the two levels that cautions use. */
function frame(lowest: number, highest: number) {
  const axes = axesOf(
    { span: [0, 3600], symbol: 't', unit: 's' },
    { span: [lowest, highest], symbol: 'T', unit: 'Cel' },
  );
  const { x, y, left, right } = axes;
  const parts = [
    ...axes.parts,
    ...levels
      .filter((t) => t < highest)
      .map(
        (t) =>
          line([left, y(t)], [right, y(t)], 'limit-line') +
          label(right, y(t) - 6, shown(t, 'Cel'), 'end', 'small'),
      ),
  ];
  const points = (time: readonly number[], values: readonly number[]): Point[] =>
    time.map((t, n) => [x(t), y(values[n] as number)]);
  return { ...axes, parts, points };
}

const lowestOf = (...lines: readonly (readonly number[])[]): number =>
  Math.floor(Math.min(...lines.flat()) / 5) * 5;
const highestOf = (...lines: readonly (readonly number[])[]): number =>
  Math.max(50, Math.ceil((Math.max(...lines.flat()) + 1) / 5) * 5);

/** The course of temperature on both sides of the padding, and on the outside. */
export function temperatureHistoryFigure(_: unknown, value: Out<typeof temperatureHistory>): Figure {
  const { time, interface: under, skin, outside } = value.curve;
  const { parts, points, height } = frame(lowestOf(under, skin, outside), highestOf(under, skin, outside));
  const all = [
    ...parts,
    path(points(time, outside), 'soft-line'),
    path(points(time, skin), 'construction'),
    path(points(time, under), 'strong'),
  ];
  const words = `Under the plaster (thick line) ${shown(value.interface.peak, 'Cel', 3)} at most, on the skin (line without colour) ${shown(value.skin.peak, 'Cel', 3)}, on the outside (thin line) ${shown(value.outside.peak, 'Cel', 3)}.`;
  return figure(height, 'Temperature under a setting plaster against time', words, all, {
    columns: ['time [s]', 'under the plaster [Cel]', 'on the skin [Cel]', 'on the outside [Cel]'],
    rows: time.map((t, n) => [t, under[n] ?? '', skin[n] ?? '', outside[n] ?? '']),
  });
}

/** The band of the example, and what makes it wide. */
export function temperatureBandFigure(
  _: unknown,
  value: Out<typeof temperatureBand>,
  formula: AnyFormula,
): Figure {
  const { time, interface: under, skin } = value.curve;
  const lines = [under.least, under.most, skin.least, skin.most];
  const { parts, points, left, right, height } = frame(lowestOf(...lines), highestOf(...lines));
  const between = (band: typeof under): string =>
    path([...points(time, band.least), ...points(time, band.most).toReversed()], 'between', true);
  const constants = (formula as typeof temperatureBand).constants ?? {};
  const drivers = value.drivers.slice(0, 6).map(({ constant, onInterface }) => {
    const says = (constants as Record<string, { says: string }>)[constant]?.says ?? constant;
    return { says: says.split(/[:,]/)[0] ?? says, onInterface };
  });
  const x = scale([-1, 1], [left, right]);
  let y = height + 22;
  const bars = drivers.map(({ says, onInterface }) => {
    const lines = linesOf(says, 46);
    y += 18 * lines.length + 20;
    const [from, to] = [x(Math.min(0, onInterface)), x(Math.max(0, onInterface))];
    return (
      lines.map((part, k) => label(20, y - 18 * (lines.length - k) + 6, part, 'start', 'small')).join('') +
      label(right, y - 12, digits(onInterface, 2), 'end', 'small') +
      rect(from, y - 5, to - from, 10, 'window') +
      line([x(0), y - 8], [x(0), y + 8], 'axis')
    );
  });
  const end = y + 28;
  const all = [
    ...parts,
    between(under),
    between(skin),
    path(points(time, under.middle), 'strong'),
    path(points(time, skin.middle), 'construction'),
    label(20, height + 24, 'Rank correlation with the peak under the plaster', 'start', 'strong-label'),
    ...bars,
    line([x(-1), end - 8], [x(1), end - 8], 'axis'),
    ...[-1, 0, 1].map((t) => label(x(t), end + 10, digits(t), '', 'small')),
  ];
  const span = ({ least, most }: { least: number; most: number }): string =>
    `${shown(least, 'Cel', 3)} to ${shown(most, 'Cel', 3)}`;
  const words =
    `Nine in ten courses lie in the bands: under the plaster they peak at ${span(value.interface.peak)} (thick line: the middle), on the skin at ${span(value.skin.peak)} (line without colour). ` +
    `What moves the peak under the plaster most: ${drivers.map((d) => `${d.says} ${digits(d.onInterface, 2)}`).join(', ')}.`;
  return figure(end + 20, 'Band of temperatures under a setting plaster, and its drivers', words, all, {
    columns: [
      'time [s]',
      ...['under the plaster', 'on the skin'].flatMap((where) =>
        ['5 % below', 'half below', '95 % below'].map((share) => `${where}, ${share} [Cel]`),
      ),
    ],
    rows: time.map((t, n) => [
      t,
      ...[under, skin].flatMap((band) => [band.least[n] ?? '', band.middle[n] ?? '', band.most[n] ?? '']),
    ]),
  });
}
