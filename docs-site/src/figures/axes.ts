import { hold, tell, type UnitCode } from 'swathe';
import { digits, scaleUnit, unitWord } from '../library/show.ts';
import { label, line, type Point, path, scale, ticks, variable, wide } from './svg.ts';

interface Axis {
  /** From where to where, as the values are held. */
  readonly span: Point;
  readonly symbol: string;
  /** The unit that is written, where the reader of the page asked for no other. */
  readonly unit: UnitCode;
  /** Equal steps for equal factors. */
  readonly log?: boolean;
}

interface Mark {
  /** As the value is held. */
  readonly at: number;
  readonly says: string;
}

/** Times on a scale of factors, each about ten times the last, and as people say them. */
export const instants: readonly Mark[] = [
  { at: 0.1, says: '0.1 s' },
  { at: 1, says: '1 s' },
  { at: 10, says: '10 s' },
  { at: 60, says: '1 min' },
  { at: 600, says: '10 min' },
  { at: 3600, says: '1 h' },
  { at: 36_000, says: '10 h' },
  { at: 259_200, says: '3 d' },
];

/** Powers of ten from one value to another, and where these are few the 2 and the 5 between. */
function factors(low: number, high: number): readonly number[] {
  const [first, last] = [Math.floor(Math.log10(low)), Math.ceil(Math.log10(high))];
  const between = high / low < 1000 ? [1, 2, 5] : [1];
  return Array.from({ length: last - first + 1 }, (_, k) => between.map((m) => Number(`${m}e${first + k}`)))
    .flat()
    .filter((x) => x >= low && x <= high);
}

/** Round values along a scale, round in the unit in which they are told, and the word for that unit. */
export function marksOf({ span: [from, to], unit, log = false }: Omit<Axis, 'symbol'>, count = 5) {
  const code = scaleUnit(unit, Math.max(Math.abs(from), Math.abs(to)));
  if (log && unit === 's') return { word: '', marks: instants.filter(({ at }) => at >= from && at <= to) };
  const [low, high] = [tell(from, code), tell(to, code)];
  const values = log ? factors(low, high) : ticks(low, high, count);
  const marks = values.map((value): Mark => ({ at: hold(value, code), says: digits(value) }));
  return { word: unitWord(code), marks };
}

/** A frame with two axes, a line across at each round value of the upright one. */
export function axesOf(across: Axis, upright: Axis, { top = 32, base = 236 } = {}) {
  const [left, right] = [58, wide - 20];
  const placer = ({ span, log = false }: Axis, ends: Point) => {
    const of = log ? Math.log : (value: number) => value;
    const place = scale([of(span[0]), of(span[1])], ends);
    return (value: number): number => place(of(value));
  };
  const [x, y] = [placer(across, [left, right]), placer(upright, [base, top])];
  const [below, beside] = [marksOf(across), marksOf(upright)];
  const unit = (word: string): string => (word === '' ? '' : `/ ${word}`);
  const parts = [
    ...beside.marks.map(
      ({ at, says }) => line([left, y(at)], [right, y(at)], 'grid') + label(left - 8, y(at) + 5, says, 'end'),
    ),
    line([left, base], [right, base], 'axis'),
    ...below.marks.map(
      ({ at, says }) => line([x(at), base], [x(at), base + 5], 'axis') + label(x(at), base + 22, says),
    ),
    variable(left - 8, top - 14, upright.symbol, 'end'),
    label(left, top - 14, unit(beside.word), 'start', 'small'),
    variable(right - 44, base + 44, across.symbol, 'end'),
    label(right - 40, base + 44, unit(below.word), 'start', 'small'),
  ];
  const curve = (values: readonly Point[], of: string): string =>
    path(
      values.map(([a, b]): Point => [x(a), y(b)]),
      of,
    );
  return { x, y, parts, curve, left, right, top, base, height: base + 54 };
}

/** Evenly spaced values, both ends included. */
export const spaced = (from: number, to: number, parts: number): readonly number[] =>
  Array.from({ length: parts + 1 }, (_, n) => from + ((to - from) * n) / parts);
