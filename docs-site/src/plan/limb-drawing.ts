import type { Immobilisation, Landmark } from 'swathe';
import { el, type Point } from '../figures/svg.ts';

/** A place on the drawn limb, and half its width there. Shapes are schematic; nothing is measured from them. */
type Node = readonly [names: readonly (Landmark | '')[], x: number, y: number, r: number];

// A right arm with the elbow bent, and a leg with the foot at a right angle; from the fingers or toes to the trunk.
const forearm: readonly Node[] = [
  [['wrist crease', 'ulnar styloid', 'radial styloid'], 146, 138, 9],
  [['mid forearm'], 102, 137, 13],
  [['proximal third of the forearm'], 84, 136, 15],
  [['elbow crease', 'olecranon'], 50, 134, 15],
];
const upperArm: readonly Node[] = [
  [['mid upper arm'], 48, 86, 16],
  [['deltoid insertion'], 48, 76, 16.5],
  [['axilla'], 49, 46, 18.5],
  [['acromion'], 50, 24, 17],
];
const hand: readonly Node[] = [
  [['fingertips'], 206, 139, 4],
  [
    [
      'little-finger distal joint',
      'index-finger distal joint',
      'mid distal phalanx of the ring and little fingers',
    ],
    197,
    139,
    6.5,
  ],
  [['knuckles', 'metacarpal heads'], 177, 138, 11.5],
  [['distal palmar crease'], 172, 138, 12],
  [['proximal palmar crease'], 165, 138, 12],
];
const thumbUp: readonly Node[] = [
  [['thumb tip'], 183, 106, 4],
  [['mid distal phalanx of the thumb'], 180, 110, 5],
  [['thumb distal joint'], 176, 114, 5.5],
  [['base of the thumb'], 158, 130, 8],
];
const thumbInFront: readonly Node[] = [
  [['thumb tip'], 181, 151, 3.5],
  [['mid distal phalanx of the thumb'], 178, 150, 4],
  [['thumb distal joint'], 174, 149, 4.5],
  [['base of the thumb'], 157, 144, 6],
];
const foot: readonly Node[] = [
  [['toe tips'], 196, 203, 4.5],
  [['base of the toes'], 184, 200, 8],
  [['metatarsal heads'], 178, 198, 10],
  [[''], 148, 192, 15],
  [['heel'], 103, 198, 10.5],
];
const leg: readonly Node[] = [
  [['lateral malleolus', 'medial malleolus'], 110, 180, 12],
  [['mid calf'], 106, 146, 16],
  [['tibial tuberosity', 'fibular head'], 109, 116, 14],
  [['patella'], 109, 104, 15],
  [['proximal third of the thigh'], 106, 44, 22],
  [['gluteal fold'], 105, 26, 23.5],
  [['groin', 'greater trochanter'], 105, 14, 23.5],
];
/** The instep, which joins the foot to the leg in front of the heel. */
const instep: readonly Node[] = [
  [[''], 150, 190, 14],
  [['lateral malleolus'], 112, 178, 12],
];

interface Spot {
  readonly x: number;
  readonly y: number;
  readonly r: number;
  /** Unit vector along the limb, towards the trunk. */
  readonly tx: number;
  readonly ty: number;
}

/** A way along nodes: distances on it, and what lies at one. */
class Way {
  readonly #nodes: readonly Node[];
  readonly #at: readonly number[];

