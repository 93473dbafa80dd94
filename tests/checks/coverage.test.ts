import { create, all as everything } from 'mathjs';
import { Outcome, Solver } from 'odex';
import {
  cm,
  degrees,
  edgeMismatch,
  figureOfEight,
  geodesicAdvance,
  helix,
  layerMap,
  mm,
  overlapFor,
  ratio,
} from 'swathe';
import { Curve, Vector3 } from 'three';
import { describe, expect, test } from 'vitest';

const math = create(everything ?? {});
const near = (got: number, other: number, relative: number): void =>
  expect(Math.abs(got / other - 1), `${got} and ${other}`).toBeLessThan(relative);

type Vector = readonly [number, number, number];

/** Length between two parameters of a curve in space, which odex adds up from a derivative by differences. */
function lengthOf(curve: (t: number) => Vector, from: number, to: number): number {
  const step = 1e-4 * (to - from);
  const speed = (t: number): number => {
    const [a, b, c, d] = [-2, -1, 1, 2].map((k) => curve(t + k * step)) as [Vector, Vector, Vector, Vector];
    // Fourth-order central difference, coordinate by coordinate.
    return Math.hypot(
      ...[0, 1, 2].map((n) => {
        const [p, q, r, s] = [a, b, c, d].map((v) => v[n] as number) as [number, number, number, number];
        return (p - 8 * q + 8 * r - s) / (12 * step);
      }),
    );
  };
  return solved((t) => [speed(t)], [0], from, to)[0] as number;
}

function solved(
  f: (x: number, y: number[]) => number[],
  y: number[],
  from: number,
  to: number,
  tolerance = 1e-12,
): number[] {
  const solver = new Solver(y.length);
  solver.relativeTolerance = tolerance;
  solver.absoluteTolerance = tolerance;
  solver.maxSteps = 100_000;
  const { y: end, outcome } = solver.solve(f, from, y, to);
  expect(outcome).toBe(Outcome.Converged);
  return end;
}

