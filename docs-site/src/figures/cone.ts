import type { edgeMismatch, geodesicAdvance } from 'swathe';
import { digits, shown } from '../library/show.ts';
import { circle, el, type Figure, figure, type In, label, type Out, type Point, path, wide } from './svg.ts';

/** Angle and distance from the tip of a cone rolled out, as a place on a drawing that has its middle at the top. */
const polar = (angle: number, radius: number): Point => [radius * Math.sin(angle), radius * Math.cos(angle)];

/** Shifts and scales so that all points fit a space of the drawing. */
function fitted(
  points: readonly Point[],
  [left, top, width, height]: readonly [number, number, number, number],
) {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
  const [y0, y1] = [Math.min(...ys), Math.max(...ys)];
  const perMm = Math.min(width / (x1 - x0), height / (y1 - y0));
  const [ox, oy] = [left + (width - (x1 - x0) * perMm) / 2, top];
  const place = ([x, y]: Point): Point => [ox + (x - x0) * perMm, oy + (y - y0) * perMm];
  return { place, bottom: oy + (y1 - y0) * perMm };
}

const arc = (from: number, to: number, radius: number, parts = 60): readonly Point[] =>
  Array.from({ length: parts + 1 }, (_, k) => polar(from + ((to - from) * k) / parts, radius));

/** Too many turns to see, or more than a sheet holds: the first of them are drawn. */
const mostTurns = 24;
const mostAngle = 5.6;

/** The skin of a tapering limb rolled out turn after turn: on it a flat bandage keeps straight. */
export function geodesicAdvanceFigure(
  i: In<typeof geodesicAdvance>,
  value: Out<typeof geodesicAdvance>,
): Figure {
  const title = 'A flat bandage on a tapering limb rolled out';
  // So small an angle shows as a cylinder's: the skin as a rectangle.
  const sector = (value.sector * Math.PI) / 180;
  const turned = Math.max(1e-4, Math.abs(sector));
  const toThick = sector >= 0;
  const radiusOf = (girth: number): number => girth / turned;
  const shownTurns = value.turns.slice(0, Math.max(1, Math.min(mostTurns, Math.floor(mostAngle / turned))));
  const end = { turns: value.end.turns, girth: value.end.kind === 'turns back' ? value.end.girth : i.last };
  const all = shownTurns.length === value.turns.length && end.turns * turned <= mostAngle;
  const course = [
    { n: 0, girth: i.first as number },
    ...shownTurns.map(({ turn, girth }) => ({ n: turn, girth })),
    ...(all && turned > 1e-4 ? [{ n: end.turns, girth: end.girth }] : []),
  ];
  const sheets = Math.max(1, Math.ceil((course.at(-1)?.n ?? 1) - 1e-9));
  const half = (sheets * turned) / 2;
  const angleOf = (n: number): number => (toThick ? 1 : -1) * (n * turned - half);
  const line = course.map(({ n, girth }) => polar(angleOf(n), radiusOf(girth)));
  const [near, far] = [radiusOf(Math.min(i.first, i.last)), radiusOf(Math.max(i.first, i.last))];
  const skin = [...arc(-half, half, near), ...arc(half, -half, far)];
  const { place, bottom } = fitted(skin, [30, 16, wide - 60, 330]);

  // The bandage is as broad everywhere: its edges keep beside the line.
  const [from, to] = [line[0] as Point, line.at(-1) as Point];
  const long = Math.sqrt((to[0] - from[0]) ** 2 + (to[1] - from[1]) ** 2) || 1;
  const side: Point = [
    (-(to[1] - from[1]) / long) * (i.width / 2),
    ((to[0] - from[0]) / long) * (i.width / 2),
  ];
  const edge = (sign: 1 | -1): Point[] =>
    [from, to].map(([x, y]): Point => place([x + sign * side[0], y + sign * side[1]]));
  const rays = Array.from({ length: sheets + 1 }, (_, n) =>
    path([polar(angleOf(n), near), polar(angleOf(n), far)].map(place), 'guide'),
  );
  const clip = el('clipPath', { id: 'cone-skin' }, path(skin.map(place), 'skin', true));
  const parts = [
    clip,
    path(skin.map(place), 'skin', true),
    el('g', { 'clip-path': 'url(#cone-skin)' }, path([...edge(1), ...edge(-1).toReversed()], 'strip', true)),
    ...rays,
    path(line.map(place), 'strong'),
    ...line.slice(0, shownTurns.length + 1).map((p) => circle(...place(p), 3.4, 'dot')),
    label(
      wide / 2,
      bottom + 26,
      `each sheet is once round the limb; ${digits(Math.abs(value.sector), 3)}° a turn`,
    ),
  ];
  const gap =
    value.gap.kind === 'opens'
      ? value.gap.after === 0
        ? 'A gap opens at once.'
        : `A gap opens after ${digits(value.gap.after, 3)} turns.`
      : 'No gap opens.';
  const words = `The skin rolled out, one sheet beside the other for each turn; ${sheets === 1 ? 'one is' : `${sheets} are`} drawn. The bandage keeps straight, so it crosses each sheet at another angle. ${
    value.end.kind === 'turns back'
      ? `It turns back after ${digits(value.end.turns, 3)} turns.`
      : `It reaches the other end after ${digits(value.end.turns, 3)} turns.`
  } ${gap}`;
  return figure(bottom + 40, title, words, parts, {
    columns: ['turn', 'at [mm]', 'girth [mm]', 'lead angle [deg]', 'bandage [mm]', 'overlap'],
    rows: value.turns.map((t) => [t.turn, t.at, t.girth, t.leadAngle, t.length, t.overlap]),
  });
}

/** One turn of the skin rolled out, and on it the two edges of the bandage, of which the outer is the longer. */
export function edgeMismatchFigure(i: In<typeof edgeMismatch>, value: Out<typeof edgeMismatch>): Figure {
  const turned = Math.max(1e-4, Math.min(2 * Math.PI * 0.97, (value.sector * Math.PI) / 180));
  const real = Math.max(1e-4, (value.sector * Math.PI) / 180);
  const [thin, thick] = [Math.min(i.first, i.last), Math.max(i.first, i.last)];
  const [near, far] = [thin / real, Math.max(thick / real, thin / real + i.width)];
  const half = turned / 2;
  const skin = [...arc(-half, half, near), ...arc(half, -half, far)];
  const { place, bottom } = fitted(skin, [40, 16, wide - 80, 250]);
  const band = [...arc(-half, half, near), ...arc(half, -half, near + i.width)];
  const parts = [
    path(skin.map(place), 'skin', true),
    path(band.map(place), 'strip', true),
    path(arc(-half, half, near).map(place), 'construction'),
    path(arc(-half, half, near + i.width).map(place), 'strong'),
    label(wide / 2, bottom + 26, `one edge is ${shown(value.mismatch, 'mm', 4)} longer each turn`),
  ];
  const words = `One turn of the skin rolled out: a sector of ${digits(value.sector, 4)}°. The bandage lies where the limb is thinnest, taken round with no lead; its outer edge goes ${shown(value.mismatch, 'mm', 4)} farther than its inner edge. At a mean girth the edges are strained by ${digits(100 * value.strain, 3)} %, one way and the other.`;
  return figure(bottom + 40, 'The two edges of a bandage on a tapering limb rolled out', words, parts, {
    columns: ['edge', 'radius on the sheet [mm]', 'length of one turn [mm]'],
    rows: [
      ['inner', near, near * real],
      ['outer', near + i.width, (near + i.width) * real],
    ],
  });
}
