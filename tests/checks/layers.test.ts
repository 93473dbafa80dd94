import { create, all as everything, type MathNumericType } from 'mathjs';
import { Outcome, Solver } from 'odex';
import {
  addedPlies,
  castMass,
  curvedSlab,
  digits12,
  fabricArea,
  gramsPerSquareMetre,
  megapascals,
  mm,
  ratio,
  roundedEnds,
  slabStiffness,
  squareMetres,
} from 'swathe';
import { Path, Shape, ShapeUtils, type Vector2 } from 'three';
import { describe, expect, test } from 'vitest';

const math = create(everything ?? {});
const same = (got: number, other: number): void => expect(digits12(got)).toBe(digits12(other));
const near = (got: number, other: number, relative: number): void =>
  expect(Math.abs(got / other - 1), `${got} and ${other}`).toBeLessThan(relative);

/** Integrals of several functions, by a solver of differential equations. */
function integrals(of: (x: number) => number[], from: number, to: number): number[] {
  const size = of(from).length;
  const solver = new Solver(size);
  solver.absoluteTolerance = 1e-11;
  solver.relativeTolerance = 1e-11;
  const { y, outcome } = solver.solve(of, from, Array<number>(size).fill(0), to);
  expect(outcome).toBe(Outcome.Converged);
  return y;
}

type Run = readonly [plies: number, thickness: number, modulus: number];

const slabs: readonly (readonly Run[])[] = [
  [[8, 0.5, 1]],
  [
    [1, 1, 5000],
    [1, 3, 1000],
    [1, 1, 5000],
  ],
  [
    [5, 0.45, 900],
    [3, 0.8, 2100],
    [1, 0.3, 40],
    [4, 0.5, 900],
  ],
];

const stiffness = (width: number, runs: readonly Run[]) =>
  slabStiffness({
    width: mm(width),
    layers: runs.map(([plies, t, e]) => ({ plies, thickness: mm(t), modulus: megapascals(e) })),
  }).value;

describe.each(slabs.map((runs) => ({ runs })))('a flat slab of $runs', ({ runs }) => {
  const width = 73;
  const got = stiffness(width, runs);

  test('bonded, by the matrix of stretching and bending, whose parts odex integrates and mathjs inverts', () => {
    let [a, b, d] = [0, 0, 0];
    let face = 0;
    for (const [plies, t, e] of runs) {
      const next = face + plies * t;
      const [stretch = 0, both = 0, bend = 0] = integrals((z) => [e, e * z, e * z * z], face, next);
      [a, b, d] = [a + stretch, b + both, d + bend];
      face = next;
    }
    const flexible = math.inv([
      [a, b],
      [b, d],
    ]) as number[][];
    near(got.bonded, width / (flexible[1]?.[1] ?? Number.NaN), 1e-9);
    near(got.axis, b / a, 1e-9);
  });

  test('bonded, by fine strips', () => {
    const strips = runs.flatMap(([plies, t, e]) =>
      Array.from({ length: 2000 }, () => ({ e, deep: (plies * t) / 2000 })),
    );
    let face = 0;
    const placed = strips.map((strip) => {
      face += strip.deep;
      return { ...strip, z: face - strip.deep / 2 };
    });
    const total = (of: (strip: (typeof placed)[number]) => number) => placed.reduce((s, x) => s + of(x), 0);
    const axis = total((x) => x.e * x.deep * x.z) / total((x) => x.e * x.deep);
    near(got.bonded, width * total((x) => x.e * x.deep * (x.z - axis) ** 2), 1e-5);
  });

  test('unbonded, as exact fractions', () => {
    const own = runs.map(([n, t, e]) =>
      math.evaluate(`fraction(${width} * ${n} * ${e}) * fraction(${t})^3 / 12`),
    );
    same(got.unbonded, math.number(own.reduce((s, x) => math.add(s, x) as MathNumericType)) as number);
  });
});

/** A triangulated outline's area and its second moment about the level axis through its centroid. */
function sectionOf(outline: Shape, fine: number) {
  const { shape, holes } = outline.extractPoints(fine);
  const points = [shape, ...holes].flat();
  let [a, s, j] = [0, 0, 0];
  for (const corners of ShapeUtils.triangulateShape(shape, holes)) {
    const [p, q, r] = corners.map((n) => points[n] as Vector2) as [Vector2, Vector2, Vector2];
    const part = Math.abs((q.x - p.x) * (r.y - p.y) - (r.x - p.x) * (q.y - p.y)) / 2;
    a += part;
    s += (part * (p.y + q.y + r.y)) / 3;
    j += (part * (p.y * p.y + q.y * q.y + r.y * r.y + p.y * q.y + q.y * r.y + r.y * p.y)) / 6;
  }
  return { area: a, secondMoment: j - (s * s) / a };
}

const bends = [
  [60, 0.25, 4],
  [60, 0.5, 4],
  [87.3, 0.62, 7.5],
  [40, 0.9, 11],
  [300, 0.05, 3],
] as const;