describe('odex: a flat tape by the differential equation of a geodesic', () => {
  /** Along the bandage: axis, radius' slope k, angle round, and their speeds. Nothing of cone, sector or Clairaut. */
  const straightAhead = (c0: number, c1: number, h: number, lead: number) => {
    const k = (c1 - c0) / (2 * Math.PI * h);
    const r0 = c0 / (2 * Math.PI);
    // Surface (r cos u, r sin u, z), r = r0 + k z. Its geodesics: r²u' changes as no force turns it, z'' = k r u'² / (1 + k²).
    const change = (_: number, [z = 0, , dz = 0, du = 0]: number[]): number[] => {
      const r = r0 + k * z;
      return [dz, du, (k * r * du * du) / (1 + k * k), (-2 * k * dz * du) / r];
    };
    const start = [0, 0, Math.sin(lead) / Math.hypot(1, k), Math.cos(lead) / r0];
    const after = (length: number): number[] =>
      length === 0 ? start : solved(change, start, 0, length, 1e-13);
    const place = ([z = 0, u = 0]: number[]): Vector => {
      const r = r0 + k * z;
      return [r * Math.cos(u), r * Math.sin(u), z];
    };
    return { after, place, radius: (z: number) => r0 + k * z, slant: Math.hypot(1, k) };
  };

  const cases: [number, number, number, number, number][] = [
    [17, 26, 20, 7.5, 0.5],
    [22, 38, 30, 10, 0.5],
    [20, 23, 40, 5, 0.75],
    [26, 25.2, 60, 7.5, 0.5],
    [30, 29.9, 25, 10, 0.25],
    [20, 20.0001, 30, 7.5, 0.5],
    [20, 20, 30, 7.5, 0.5],
  ];

  test.each(cases)('turns from %d to %d cm over %d cm, %d cm wide at %d', (c0, c1, h, w, f) => {
    const { turns, leadAngle } = geodesicAdvance({
      first: cm(c0),
      last: cm(c1),
      apart: cm(h),
      width: cm(w),
      overlap: ratio(f),
    }).value;
    const way = straightAhead(10 * c0, 10 * c1, 10 * h, Math.asin((w * (1 - f)) / c0));
    near(Math.sin((leadAngle * Math.PI) / 180), (w * (1 - f)) / c0, 1e-12);
    expect(turns.length).toBeGreaterThan(0);
    for (const { turn, at, girth, leadAngle, length } of turns) {
      const [z = 0, u = 0, dz = 0, du = 0] = way.after(length);
      near(u, 2 * Math.PI * turn, 1e-9);
      near(at, z, 1e-9);
      near(girth, 2 * Math.PI * way.radius(z), 1e-9);
      near(Math.tan((leadAngle * Math.PI) / 180), (dz * way.slant) / (way.radius(z) * du), 1e-8);
    }
  });

  const turningBack: typeof cases = [
    [26, 17, 60, 7.5, 0.5],
    [30, 20, 25, 10, 0.25],
  ];

  test.each([...cases, ...turningBack])(
    'where it ends, from %d to %d cm over %d cm, %d cm wide at %d',
    (c0, c1, h, w, f) => {
      const inputs = {
        first: cm(c0),
        last: cm(c1),
        apart: cm(h),
        width: cm(w),
        overlap: ratio(f),
      };
      const { end } = geodesicAdvance(inputs).value;
      const way = straightAhead(10 * c0, 10 * c1, 10 * h, Math.asin((w * (1 - f)) / c0));
      const [z = 0, u = 0, dz = 0] = way.after(end.length);
      near(u, 2 * Math.PI * end.turns, 1e-9);
      if (end.kind === 'turns back') {
        expect(Math.abs(dz)).toBeLessThan(1e-9);
        near(z, end.at, 1e-9);
      } else near(z, 10 * h, 1e-9);
    },
  );

  test('the shortest way in space from a place to the next turn, on a cone so slight that skin and space agree', () => {
    const [c0, c1, h, w, f] = [600, 620, 400, 60, 0.5];
    const { turns } = geodesicAdvance({
      first: cm(c0 / 10),
      last: cm(c1 / 10),
      apart: cm(h / 10),
      width: cm(w / 10),
      overlap: ratio(f),
    }).value;
    const way = straightAhead(c0, c1, h, Math.asin((w * (1 - f)) / c0));
    const [first] = turns;
    const from = way.place(way.after(0));
    const distance = (length: number): number => {
      const to = way.place(way.after(length));
      return Math.hypot(...to.map((x, n) => x - (from[n] as number)));
    };
    let [low, high] = [0.9 * (first?.length ?? 0), 1.1 * (first?.length ?? 0)];
    for (let n = 0; n < 80; n++) {
      const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
      if (distance(a) < distance(b)) high = b;
      else low = a;
    }
    // A straight line in space cuts under a skin of 95 mm radius by about (spacing · sin α)² / 24 r²: far below 1e-5.
    near(first?.spacing ?? 0, distance((low + high) / 2), 1e-5);
  });

  test('a gap opens where the distance to the next turn, found by the equation, has grown to the width', () => {
    for (const [c0, c1, h, w, f] of [
      [17, 26, 20, 7.5, 0.5],
      [20, 23, 60, 5, 0.75],
    ] as const) {
      const { gap } = geodesicAdvance({
        first: cm(c0),
        last: cm(c1),
        apart: cm(h),
        width: cm(w),
        overlap: ratio(f),
      }).value;
      if (gap.kind !== 'opens') throw new Error('no gap');
      const way = straightAhead(10 * c0, 10 * c1, 10 * h, Math.asin((w * (1 - f)) / c0));
      const round = (turns: number): number[] => {
        let [low, high] = [0, 1e4];
        for (let n = 0; n < 60; n++) {
          const middle = (low + high) / 2;
          if ((way.after(middle)[1] as number) < 2 * Math.PI * turns) low = middle;
          else high = middle;
        }
        return way.after((low + high) / 2);
      };
      const [z = 0] = round(gap.after);
      near(z, gap.at, 1e-8);
      const [on = 0, , dz = 0, du = 0] = round(gap.after + 1);
      // On the skin, a triangle: up the straight side of the cone to the next turn, and square from that back to the first.
      const up = (on - z) * way.slant;
      const lead = Math.atan2(dz * way.slant, way.radius(on) * du);
      near(up * Math.cos(lead), 10 * w, 1e-7);
    }
  });
});

