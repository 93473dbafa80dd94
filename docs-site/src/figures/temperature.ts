import type { AnyFormula, temperatureBand, temperatureHistory } from 'swathe';
import { digits, told } from '../library/show.ts';
import {
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

/** The course of temperature on both sides of the padding, and on the outside. */
export function temperatureHistoryFigure(_: unknown, value: Out<typeof temperatureHistory>): Figure {
  const { time, interface: under, skin, outside } = value.curve;
  const { parts, points } = frame(lowestOf(under, skin, outside), highestOf(under, skin, outside));
  const all = [
    ...parts,
    path(points(time, outside), 'soft-line'),
    path(points(time, skin), 'construction'),
    path(points(time, under), 'strong'),
  ];
  const words = `Under the plaster (thick line) ${told(value.interface.peak, 'Cel', 3)} at most, on the skin (dark line) ${told(value.skin.peak, 'Cel', 3)}, on the outside (thin line) ${told(value.outside.peak, 'Cel', 3)}.`;
  return figure(base + 54, 'Temperature under a setting plaster against time', words, all, {
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
    `Nine in ten courses lie in the bands: under the plaster they peak at ${span(value.interface.peak)} (thick line: the middle), on the skin at ${span(value.skin.peak)} (dark line). ` +
    `What moves the peak under the plaster most: ${drivers.map((d) => `${d.constant} ${digits(d.onInterface, 2)}`).join(', ')}.`;
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