describe.each(bends)('a slab on a limb of %d mm diameter, %d of the way round, %d mm thick', (bore, k, h) => {
  const [inner, outer] = [bore / 2, bore / 2 + h];
  const got = curvedSlab({ girth: mm(Math.PI * bore), share: ratio(k), thickness: mm(h) }).value;

  test('by odex, integrating over radius and angle about the centre of the limb', () => {
    const [a = 0, s = 0, j = 0] = integrals((r) => [r, r * r, r * r * r], inner, outer);
    const [one = 0, c = 0, cc = 0] = integrals(
      (x) => [1, Math.cos(x), Math.cos(x) ** 2],
      -Math.PI * k,
      Math.PI * k,
    );
    // What is subtracted is up to a million times what is left.
    near(got.secondMoment, j * cc - (s * c) ** 2 / (a * one), 1e-5);
  });

  test('by three, as an outline cut into triangles', () => {
    const [from, to] = [Math.PI * (0.5 - k), Math.PI * (0.5 + k)];
    const outline = new Shape();
    outline.absarc(0, 0, outer, from, to, false);
    outline.absarc(0, 0, inner, to, from, true);
    const { area, secondMoment } = sectionOf(outline, 2000);
    near(got.secondMoment, secondMoment, 2e-5);
    near(got.flat, (area * h * h) / 12, 1e-5);
  });
});

test.each([
  [60, 3],
  [100, 4],
  [85, 0.8],
])('a full tube on %d mm, %d mm thick, by three as a disc with a hole', (bore, h) => {
  const disc = new Shape();
  disc.absarc(0, 0, bore / 2 + h, 0, 2 * Math.PI, false);
  const hole = new Path();
  hole.absarc(0, 0, bore / 2, 0, 2 * Math.PI, true);
  disc.holes.push(hole);
  const { secondMoment } = sectionOf(disc, 4000);
  const got = curvedSlab({ girth: mm(Math.PI * bore), share: ratio(1), thickness: mm(h) }).value;
  near(got.secondMoment, secondMoment, 1e-5);
  same(got.secondMoment, math.evaluate(`pi / 4 * (${bore / 2 + h}^4 - ${bore / 2}^4)`) as number);
});

test.each([
  [10, 12],
  [8, 14],
  [15, 6],
])('from %d plies to %d, as the flat slab of the other formula', (before, after) => {
  const { mass, stiffness: stiff, strength, bond } = addedPlies({ before, after }).value;
  const [one, other] = [before, after].map((n) => stiffness(75, [[n, 0.47, 3]])) as [
    ReturnType<typeof stiffness>,
    ReturnType<typeof stiffness>,
  ];
  same(stiff, other.bonded / one.bonded);
  same(mass, other.unbonded / one.unbonded);
  same(bond.stiffness, other.ratio);
  // Moment at which the outer face reaches its strength: EI over the distance from the axis.
  same(strength, other.bonded / other.axis / (one.bonded / one.axis));
  same(bond.strength, other.bonded / other.axis / (other.unbonded / (other.thickness / after / 2)));
});

test.each([
  [1, 120, 120, 25],
  [10, 100, 300, 20],
  [6, 76.2, 76.2, 38.1],
])('%d plies of %d by %d mm with corners of %d mm, by three', (plies, b, l, r) => {
  const outline = new Shape();
  outline.moveTo(r, 0);
  outline.absarc(b - r, r, r, -Math.PI / 2, 0, false);
  outline.absarc(b - r, l - r, r, 0, Math.PI / 2, false);
  outline.absarc(r, l - r, r, Math.PI / 2, Math.PI, false);
  outline.absarc(r, r, r, Math.PI, 1.5 * Math.PI, false);
  const { area } = sectionOf(outline, 1000);
  near(fabricArea({ plies, width: mm(b), length: mm(l), corner: mm(r) }).value.kept, plies * area, 1e-6);
});

describe.each([
  [10, 100, 300, 20, 50],
  [1, 75, 250, 0, 37.5],
  [7, 120, 60, 60, 0],
  [3, 82.5, 240, 13, 0],
])('%d plies of %d by %d mm with ends of %d and %d mm', (plies, b, l, p, d) => {
  const { ply, kept, waste } = roundedEnds({
    plies,
    width: mm(b),
    length: mm(l),
    proximal: mm(p),
    distal: mm(d),
  }).value;

  test('by three, as an outline cut into triangles', () => {
    const outline = new Shape();
    outline.moveTo(p, 0);
    outline.absarc(l - d, d, d, -Math.PI / 2, 0, false);
    outline.absarc(l - d, b - d, d, 0, Math.PI / 2, false);
    outline.absarc(p, b - p, p, Math.PI / 2, Math.PI, false);
    outline.absarc(p, p, p, Math.PI, 1.5 * Math.PI, false);
    near(ply, sectionOf(outline, 1000).area, 1e-6);
  });

  test('by odex, as its width added up along it', () => {
    // An arc is walked by its angle: by its length it would begin with an edge too steep for a solver.
    const end = (r: number): number =>
      integrals((t) => [(b - 2 * r * (1 - Math.cos(t))) * r * Math.cos(t)], 0, Math.PI / 2)[0] ?? Number.NaN;
    near(kept, plies * (end(p) + b * (l - p - d) + end(d)), 1e-9);
    near(kept + waste, plies * b * l, 1e-12);
  });
});

test('mass in other units, by mathjs', () => {
  const { fabric, wet, dry } = castMass({
    area: squareMetres(0.37),
    arealMass: gramsPerSquareMetre(412),
    water: ratio(0.66),
    bound: ratio(0.17),
  }).value;
  const grams = (text: string) =>
    (math.evaluate(`(${text}) to g`) as { toNumber(unit: string): number }).toNumber('g');
  same(fabric, grams('3700 cm^2 * 0.412 kg/m^2'));
  same(wet, grams('3700 cm^2 * 0.412 kg/m^2 * 1.66'));
  same(dry, grams('3700 cm^2 * 0.412 kg/m^2 * 1.17'));
});