describe('three and odex: figures of eight in space', () => {
  /** From the crossing half round to the back and on to the crossing; the part's axis along `axis`, its front along `front`. */
  class Loop extends Curve<Vector3> {
    readonly at: (t: number) => Vector3;

    constructor(girth: number, rise: number, axis: Vector3, front: Vector3) {
      super();
      const r = girth / (2 * Math.PI);
      const side = axis.clone().cross(front);
      this.at = (t) =>
        new Vector3()
          .addScaledVector(front, r * (Math.cos(2 * Math.PI * t) - 1))
          .addScaledVector(side, r * Math.sin(2 * Math.PI * t))
          .addScaledVector(axis, rise * (1 - Math.abs(1 - 2 * t)));
    }

    override getPoint(t: number): Vector3 {
      return this.at(t);
    }
  }

  test.each([
    [24, 25, 5, 6, 90],
    [24, 25, 5, 6, 150],
    [6, 20, 2, 3, 45],
    [28, 26, 0, 8, 120],
  ])('girths of %d and %d cm, rises of %d and %d cm, at a joint of %d°', (a, b, ha, hb, joint) => {
    const bend = (joint * Math.PI) / 180;
    // Both parts hang together at the crossing, the origin; the one below is turned about the fold, the x axis.
    const above = new Loop(a, ha, new Vector3(0, 0, 1), new Vector3(0, 1, 0));
    const axis = new Vector3(0, Math.sin(bend), Math.cos(bend));
    const below = new Loop(b, hb, axis, new Vector3(0, -Math.cos(bend), Math.sin(bend)));
    expect(above.getPoint(0).distanceTo(below.getPoint(1))).toBeLessThan(1e-12);
    const measured = [above, below].reduce((sum, curve) => {
      curve.arcLengthDivisions = 4000;
      return sum + curve.getLength();
    }, 0);
    const { perFigure } = figureOfEight({
      above: cm(a),
      below: cm(b),
      riseAbove: cm(ha),
      riseBelow: cm(hb),
      width: cm(7.5),
      overlap: ratio(0.5),
      figures: 1,
    }).value;
    near(perFigure, 10 * measured, 1e-6);
  });

  test('no other way by the same backs is shorter; one that is level there is a few hundredths longer', () => {
    const [girth, rise] = [240, 50];
    const r = girth / (2 * Math.PI);
    const straight = figureOfEight({
      above: cm(24),
      below: cm(24),
      riseAbove: cm(5),
      riseBelow: cm(5),
      width: cm(7.5),
      overlap: ratio(0.5),
      figures: 1,
    }).value.perFigure;
    const half = (up: (x: number) => number): number =>
      lengthOf((t) => [r * Math.cos(t), r * Math.sin(t), rise * up(t / Math.PI)], 0, Math.PI);
    near(4 * half((x) => x), straight, 1e-9);
    const level = 4 * half((x) => Math.sin((Math.PI * x) / 2));
    expect(level / straight).toBeGreaterThan(1);
    expect(level / straight).toBeLessThan(1.02);
    for (const bulge of [-0.3, -0.05, 0.05, 0.3])
      expect(4 * half((x) => x + bulge * Math.sin(Math.PI * x))).toBeGreaterThan(straight);
  });
});

