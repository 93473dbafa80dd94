import type { AnyFormula } from 'swathe';

/** The numbers that a drawing shows, the units in the headings. */
export interface Data {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
}

/** A drawing as text: plain SVG whose looks come from the site's style sheet, the same in words, and as numbers. */
export interface Figure {
  readonly svg: string;
  readonly words: string;
  readonly data: Data;
}

export type Point = readonly [number, number];

/** The inputs, and the value, of a formula. */
export type In<F extends (...args: never) => unknown> = Parameters<F>[0];
export type Out<F extends (...args: never) => { readonly value: unknown }> = ReturnType<F>['value'];

const n = (x: number): string => String(Number(x.toFixed(2)));
const attributes = (of: Readonly<Record<string, string | number>>): string =>
  Object.entries(of)
    .map(([name, value]) => ` ${name}="${typeof value === 'number' ? n(value) : value}"`)
    .join('');

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');

export const el = (name: string, of: Readonly<Record<string, string | number>>, inside?: string): string =>
  `<${name}${attributes(of)}${inside === undefined ? '/>' : `>${inside}</${name}>`}`;

/** Width of every drawing in its own units: a label of 13 stays readable on a phone. */
export const wide = 440;

export function figure(
  height: number,
  title: string,
  words: string,
  parts: readonly string[],
  data: Data = { columns: [], rows: [] },
): Figure {
  const svg = el(
    'svg',
    {
      viewBox: `0 0 ${wide} ${n(height)}`,
      role: 'img',
      'aria-label': escaped(title).replaceAll('"', '&quot;'),
    },
    parts.join(''),
  );
  return { svg, words, data };
}

export const path = (points: readonly Point[], of: string, closed = false): string =>
  el('path', {
    class: of,
    d: `M${points.map(([x, y]) => `${n(x)} ${n(y)}`).join('L')}${closed ? 'Z' : ''}`,
  });

export const line = (a: Point, b: Point, of: string): string => path([a, b], of);

export const rect = (x: number, y: number, width: number, height: number, of: string): string =>
  el('rect', { x, y, width: Math.max(0, width), height: Math.max(0, height), class: of });

export const circle = (cx: number, cy: number, r: number, of: string): string =>
  el('circle', { cx, cy, r, class: of });

export const label = (x: number, y: number, text: string, of: '' | 'start' | 'end' = '', also = ''): string =>
  el('text', { x, y, class: `label ${of} ${also}`.trim().replace(/ +/g, ' ') }, escaped(text));

/** A variable in a label: set in italics, with a subscript after a `_`. */
export function variable(x: number, y: number, text: string, of: '' | 'start' | 'end' = ''): string {
  const [base = '', below] = text.split('_');
  const whole = base + (below === undefined ? '' : el('tspan', { class: 'below', dy: 4 }, below));
  return el('text', { x, y, class: `label variable ${of}`.trim() }, whole);
}

/** A measure between two points, with a short bar across each end. */
export function measure([x1, y1]: Point, [x2, y2]: Point): string {
  const length = Math.sqrt((x2 - x1) ** 2 + (y2 - y1) ** 2) || 1;
  const [ux, uy] = [(-(y2 - y1) / length) * 4, ((x2 - x1) / length) * 4];
  return (
    line([x1, y1], [x2, y2], 'measure') +
    line([x1 - ux, y1 - uy], [x1 + ux, y1 + uy], 'measure') +
    line([x2 - ux, y2 - uy], [x2 + ux, y2 + uy], 'measure')
  );
}

/** A linear scale from one span to another. */
export const scale =
  ([a, b]: Point, [c, d]: Point) =>
  (x: number): number =>
    c + ((x - a) * (d - c)) / (b - a);

/** Round values from one to another, about `count` of them. */
export function ticks(from: number, to: number, count = 5): readonly number[] {
  const rough = (to - from) / count;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((m) => m * power >= rough) ?? 10) * power;
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, k) => Number(((first + k) * step).toPrecision(12)));
}

/** About how much room a label takes: a letter is little more than half as wide as it is high. */
export const widthOf = (text: string, size = 14): number => text.length * size * 0.57;

/** Where a label's middle must stand for it to stay in the drawing. */
export const inside = (x: number, text: string): number =>
  Math.min(wide - widthOf(text) / 2 - 4, Math.max(widthOf(text) / 2 + 4, x));

/** A text in lines of so many letters at most. */
export function linesOf(text: string, most: number): readonly string[] {
  const lines = [''];
  for (const word of text.split(' ')) {
    const longer = `${lines.at(-1)} ${word}`.trim();
    if (longer.length > most && lines.at(-1) !== '') lines.push(word);
    else lines[lines.length - 1] = longer;
  }
  return lines;
}

/** A figure of an answer; sources go by the names that the page gives them. */
export type Draw = (
  inputs: never,
  value: never,
  formula: AnyFormula,
  nameOf: (source: string | undefined) => string,
) => Figure;
