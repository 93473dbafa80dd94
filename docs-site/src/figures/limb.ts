import { type girthAt, type girthProfile, type sliceProfile, tell } from 'swathe';
import { digits, scaleUnit, shown, unitWord } from '../library/show.ts';
import {
  el,
  type Figure,
  figure,
  type In,
  inside,
  label,
  line,
  measure,
  type Out,
  type Point,
  path,
  scale,
  variable,
  wide,
  widthOf,
} from './svg.ts';

type Stations = In<typeof girthProfile>['stations'];

/** A limb seen from the side, round as its girths say and true to scale. */
export function outlineOf(stations: Stations, [left, right]: Point, middle: number) {
  const first = stations[0]?.at ?? 0;
  const last = stations.at(-1)?.at ?? 1;
  const x = scale([first, last], [left, right]);
  const perMm = (right - left) / (last - first);
  const radius = (girth: number): number => (girth / (2 * Math.PI)) * perMm;
  const girthAt = (at: number): number => {
    const k = Math.max(
      1,
      stations.findIndex((s) => s.at >= at),
    );
    const [a, b] = [stations[k - 1], stations[k]];
    return a && b ? a.girth + ((b.girth - a.girth) * (at - a.at)) / (b.at - a.at) : 0;
  };
  const upper = (at: number): Point => [x(at), middle - radius(girthAt(at))];
  const lower = (at: number): Point => [x(at), middle + radius(girthAt(at))];
  /** The part of the limb between two places. */
  const part = (from: number, to: number, of: string): string => {
    const inner = stations.map((s) => s.at).filter((at) => at > from && at < to);
    const places = [from, ...inner, to];
    return path([...places.map(upper), ...places.toReversed().map(lower)], of, true);
  };
  const widest = radius(Math.max(...stations.map((s) => s.girth)));
  return { x, radius, girthAt, upper, lower, part, widest, first, last };
}

/** Where each girth is taken, on a limb drawn to scale. */
export function girthProfileFigure(
  { stations }: In<typeof girthProfile>,
  value: Out<typeof girthProfile>,
): Figure {
  const probe = outlineOf(stations, [84, wide - 40], 0);
  const middle = probe.widest + 44;
  const limb = outlineOf(stations, [84, wide - 40], middle);
  const foot = middle + limb.widest + 30;
  const code = scaleUnit('mm', limb.last);
  // Where stations are close, a number that would lie over the one before is left to the words.
  let [above, below] = [46, 64];
  const rings = stations.map(({ at, girth }) => {
    const [x, r] = [limb.x(at), limb.radius(girth)];
    const [says, place] = [shown(girth, 'mm', 4), digits(tell(at, code), 4)];
    const [clearAbove, clearBelow] = [x - widthOf(says) / 2 > above, x - widthOf(place) / 2 > below];
    if (clearAbove) above = x + widthOf(says) / 2 + 4;
    if (clearBelow) below = x + widthOf(place) / 2 + 4;
    return (
      el('ellipse', { cx: x, cy: middle, rx: r * 0.2, ry: r, class: 'ring' }) +
      (clearAbove ? label(x, middle - r - 10, says) : '') +
      (clearBelow ? label(x, foot + 22, place) : '') +
      line([x, foot - 4], [x, foot + 4], 'measure')
    );
  });
  const parts = [
    limb.part(limb.first, limb.last, 'limb'),
    line([limb.x(limb.first), middle], [limb.x(limb.last), middle], 'axis-line'),
    ...rings,
    measure([limb.x(limb.first), foot], [limb.x(limb.last), foot]),
    variable(16, foot + 22, 'x', 'start'),
    label(27, foot + 22, `/ ${unitWord(code)}`, 'start'),
    variable(24, middle - limb.radius(stations[0]?.girth ?? 0) - 10, 'C', 'start'),
  ];
  const words = `A limb from the side, to scale. ${stations
    .map(({ at, girth }) => `At ${shown(at, 'mm')} the girth is ${shown(girth, 'mm')}.`)
    .join(
      ' ',
    )} From end to end it is ${shown(value.length, 'mm')} along the axis and ${shown(value.slant, 'mm')} along the skin.`;
  return figure(foot + 34, 'A limb from the side with its measured girths', words, parts, dataOf(stations));
}