describe('odex: edges of a band on a cone, as curves in space', () => {
  /** The band's edges lie half a width from a middle line of constant lead angle, square to it on the skin. */
  const edge = (c0: number, c1: number, h: number, width: number, lead: number, side: number) => {
    const rise = (c1 - c0) / (2 * Math.PI);
    const slant = Math.hypot(rise, h);
    const sine = rise / slant;
    const tip = c0 / (2 * Math.PI * sine);
    return (u: number): Vector => {
      // Middle line: distance from the tip grows by tan(lead) per angle of the rolled-out cone.
      const v = u * sine;
      const s = tip * Math.exp(v * Math.tan(lead));
      const [x, y] = [s * Math.cos(v), s * Math.sin(v)];
      // Square to the course on the flat sheet, towards the thick end.
      const square = v - lead;
      const ex = x + (side * width * Math.cos(square)) / 2;
      const ey = y + (side * width * Math.sin(square)) / 2;
      const [far, turned] = [Math.hypot(ex, ey), Math.atan2(ey, ex)];
      const whole = turned + 2 * Math.PI * Math.round((v - turned) / (2 * Math.PI));
      const [r, w] = [far * sine, whole / sine];
      return [r * Math.cos(w), r * Math.sin(w), far * Math.sqrt(1 - sine * sine)];
    };
  };

  test.each([
    [17, 26, 20, 7.5, 0],
    [22, 38, 30, 10, 0],
    [17, 26, 20, 7.5, 13],
    [22, 38, 30, 10, 35],
    [20, 21, 30, 5, 60],
  ])('one turn at %d to %d cm over %d cm, %d cm wide, at %d°', (c0, c1, h, w, lead) => {
    const { mismatch, strain, strainAtNarrowest } = edgeMismatch({
      first: cm(c0),
      last: cm(c1),
      apart: cm(h),
      width: cm(w),
      leadAngle: degrees(lead),
      takes: ratio(0.05),
    }).value;
    const a = (lead * Math.PI) / 180;
    const along = (side: number, from: number, to: number): number =>
      lengthOf(edge(c0, c1, h, w, a, side), from, to);
    near(mismatch, 10 * (along(1, 0, 2 * Math.PI) - along(-1, 0, 2 * Math.PI)), 1e-7);
    // A short piece at the thin end, against its middle line.
    const piece = 1e-3;
    const [long, middle] = [along(1, 0, piece), along(0, 0, piece)];
    near(strainAtNarrowest, long / middle - 1, 1e-3);
    near(strain * (c0 + c1), 2 * c0 * strainAtNarrowest, 1e-12);
  });

  test('mathjs: edges of a circular turn are circles', () => {
    for (const [c0, c1, h, w] of [
      [17, 26, 20, 7.5],
      [38, 22, 30, 10],
    ] as const) {
      const circles = math.evaluate(
        `abs(${c1} - ${c0}) * ${w} / sqrt(${h}^2 + ((${c1} - ${c0}) / (2 pi))^2)`,
      ) as number;
      const { mismatch } = edgeMismatch({
        first: cm(c0),
        last: cm(c1),
        apart: cm(h),
        width: cm(w),
        leadAngle: degrees(0),
        takes: ratio(0),
      }).value;
      near(mismatch, 10 * circles, 1e-12);
    }
  });
});

test('the helix at the overlap asked for has the layers wanted, pass by pass, and no more than it says', () => {
  for (let wanted = 1; wanted <= 24; wanted++)
    for (let passes = 1; passes <= 6; passes++) {
      if (wanted > 20 * passes) continue;
      const { overlap, layers, surplus, advance } = overlapFor({
        wanted,
        passes,
        girth: cm(30),
        width: cm(10),
      }).value;
      const laid = helix({ girth: cm(30), width: cm(10), overlap: ratio(overlap) }).value;
      expect(passes * laid.least).toBe(layers);
      expect(passes * laid.most).toBe(layers);
      near(laid.advance, advance, 1e-12);
      expect(layers - wanted).toBe(surplus);
      // One layer less in each pass would fall short.
      expect(passes * (laid.least - 1)).toBeLessThan(wanted);
    }
});