  constructor(nodes: readonly Node[]) {
    this.#nodes = nodes;
    let sum = 0;
    this.#at = nodes.map(([, x, y], n) => {
      const [, px, py] = nodes[Math.max(0, n - 1)] as Node;
      sum += Math.sqrt((x - px) ** 2 + (y - py) ** 2);
      return sum;
    });
  }

  get length(): number {
    return this.#at.at(-1) as number;
  }

  /** Where a landmark lies; a distance in mm from it is drawn at about the scale of an adult. */
  find(landmark: Landmark, offset = 0): number | undefined {
    const n = this.#nodes.findIndex(([names]) => names.includes(landmark));
    return n < 0 ? undefined : Math.min(this.length, Math.max(0, (this.#at[n] as number) + offset * 0.36));
  }

  #raw(s: number): readonly [number, number, number] {
    const n = Math.max(
      1,
      this.#at.findIndex((at) => at >= s - 1e-9),
    );
    const [a, b] = [this.#nodes[n - 1] as Node, this.#nodes[n] as Node];
    const [from, to] = [this.#at[n - 1] as number, this.#at[n] as number];
    const t = Math.min(1, Math.max(0, (s - from) / (to - from)));
    return [a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t, a[3] + (b[3] - a[3]) * t];
  }

  at(s: number): Spot {
    const [x, y, r] = this.#raw(s);
    const [ax, ay] = this.#raw(Math.max(0, s - 7));
    const [bx, by] = this.#raw(Math.min(this.length, s + 7));
    const long = Math.sqrt((bx - ax) ** 2 + (by - ay) ** 2) || 1;
    return { x, y, r, tx: (bx - ax) / long, ty: (by - ay) / long };
  }

  /** Points at even steps from one distance to another, ends included. */
  between(from: number, to: number): readonly Spot[] {
    const steps = Math.max(1, Math.ceil(Math.abs(to - from) / 3));
    return Array.from({ length: steps + 1 }, (_, k) => this.at(from + ((to - from) * k) / steps));
  }

  /** The nodes of a stretch, with its ends. */
  part(from: number, to: number): readonly Node[] {
    const inner = this.#nodes.filter((_, n) => {
      const at = this.#at[n] as number;
      return at > from && at < to;
    });
    return [[[], ...this.#raw(from)], ...inner, [[], ...this.#raw(to)]];
  }
}

const n = (x: number): string => String(Number(x.toFixed(1)));

/** A chain of discs and the tapers between them: one outline, since all are drawn the same way round. */
function shape(nodes: readonly Node[], wider = 0, ends: 'round' | 'flat' = 'round'): string {
  const round = ends === 'round' ? nodes : nodes.slice(1, -1);
  const discs = round.map(([, x, y, r0]) => {
    const r = n(r0 + wider);
    return `M${n(x - r0 - wider)} ${n(y)}a${r} ${r} 0 1 1 ${n(2 * (r0 + wider))} 0a${r} ${r} 0 1 1 ${n(-2 * (r0 + wider))} 0Z`;
  });
  const tapers = nodes.slice(1).map(([, x2, y2, r2], k) => {
    const [, x1, y1, r1] = nodes[k] as Node;
    const long = Math.sqrt((x2 - x1) ** 2 + (y2 - y1) ** 2) || 1;
    const [nx, ny] = [-(y2 - y1) / long, (x2 - x1) / long];
    const [a, b] = [r1 + wider, r2 + wider];
    const corners: readonly Point[] = [
      [x1 - nx * a, y1 - ny * a],
      [x2 - nx * b, y2 - ny * b],
      [x2 + nx * b, y2 + ny * b],
      [x1 + nx * a, y1 + ny * a],
    ];
    return `M${corners.map(([x, y]) => `${n(x)} ${n(y)}`).join('L')}Z`;
  });
  return [...discs, ...tapers].join('');
}

/** A shape with an outline and without the lines inside it. */
const solid = (d: string, of: string): string =>
  el('path', { class: `${of} edge`, d }) + el('path', { class: `${of} fill`, d });

const track = (points: readonly Point[], of: string): string => {
  const d = `M${points.map(([x, y]) => `${n(x)} ${n(y)}`).join('L')}`;
  return el('path', { class: `${of} edge`, d }) + el('path', { class: `${of} fill`, d });
};

/** Points beside a way, on the side that lies below and behind (1) or above and in front (-1). */
const beside = (spots: readonly Spot[], side: 1 | -1): readonly Point[] =>
  spots.map(({ x, y, r, tx, ty }) => [x + side * (r + 2) * ty, y - side * (r + 2) * tx]);

/** Half round the end of a way, from its one side to its other. */
function roundEnd({ x, y, r, tx, ty }: Spot, side: 1 | -1): readonly Point[] {
  return Array.from({ length: 11 }, (_, k) => {
    const turn = (Math.PI * k) / 10;
    const [across, along] = [Math.cos(turn) * side * (r + 2), Math.sin(turn) * (r + 2)];
    return [x + across * ty + along * tx, y - across * tx + along * ty];
  });
}

type Course =
  | { readonly kind: 'side'; readonly side: 1 | -1 }
  | { readonly kind: 'round'; readonly end: 'forearm' | 'upper arm' }
  | { readonly kind: 'facing' }
  | { readonly kind: 'thumb' };

/** Where each slab lies on the drawn limb, and how the thumb is held in the drawing. */
const courses: Readonly<Record<string, readonly [course: Course, thumb: 'up' | 'front']>> = {
  'thumb-spica-slab': [{ kind: 'thumb' }, 'up'],
  'volar-slab': [{ kind: 'side', side: 1 }, 'front'],
  'dorsal-slab': [{ kind: 'side', side: -1 }, 'front'],
  'radial-gutter-slab': [{ kind: 'side', side: -1 }, 'up'],
  'ulnar-gutter-slab': [{ kind: 'side', side: 1 }, 'up'],
  'forearm-sugar-tong': [{ kind: 'round', end: 'forearm' }, 'front'],
  'double-sugar-tong-forearm': [{ kind: 'round', end: 'forearm' }, 'front'],
  'double-sugar-tong-arm': [{ kind: 'round', end: 'upper arm' }, 'up'],
  'long-arm-posterior-slab': [{ kind: 'side', side: 1 }, 'up'],
  'coaptation-slab': [{ kind: 'round', end: 'upper arm' }, 'up'],
  'posterior-ankle-slab': [{ kind: 'side', side: 1 }, 'up'],
  'stirrup-slab': [{ kind: 'facing' }, 'up'],
  'posterior-knee-slab': [{ kind: 'side', side: 1 }, 'up'],
};

const main = {
  arm: new Way([...hand, ...forearm, ...upperArm]),
  leg: new Way([...foot, ...leg]),
} as const;
const thumbs = {
  up: new Way([...thumbUp, ...forearm]),
  front: new Way([...thumbInFront, ...forearm]),
} as const;

type Type = Pick<Immobilisation, 'id' | 'name' | 'kind' | 'limb' | 'from' | 'to'>;

/** The stretch of a way that a type covers. */
function stretch(way: Way, type: Type): readonly [number, number] {
  const place = ({ landmark, offset }: Type['from']['used']) => way.find(landmark, offset[0]);
  return [place(type.from.used) ?? way.find('metacarpal heads') ?? 0, place(type.to.used) ?? way.length];
}

function castOn(type: Type, thumb: 'up' | 'front'): string {
  const way = main[type.limb];
  const [from, to] = stretch(way, type);
  const parts = [shape(way.part(from, to), 2.4, 'flat')];
  if (type.limb === 'leg') parts.push(shape(instep, 2.4));
  const tip = thumbs[thumb].find(type.from.used.landmark);
  if (tip !== undefined && type.id.startsWith('thumb'))
    parts.push(shape(thumbs[thumb].part(tip, thumbs[thumb].find('wrist crease') as number), 2.4, 'flat'));
  return solid(parts.join(''), 'cast');
}

function slabOn(type: Type, course: Course, thumb: 'up' | 'front'): string {
  const way = main[type.limb];
  const [from, to] = stretch(way, type);
  switch (course.kind) {
    case 'side':
      return track(beside(way.between(from, to), course.side), 'slab');
    case 'thumb': {
      const along = thumbs[thumb];
      const [tip, end] = stretch(along, type);
      return track(beside(along.between(tip, end), -1), 'slab');
    }
    case 'facing': {
      const ankle = way.find('lateral malleolus') as number;
      const down = way.between(to, ankle).map(({ x, y }): Point => [x, y]);
      return track([...down, [112, 209]], 'slab facing');
    }
    case 'round': {
      if (course.end === 'forearm') {
        const only = new Way([...hand, ...forearm]);
        const elbow = only.length - 1;
        const [start, back] = [
          only.find(type.from.used.landmark) ?? 0,
          only.find(type.to.used.landmark) ?? 0,
        ];
        return track(
          [
            ...beside(only.between(start, elbow), 1),
            ...roundEnd(only.at(elbow), 1),
            ...beside(only.between(elbow, back), -1),
          ],
          'slab',
        );
      }
      // From the shoulder down to the elbow, so that what comes at its end is the elbow.
      const only = new Way([...[...upperArm].reverse(), forearm.at(-1) as Node]);
      const elbow = only.length - 1;
      const find = ({ landmark, offset }: Type['from']['used']) => only.find(landmark, -offset[0]) ?? 0;
      const inner = type.from.used.landmark === 'axilla' ? type.from : type.to;
      const outer = inner === type.from ? type.to : type.from;
      return track(
        [
          ...beside(only.between(find(inner.used), elbow), 1),
          ...roundEnd(only.at(elbow), 1),
          ...beside(only.between(elbow, find(outer.used)), -1),
        ],
        'slab',
      );
    }
  }
}

function bare(limb: 'arm' | 'leg', thumb: 'up' | 'front'): string {
  if (limb === 'leg') return solid(shape([...foot, ...leg]) + shape(instep), 'flesh');
  const digit = thumb === 'up' ? thumbUp : thumbInFront;
  const lobe = shape([...digit, [[], 150, 138, 8.5]]);
  const arm = shape([...hand, ...forearm, ...upperArm]);
  return thumb === 'up' ? solid(arm + lobe, 'flesh') : solid(arm, 'flesh') + solid(shape(digit), 'flesh');
}

/** A girth or a length to show on the limb, named by a short sign. */
export interface Mark {
  readonly sign: string;
  readonly at: { readonly landmark: Landmark; readonly offset: number };
  /** The other end of a length, or of what a share is taken of. */
  readonly to?: Landmark;
  /** How far along from the one to the other a girth is taken. */
  readonly share?: number;
  readonly onThumb?: boolean;
  /** Path of the field that holds it. */
  readonly field: string;
}

/** Left edge and width, top and height of what is seen of each limb. */
const box = { arm: [22, 196, 0, 180], leg: [62, 150, -2, 230] } as const;

/** The first of some places for a sign that is clear of those that stand already. */
function clear(places: readonly Point[], taken: Point[]): number {
  const far = ([x, y]: Point): boolean => taken.every(([tx, ty]) => (tx - x) ** 2 + (ty - y) ** 2 >= 15 ** 2);
  const n = Math.max(0, places.findIndex(far));
  taken.push(places[n] as Point);
  return n;
}

function marked(
  mark: Mark,
  limb: 'arm' | 'leg',
  thumb: 'up' | 'front',
  side: 'left' | 'right',
  taken: Point[],
): string {
  const way = mark.onThumb ? thumbs[thumb] : main[limb];
  const start = way.find(mark.at.landmark, mark.at.offset);
  const end = mark.to === undefined ? undefined : way.find(mark.to);
  if (start === undefined) return '';
  const { share = 0 } = mark;
  const s = start + share * ((end ?? start) - start);
  const spot = way.at(s);
  // Turned back where the limb is mirrored, so that it reads.
  const turn =
    side === 'left' ? (x: number) => ({ transform: `matrix(-1 0 0 1 ${n(2 * x)} 0)` }) : () => ({});
  const text = (x: number, y: number): string =>
    el('circle', { cx: x, cy: y, r: 7.4, class: 'sign' }) +
    el('text', { x, y: y + 3.6, class: 'sign-text', ...turn(x) }, mark.sign);
  // At the base of the thumb the sign stands on its other side, clear of the wrist's.
  const hand = mark.onThumb && mark.to === undefined && mark.at.landmark === 'base of the thumb' ? -1 : 1;
  const away = (of: Spot, by: number): Point => [of.x - hand * by * of.ty, of.y + hand * by * of.tx];
  if (mark.to === undefined || mark.share !== undefined) {
    // Farther out, or on the other side, where another sign stands.
    const outward = [12, 20, 27, 34].map((by) => spot.r + by).concat(-spot.r - 22);
    const by = outward[
      clear(
        outward.map((by) => away(spot, by)),
        taken,
      )
    ] as number;
    const [a, b] = [away(spot, Math.max(spot.r + 3, by - 9)), away(spot, Math.min(-spot.r - 3, by + 9))];
    const [tx, ty] = away(spot, by);
    const ring = el('path', { class: 'ring', d: `M${n(a[0])} ${n(a[1])}L${n(b[0])} ${n(b[1])}` });
    return el('g', { class: 'mark', 'data-for': mark.field }, ring + text(tx, ty));
  }
  if (end === undefined) return '';
  const along = way.between(s, end);
  const points = along.map((of) => away(of, -of.r - 8));
  const middles = [0.5, 0.62, 0.38, 0.74, 0.26].map((share): Point => {
    const of = way.at(s + share * (end - s));
    return away(of, -of.r - 8);
  });
  const middle = middles[clear(middles, taken)] as Point;
  const run = el('path', {
    class: 'run',
    d: `M${points.map(([x, y]) => `${n(x)} ${n(y)}`).join('L')}`,
  });
  return el('g', { class: 'mark', 'data-for': mark.field }, run + text(...middle));
}

/** A limb in outline with what a type of splint or cast covers shaded, and marks where it is measured. */
export function limbDrawing(
  type: Type,
  side: 'left' | 'right' = 'right',
  marks: readonly Mark[] = [],
): string {
  const [course, thumb] = courses[type.id] ?? [undefined, 'up' as const];
  const covered = course ? slabOn(type, course, thumb) : castOn(type, thumb);
  const flesh = bare(type.limb, thumb);
  const over =
    course && thumb === 'up' && type.limb === 'arm' && course.kind === 'side' && course.side === -1
      ? solid(shape(thumbUp), 'flesh')
      : '';
  const taken: Point[] = [];
  const signs = marks.map((mark) => marked(mark, type.limb, thumb, side, taken));
  const all = flesh + covered + over + signs.join('');
  const [x, width, y, height] = box[type.limb];
  // A left limb is the mirror image.
  const mirrored = side === 'left' ? { transform: `matrix(-1 0 0 1 ${2 * x + width} 0)` } : {};
  return el(
    'svg',
    {
      viewBox: `${x} ${y} ${width} ${height}`,
      class: `limb-drawing ${type.limb}`,
      'aria-hidden': 'true',
      focusable: 'false',
    },
    el('g', mirrored, all),
  );
}