const dataOf = (stations: Stations) => ({
  columns: ['at [mm]', 'girth [mm]'],
  rows: stations.map(({ at, girth }) => [at, girth]),
});

/** The limb in the space that its figures share, and where its scale of places stands. */
function drawnLimb(stations: Stations) {
  const ends: Point = [40, wide - 40];
  const middle = outlineOf(stations, ends, 0).widest + 40;
  const limb = outlineOf(stations, ends, middle);
  const foot = middle + limb.widest + 28;
  const tick = (at: number): string => line([limb.x(at), foot - 4], [limb.x(at), foot + 4], 'measure');
  /** Places with their numbers; two that lie close share a label. */
  const marks = (...at: readonly number[]): string => {
    const says = at.map((place) => shown(place, 'mm', 5));
    const spots = at.map((place, n) => inside(limb.x(place), says[n] as string));
    const [a = 0, b = Number.POSITIVE_INFINITY] = spots;
    const room =
      spots.length < 2 || b - a > (widthOf(says[0] as string) + widthOf(says[1] as string)) / 2 + 8;
    const both = says.join(' to ');
    return (
      at.map(tick).join('') +
      (room
        ? spots.map((x, n) => label(x, foot + 22, says[n] as string)).join('')
        : label(inside((a + b) / 2, both), foot + 22, both))
    );
  };
  const ring = (at: number, girth: number): string => {
    const r = limb.radius(girth);
    return el('ellipse', { cx: limb.x(at), cy: middle, rx: r * 0.2, ry: r, class: 'ring' });
  };
  const faint = stations
    .slice(1, -1)
    .map(({ at }) => line(limb.upper(at), limb.lower(at), 'guide'))
    .join('');
  return { limb, middle, foot, marks, ring, faint };
}

/** Where along the limb the girth is asked for, and what it is there. */
export function girthAtFigure({ stations, at }: In<typeof girthAt>, value: Out<typeof girthAt>): Figure {
  const { limb, middle, foot, marks, ring, faint } = drawnLimb(stations);
  const parts = [
    limb.part(limb.first, limb.last, 'limb'),
    faint,
    ring(at, value),
    label(limb.x(at), middle - limb.radius(value) - 10, shown(value, 'mm', 4)),
    line([limb.x(limb.first), foot], [limb.x(limb.last), foot], 'measure'),
    marks(at),
  ];
  const words = `The measured limb from the side, to scale. At ${shown(at, 'mm')} it is ${shown(value, 'mm')} round.`;
  return figure(foot + 34, 'A limb from the side with the girth at one place', words, parts, {
    columns: ['at [mm]', 'girth [mm]'],
    rows: [...stations.map((s) => [s.at, s.girth]), [at, value]].sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0)),
  });
}

/** The part of the limb that is taken out of the whole. */
export function sliceProfileFigure(
  { stations, from, to }: In<typeof sliceProfile>,
  value: Out<typeof sliceProfile>,
): Figure {
  const { limb, foot, marks, ring, faint } = drawnLimb(stations);
  const parts = [
    limb.part(limb.first, limb.last, 'limb'),
    faint,
    limb.part(from, to, 'taken'),
    ring(from, limb.girthAt(from)),
    ring(to, limb.girthAt(to)),
    measure([limb.x(from), foot], [limb.x(to), foot]),
    marks(from, to),
  ];
  const words = `The measured limb from the side, to scale; the part from ${shown(from, 'mm')} to ${shown(to, 'mm')} is filled. Its skin is ${shown(value.area, 'mm2')}, its volume ${shown(value.volume, 'mm3')}.`;
  return figure(
    foot + 34,
    'A part of a limb from the side',
    words,
    parts,
    dataOf(value.stations as unknown as Stations),
  );
}
