import { type AnyFormula, type conduction, mm, seconds } from 'swathe';
import { digits, shown } from '../library/show.ts';
import { axesOf } from './axes.ts';
import { circle, type Figure, figure, type In, label, line, type Out, type Point, rect } from './svg.ts';

/** So many places the formula reads at once. */
const mostProbes = 24;
/** Cells in a layer that a drawing needs. */
const enoughCells = 8;

/** Temperature through the layers: at the start, on the way and at the end. */
export function conductionFigure(
  inputs: In<typeof conduction>,
  value: Out<typeof conduction>,
  formula: AnyFormula,
): Figure {
  const { layers, until } = inputs;
  const { compute } = formula as typeof conduction;
  const each = Math.floor(mostProbes / layers.length);
  let before = 0;
  // Just behind a face with a contact resistance there is another temperature than on it.
  const spans = layers.map(({ thickness }, n) => {
    const from = before;
    before += thickness;
    const first = n === 0 ? 0 : thickness / 4000;
    return {
      from,
      to: before,
      places: Array.from({ length: each }, (_, k) => from + first + ((thickness - first) * k) / (each - 1)),
    };
  });
  const depth = before;
  const places = spans.flatMap((span) => span.places).map((place) => Math.min(place, depth));
  const courseAt = (time: number): readonly (readonly Point[])[] => {
    const { probes } = compute({
      ...inputs,
      until: seconds(time),
      probes: places.map(mm),
      cells: Math.min(inputs.cells, enoughCells) as typeof inputs.cells,
    });
    return spans.map((_, n) =>
      probes.slice(n * each, (n + 1) * each).map(({ at, temperature }): Point => [at, temperature]),
    );
  };
  const early = Math.max(until / 10, 0.001);
  const [middle, end] = [courseAt(early), courseAt(until)];
  const start = spans.map(({ from, to }, n): readonly Point[] => {
    const { start } = layers[n] as (typeof layers)[number];
    return [
      [from, start],
      [to, start],
    ];
  });
  const all = [...start, ...middle, ...end].flat().map(([, t]) => t);
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const spare = Math.max(1, (high - low) * 0.06);
  const axes = axesOf(
    { span: [0, depth], symbol: 'x', unit: 'mm' },
    { span: [low - 2.5 * spare, high + spare], symbol: 'T', unit: 'Cel' },
    { top: 60, base: 270 },
  );
  const { x, y, top, base } = axes;
  const keys = [
    { says: `after ${shown(until, 's', 3)}`, of: 'strong', at: 58 },
    { says: `after ${shown(early, 's', 3)}`, of: 'soft-line', at: 190 },
    { says: 'at the start', of: 'limit-line', at: 322 },
  ];
  const parts = [
    ...spans.flatMap(({ from, to }, n) => [
      ...(n % 2 === 1 ? [rect(x(from), top, x(to) - x(from), base - top, 'wanted')] : []),
      ...(n > 0 ? [line([x(from), top], [x(from), base], 'guide')] : []),
    ]),
    ...axes.parts,
    ...spans.flatMap(({ from, to }, n) =>
      x(to) - x(from) > 14 ? [label((x(from) + x(to)) / 2, base - 8, digits(n + 1), '', 'small')] : [],
    ),
    ...start.map((course) => axes.curve(course, 'limit-line')),
    ...middle.map((course) => axes.curve(course, 'soft-line')),
    ...end.map((course) => axes.curve(course, 'strong')),
    ...value.probes.map(({ at, temperature }) => circle(x(at), y(temperature), 5, 'dot')),
    ...keys.flatMap(({ says, of, at }) => [
      line([at, 18], [at + 22, 18], of),
      label(at + 28, 23, says, 'start', 'small'),
    ]),
  ];
  const faces = `${shown(value.inner.temperature, 'Cel', 4)} on the inner surface and ${shown(value.outer.temperature, 'Cel', 4)} on the outer`;
  const probes = value.probes.map(
    ({ at, temperature }) => ` At ${shown(at, 'mm')} it is ${shown(temperature, 'Cel', 4)}.`,
  );
  const words = `Temperature through ${layers.length === 1 ? 'the layer' : `${digits(layers.length)} layers`}, the inner surface on the left: the strong line after ${shown(until, 's', 4)}, the thin line after ${shown(early, 's', 4)}, the broken line at the start. At the end it is ${faces}.${probes.join('')} Dots are the places asked for; the lines are drawn with fewer cells.`;
  return figure(axes.height, 'Temperature through the layers', words, parts, {
    columns: [
      'layer',
      'from the inner surface [mm]',
      'temperature on the way [Cel]',
      'temperature at the end [Cel]',
    ],
    rows: end.flatMap((course, n) => course.map(([at, t], k) => [n + 1, at, middle[n]?.[k]?.[1] ?? '', t])),
  });
}