describe('layers of passes that cross, worked by hand on a cylinder', () => {
  type Inputs = Parameters<typeof layerMap>[0];
  type Hand = 'right' | 'left';
  const girth = 200;
  const seam = layerMap.numbers.seam;
  const phasesOf = (...phases: [at: number, hand: Hand][]) =>
    phases.map(([at, hand]) => ({ at: ratio(at), hand }));
  const wrap = (width: number, spacing: number, change: Partial<Inputs> = {}): Inputs => ({
    stations: [0, 400].map((at) => ({ at: mm(at), girth: mm(girth) })),
    from: mm(0),
    to: mm(400),
    width: mm(width),
    overlap: ratio(1 - spacing / width),
    keeps: 'overlap',
    passes: 2,
    startTurns: 0,
    endTurns: 0,
    extra: [],
    stretch: ratio(0),
    wanted: { least: 2, most: 3 },
    ...change,
  });
  /** Bands that lie between the first and the last whole width, where every turn is whole. */
  const inside = (i: Inputs) =>
    layerMap(i).value.bands.filter((b) => b.to > i.width + 1 && b.from < i.to - i.width - 1);

  // 80 mm wide and 60 mm apart each pass lies twice over a third of the girth, and once over the rest.
  const [width, spacing] = [80, 60];
  const cosine = Math.sqrt(1 - (spacing / girth) ** 2);
  const advance = spacing / cosine;
  /** Where the helix's middle begins: a whole width in, less what the slanted bandage reaches. */
  const first = width - width / 2 / cosine;
  /**
   * The doubled thirds meet twice a turn. They share more than a seam while their middles are less than this apart; as they
   * part, a seam's width goes by until they lie as far asunder, and rounding decides on which side that is told.
   */
  const [meet, part] = [1 / 3 - seam / advance, 1 / 3 + seam / advance];
  const edgesFor = (a: number, b: number): number[] =>
    Array.from({ length: 40 }, (_, n) =>
      [-meet, part].map((m) => first + (advance / 2) * (a + b + n - 10 + m)),
    )
      .flat()
      .filter((s) => s > width + 1 && s < 400 - width - 1);

  test.each<[number, number, Hand, Hand]>([
    [0, 0, 'right', 'left'],
    [0.2, 0.45, 'right', 'left'],
    [0.7, 0.11, 'left', 'right'],
  ])('from %d and %d of a turn, one %s and one %s', (a, b, one, other) => {
    const i = wrap(width, spacing, { phases: phasesOf([a, one], [b, other]) });
    const bands = inside(i);
    const wanted = edgesFor(a, b);
    expect(bands.length - 1).toBe(wanted.length);
    for (const [n, s] of wanted.entries()) {
      const { to = 0, most } = bands[n] ?? {};
      expect(Math.min(Math.abs(to - s), Math.abs(to + (most === 4 ? seam : 0) - s))).toBeLessThan(1e-8);
    }
    // 2 + 2 where the thirds meet, 2 + 1 between; somewhere round the limb always 1 + 1.
    for (const { from, to, least, most, mean } of bands) {
      const apart = (2 * ((from + to) / 2 - first)) / advance - a - b;
      expect(least).toBe(2);
      if (from > width && to < 400 - width) {
        expect(most).toBe(Math.abs(apart - Math.round(apart)) < meet ? 4 : 3);
        near(mean, (2 * width) / spacing, 1e-12);
      }
    }
    const { value, steps } = layerMap(i);
    near(value.mean, (2 * width * (400 - width * cosine)) / (spacing * 400), 1e-9);
    near(steps.find((s) => s.name === 'spacing')?.value as number, spacing, 1e-12);
    // A zone says the fewest and the most of all that lies in it: at the edge of the wrap a place is bare.
    const zone = value.thin[0];
    const within = value.bands.filter((band) => band.to <= (zone?.to ?? 0));
    expect(within.length).toBeGreaterThan(1);
    expect([zone?.from, zone?.least, zone?.most]).toEqual([
      0,
      0,
      Math.max(...within.map((band) => band.most)),
    ]);
  });

  test.each<[spacing: number, shift: number, least: number, most: number]>([
    [60, 1 / 3 - 0.005, 2, 3],
    [60, 1 / 3 - 0.05, 2, 4],
    [48, 1 / 3 - 0.005, 3, 4],
    [48, 1 / 3 - 0.05, 2, 4],
  ])(
    'turned the same way a stripe counts from a seam on: %d mm apart, %d of a turn on',
    (q, shift, ...levels) => {
      for (const hand of ['right', 'left'] as const) {
        const bands = inside(wrap(width, q, { phases: phasesOf([0, hand], [shift, hand]) }));
        expect(bands.map(({ least, most }) => [least, most])).toEqual([levels]);
      }
    },
  );

  test('where no stripe is as wide as a seam, the fewest are not above the most, nor past what holds for any placing', () => {
    const close = wrap(12.5, 5, { passes: 4 });
    const phases = phasesOf([0, 'right'], [0.125, 'right'], [0.25, 'right'], [0.375, 'right']);
    for (const { least, most } of inside({ ...close, phases })) {
      expect(least).toBeLessThanOrEqual(most);
      // Two and a half layers a pass.
      expect([least >= 8, most <= 12]).toEqual([true, true]);
    }
  });

  test('edges less than a seam apart, one after the other, are told as one', () => {
    // Of one pass everywhere one or two layers; three circles more, each begun six tenths of a millimetre after the last.
    const extra = [200, 200.6, 201.2].map((at) => ({ at: mm(at), turns: 1 }));
    const bands = inside(wrap(width, spacing, { passes: 1, extra }));
    expect(bands.map(({ least, most }) => [least, most])).toEqual([
      [1, 2],
      [4, 5],
      [1, 2],
    ]);
    near(bands[1]?.from as number, 201.2 - width / 2, 1e-9);
    near(bands[1]?.to as number, 201.2 + width / 2, 1e-9);
  });

  test('bands lie end to end where a circular turn ends a hair before or after passes cross', () => {
    const [crossing] = edgesFor(0.2, 0.45).filter((s) => s > 150);
    for (const hair of [-5e-7, 5e-7]) {
      const extra = [{ at: mm((crossing as number) + hair - width / 2), turns: 1 }];
      const { bands } = layerMap(
        wrap(width, spacing, { extra, phases: phasesOf([0.2, 'right'], [0.45, 'left']) }),
      ).value;
      expect(bands.at(-1)?.to).toBe(400);
      for (const [n, { from }] of bands.entries()) expect(from).toBe(n === 0 ? 0 : bands[n - 1]?.to);
    }
  });

  test('no circular turn, wherever it is not laid, changes nothing', () => {
    // A band of two seams, which a cut near its middle would part into one that counts and one that does not.
    const narrow = wrap(width, spacing, { phases: phasesOf([0, 'right'], [0, 'left']) });
    const { bands } = layerMap(narrow).value;
    const band = bands.find((b) => b.to - b.from < 2.1 * seam);
    const extra = [{ at: mm((band?.from ?? Number.NaN) + 0.8 * seam + width / 2), turns: 0 }];
    expect(layerMap({ ...narrow, extra }).value.bands).toEqual(bands);
  });
});

test('turns crowd at the waist of a limb where the lead angle is kept: a layer more, as far as the logarithm says', () => {
  const [thick, thin, half, w] = [260, 200, 150, 75];
  const skin = Math.hypot(half, (thick - thin) / (2 * Math.PI));
  const slope = (thick - thin) / skin;
  const overlap = 0.592;
  const lead = Math.asin((w * (1 - overlap)) / thick);
  const reach = w / 2 / Math.cos(lead);
  // Turns over a place y from the waist, the integral of 1 / (c tan α) from edge to edge, less a seam.
  const layers = (y: number): number =>
    Math.log(((thin + slope * reach) ** 2 - (slope * y) ** 2) / thin ** 2) / (slope * Math.tan(lead)) -
    layerMap.numbers.seam / ((thin + slope * y) * Math.tan(lead));
  expect(layers(0)).toBeGreaterThan(3.01);
  expect(layers(reach)).toBeLessThan(2.99);
  let [low, high] = [0, reach];
  while (high - low > 1e-10) {
    const y = (low + high) / 2;
    if (layers(y) > 3) low = y;
    else high = y;
  }
  const { bands } = layerMap({
    stations: [
      { at: mm(0), girth: mm(thick) },
      { at: mm(half), girth: mm(thin) },
      { at: mm(2 * half), girth: mm(thick) },
    ],
    from: mm(0),
    to: mm(2 * half),
    width: mm(w),
    overlap: ratio(overlap),
    keeps: 'lead angle',
    passes: 1,
    startTurns: 0,
    endTurns: 0,
    extra: [],
    stretch: ratio(0),
    wanted: { least: 2, most: 3 },
  }).value;
  const crowded = bands.filter((b) => b.most === 4);
  expect(crowded.map((b) => b.least)).toEqual([3]);
  for (const [got, wanted] of [
    [crowded[0]?.from, half - (low * half) / skin],
    [crowded[0]?.to, half + (low * half) / skin],
  ] as [number, number][])
    expect(Math.abs(got - wanted)).toBeLessThan(1e-7);
});

test('on a cone a kept advance lays as many turns as it goes into the way of the bandage’s middle', () => {
  const [thin, thick, long, w, f] = [170, 305, 300, 75, 0.45];
  const skin = Math.hypot(long, (thick - thin) / (2 * Math.PI));
  const advance = thin * Math.tan(Math.asin((w * (1 - f)) / thin));
  const girth = (s: number): number => thin + ((thick - thin) * s) / skin;
  /** Where the middle is once the edge on one side of it has come to a place. */
  const middle = (edge: number, side: 1 | -1): number => {
    let [low, high] = [edge - w, edge + w];
    while (high - low > 1e-11) {
      const s = (low + high) / 2;
      const at = s + (side * w) / 2 / Math.cos(Math.atan(advance / girth(s)));
      if (at < edge) low = s;
      else high = s;
    }
    return low;
  };
  const { turns } = layerMap({
    stations: [
      { at: mm(0), girth: mm(thin) },
      { at: mm(long), girth: mm(thick) },
    ],
    from: mm(0),
    to: mm(long),
    width: mm(w),
    overlap: ratio(f),
    keeps: 'advance',
    passes: 1,
    startTurns: 0,
    endTurns: 0,
    extra: [],
    stretch: ratio(0),
    wanted: { least: 0, most: 60 },
  }).value;
  near(turns, (middle(skin - w, -1) - middle(w, 1)) / advance, 1e-9);
});
