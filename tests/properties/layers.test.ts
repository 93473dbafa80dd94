import fc from 'fast-check';
import {
  type AnyFormula,
  addedPlies,
  buildUp,
  castMass,
  curvedSlab,
  fabricArea,
  immobilisations,
  layersWanted,
  megapascals,
  mm,
  ratio,
  roundedEnds,
  slabStiffness,
} from 'swathe';
import { expect, test } from 'vitest';
import { agrees, answered, between } from '../generators.ts';

type Slab = Parameters<typeof slabStiffness>[0];
type Bend = Parameters<typeof curvedSlab>[0];

const given = { numRuns: Number(process.env['FC_RUNS'] ?? 1000) };
const inputs = <I>(formula: AnyFormula) => answered(formula) as unknown as fc.Arbitrary<I>;
const slab = inputs<Slab>(slabStiffness as AnyFormula);
const bend = inputs<Bend>(curvedSlab as AnyFormula);
const like = fc.record({
  plies: fc.integer({ min: 1, max: 60 }),
  t: between(0.05, 20),
  e: between(0.001, 1e6),
});
const stiff = slabStiffness.compute;
const curved = curvedSlab.compute;
const of = (width: number, plies: number, t: number, e: number): Slab => ({
  width: mm(width),
  layers: [{ plies, thickness: mm(t), modulus: megapascals(e) }],
});

test('bonded is never less stiff than unbonded, and equal for one ply alone', () => {
  fc.assert(
    fc.property(slab, (i) => {
      const { bonded, unbonded, ratio } = stiff(i);
      expect(bonded).toBeGreaterThanOrEqual(unbonded * (1 - 1e-12));
      expect(ratio).toBeGreaterThanOrEqual(1 - 1e-12);
      const one = stiff({ ...i, layers: i.layers.slice(0, 1).map((l) => ({ ...l, plies: 1 })) });
      expect(agrees(one.bonded, one.unbonded)).toBe(true);
    }),
    given,
  );
});

test('like plies: bonded n² times unbonded, n³ times one ply, unbonded n times', () => {
  fc.assert(
    fc.property(like, between(5, 500), ({ plies, t, e }, width) => {
      const [all, one] = [stiff(of(width, plies, t, e)), stiff(of(width, 1, t, e))];
      expect(agrees(all.ratio, plies ** 2)).toBe(true);
      expect(agrees(all.bonded, plies ** 3 * one.bonded)).toBe(true);
      expect(agrees(all.unbonded, plies * one.unbonded)).toBe(true);
      expect(agrees(all.axis, all.thickness / 2)).toBe(true);
    }),
    given,
  );
});

test('a stack turned over is as stiff, with its axis as far from the other face', () => {
  fc.assert(
    fc.property(slab, (i) => {
      const [one, other] = [stiff(i), stiff({ ...i, layers: i.layers.toReversed() })];
      expect(agrees(one.bonded, other.bonded)).toBe(true);
      expect(agrees(one.unbonded, other.unbonded)).toBe(true);
      expect(agrees(one.axis + other.axis, one.thickness)).toBe(true);
      expect(one.axis).toBeGreaterThan(0);
      expect(one.axis).toBeLessThan(one.thickness);
    }),
    given,
  );
});

test('it does not matter how a run of like plies is told', () => {
  fc.assert(
    fc.property(slab, (i) => {
      const split = i.layers.flatMap((l) =>
        l.plies === 1
          ? [l]
          : [
              { ...l, plies: 1 },
              { ...l, plies: l.plies - 1 },
            ],
      );
      fc.pre(split.length <= 20);
      const [one, other] = [stiff(i), stiff({ ...i, layers: split })];
      for (const key of ['bonded', 'unbonded', 'axis', 'thickness'] as const)
        expect(agrees(one[key], other[key]), key).toBe(true);
    }),
    given,
  );
});

test('one more layer on top never makes it less stiff', () => {
  fc.assert(
    fc.property(slab, like, (i, { t, e }) => {
      const more = [...i.layers, { plies: 1, thickness: mm(t), modulus: megapascals(e) }];
      const [less, now] = [stiff(i), stiff({ ...i, layers: more })];
      expect(now.bonded).toBeGreaterThanOrEqual(less.bonded);
      expect(now.unbonded).toBeGreaterThanOrEqual(less.unbonded);
    }),
    given,
  );
});

test('bent, it is less stiff than flat by a trifle at most, and a shallow bend is nearly flat', () => {
  fc.assert(
    fc.property(bend, (i) => {
      const radius = i.girth / (2 * Math.PI) + i.thickness / 2;
      // The spread of the radius is (h/R)²/12 less than that of the height; a bend by α loses α²/3 before 4(αR/h)²α²/15 makes up for it.
      const least = 1 - (1 / 12 + 5 / 48 + 0.001) * (i.thickness / radius) ** 2;
      expect(curved(i).ratio).toBeGreaterThan(least);
      const shallow = curved({ ...i, share: ratio(0.001) }).ratio;
      const rise = radius * (0.001 * Math.PI) ** 2;
      expect(shallow).toBeGreaterThan(least - 1e-9);
      expect(shallow).toBeLessThan(1 + (4 / 15) * (rise / i.thickness) ** 2 + 1e-6);
    }),
    given,
  );
});

test('a thin tube is linear in its layers, a flat slab cubic', () => {
  fc.assert(
    fc.property(between(150, 1200), fc.integer({ min: 2, max: 12 }), (girth, n) => {
      const t = (0.001 * girth) / (2 * Math.PI);
      const tube = (layers: number) =>
        curved({ girth: mm(girth), share: ratio(1), thickness: mm(layers * t) });
      const [one, all] = [tube(1), tube(n)];
      // The mean radius grows by half a layer with each, and the tube with its cube.
      expect(all.secondMoment / one.secondMoment / n).toBeGreaterThan(1);
      expect(all.secondMoment / one.secondMoment / n).toBeLessThan(1 + 3 * n * 0.001);
      expect(all.flat / one.flat / n ** 3).toBeCloseTo(1, 1);
      expect(addedPlies.compute({ before: 1, after: n }).mass).toBe(n);
    }),
    given,
  );
});

test('all the way round it is the tube of every textbook', () => {
  fc.assert(
    fc.property(bend, (i) => {
      const inner = i.girth / (2 * Math.PI);
      const outer = inner + i.thickness;
      const { secondMoment } = curved({ ...i, share: ratio(1) });
      // (a² + b²)(a + b)(a − b), so that the test itself subtracts no fourth powers.
      const tube = (Math.PI / 4) * (outer ** 2 + inner ** 2) * (outer + inner) * i.thickness;
      expect(agrees(secondMoment, tube)).toBe(true);
    }),
    given,
  );
});

test('a second moment grows with the fourth power of size, and a ratio not at all', () => {
  fc.assert(
    fc.property(bend, between(0.2, 5), (i, by) => {
      const large = { ...i, girth: mm(i.girth * by), thickness: mm(i.thickness * by) };
      const [one, other] = [curved(i), curved(large)];
      expect(agrees(other.secondMoment, one.secondMoment * by ** 4)).toBe(true);
      expect(agrees(other.flat, one.flat * by ** 4)).toBe(true);
      expect(agrees(other.ratio, one.ratio)).toBe(true);
    }),
    given,
  );
});

test('adding plies and taking them off again comes back to the start', () => {
  const plies = fc.integer({ min: 1, max: 60 });
  fc.assert(
    fc.property(plies, plies, plies, (a, b, c) => {
      const change = (before: number, after: number) => addedPlies.compute({ before, after });
      for (const key of ['mass', 'strength', 'stiffness'] as const) {
        expect(agrees(change(a, b)[key] * change(b, a)[key], 1)).toBe(true);
        expect(agrees(change(a, b)[key] * change(b, c)[key], change(a, c)[key])).toBe(true);
      }
    }),
    given,
  );
});

test('rounding takes away, at most what lies between a square and its circle', () => {
  fc.assert(
    fc.property(inputs<Parameters<typeof fabricArea>[0]>(fabricArea as AnyFormula), (i) => {
      const { cut, kept } = fabricArea.compute(i);
      expect(kept).toBeLessThanOrEqual(cut * (1 + 1e-12));
      expect(kept).toBeGreaterThanOrEqual((cut * Math.PI) / 4 - 1e-9 * cut);
    }),
    given,
  );
});

const ends = inputs<Parameters<typeof roundedEnds>[0]>(roundedEnds as AnyFormula);

test('ends alike are the rounded corners of the other formula, and square ends its whole piece', () => {
  fc.assert(
    fc.property(ends, (i) => {
      const corner = mm(Math.min(i.proximal, i.distal));
      const alike = roundedEnds.compute({ ...i, proximal: corner, distal: corner });
      const other = fabricArea.compute({ ...i, corner });
      expect(agrees(alike.kept, other.kept)).toBe(true);
      expect(agrees(alike.kept + alike.waste, other.cut)).toBe(true);
      const square = roundedEnds.compute({ ...i, proximal: mm(0), distal: mm(0) });
      expect([square.kept, square.waste]).toEqual([i.plies * square.ply, 0]);
      expect(agrees(square.kept, other.cut)).toBe(true);
    }),
    given,
  );
});

test('what is left and what is cut away are the whole, and a rounder end leaves less', () => {
  fc.assert(
    fc.property(ends, between(0, 1), (i, part) => {
      const { kept, waste } = roundedEnds.compute(i);
      expect(agrees(kept + waste, i.plies * i.width * i.length)).toBe(true);
      for (const end of ['proximal', 'distal'] as const) {
        const squarer = roundedEnds.compute({ ...i, [end]: i[end] * part });
        expect(squarer.kept).toBeGreaterThanOrEqual(kept * (1 - 1e-12));
        expect(squarer.waste).toBeLessThanOrEqual(waste);
      }
    }),
    given,
  );
});

test('half-round ends are the limit: each takes away a strip of (4 − π)/8 of the width', () => {
  fc.assert(
    fc.property(ends, (i) => {
      const most = (1 - Math.PI / 4) * i.width ** 2 * i.plies;
      expect(roundedEnds.compute(i).waste).toBeLessThanOrEqual(most * (1 + 1e-12));
      const half = mm(i.width / 2);
      const round = roundedEnds.compute({ ...i, length: mm(i.width), proximal: half, distal: half });
      expect(agrees(round.ply, Math.PI * half ** 2)).toBe(true);
      expect(agrees(round.waste, most)).toBe(true);
    }),
    given,
  );
});

test('rounded ends of a slab as large again are four times the fabric, and of plies as many times', () => {
  fc.assert(
    fc.property(ends, between(0.1, 10), (i, by) => {
      const one = roundedEnds.compute(i);
      const lengths = ['width', 'length', 'proximal', 'distal'] as const;
      const large = Object.fromEntries(lengths.map((key) => [key, i[key] * by]));
      const other = roundedEnds.compute({ ...i, ...(large as typeof i) });
      for (const key of ['ply', 'kept', 'waste'] as const)
        expect(agrees(other[key], one[key] * by ** 2), key).toBe(true);
      const single = roundedEnds.compute({ ...i, plies: 1 });
      expect(agrees(one.kept, i.plies * single.kept)).toBe(true);
      expect(agrees(one.waste, i.plies * single.waste)).toBe(true);
      expect(agrees(one.ply, single.kept)).toBe(true);
    }),
    given,
  );
});

test('the mass of two areas is the mass of both, and drying never adds', () => {
  fc.assert(
    fc.property(inputs<Parameters<typeof castMass>[0]>(castMass as AnyFormula), between(0, 1), (i, part) => {
      const mass = (by: number) => castMass.compute({ ...i, area: (i.area * by) as typeof i.area });
      const [all, some, rest] = [mass(1), mass(part), mass(1 - part)];
      for (const key of ['fabric', 'wet', 'dry'] as const)
        expect(agrees(some[key] + rest[key], all[key], 1e-6)).toBe(true);
      expect(all.dry).toBeLessThanOrEqual(all.wet);
      expect(all.dry).toBeGreaterThanOrEqual(all.fabric);
    }),
    given,
  );
});

test('layers built up one by one are as thick as all at once, and girth grows by 2π of it', () => {
  fc.assert(
    fc.property(
      inputs<Parameters<typeof buildUp>[0]>(buildUp as AnyFormula),
      fc.integer({ min: 1, max: 59 }),
      (i, first) => {
        fc.pre(first < i.layers);
        const all = buildUp.compute(i);
        const under = buildUp.compute({ ...i, layers: first });
        const over = buildUp.compute({ ...i, girth: mm(under.outerGirth), layers: i.layers - first });
        expect(agrees(over.outerGirth, all.outerGirth)).toBe(true);
        expect(agrees(under.thickness + over.thickness, all.thickness)).toBe(true);
        expect(agrees(all.outerGirth - i.girth, 2 * Math.PI * all.thickness, all.outerGirth)).toBe(true);
      },
    ),
    given,
  );
});

const everyone = ['plaster', 'fibreglass', 'padding'].flatMap((material) =>
  ['slab', 'cast'].flatMap((use) =>
    ['arm', 'leg'].flatMap((limb) =>
      ['infant', 'child', 'adolescent', 'adult', 'older adult'].map(
        (age) => ({ material, use, limb, age }) as Parameters<typeof layersWanted>[0],
      ),
    ),
  ),
);

test.each(everyone)('$material $use, $limb, $age: the range used is a published one', (i) => {
  const { used, least, most, published } = layersWanted(i).value;
  const row = published.find(({ constant }) => constant === used.constant);
  expect([row?.least, row?.most]).toEqual([used.least, used.most]);
  for (const one of published) {
    expect(one.least).toBeLessThanOrEqual(one.most);
    expect(one.least).toBeGreaterThanOrEqual(least);
    expect(one.most).toBeLessThanOrEqual(most);
  }
});

test('every row is told for someone, and the catalogue keeps the same ranges', () => {
  const told = everyone.flatMap((i) => layersWanted(i).value.published.map(({ constant }) => constant));
  expect(Object.keys(layersWanted.numbers).filter((name) => !told.includes(name))).toEqual([]);
  const { used, published } = immobilisations['short-arm-cast'].layers.plaster;
  const cast = layersWanted({ material: 'plaster', use: 'cast', limb: 'arm', age: 'adult' }).value;
  expect(used).toEqual([cast.used.least, cast.used.most]);
  expect(published).toHaveLength(cast.published.length);
});

test('each kind of cast and slab goes by its own row, and each published row keeps its note', () => {
  const wanted = (
    material: 'plaster' | 'fibreglass',
    use: 'slab' | 'cast',
    age: 'infant' | 'child' | 'adult',
  ) => layersWanted({ material, use, limb: 'arm', age }).value;
  expect(wanted('fibreglass', 'slab', 'adult').used.constant).toBe('tapeReview');
  expect(wanted('fibreglass', 'cast', 'adult').used.constant).toBe('tapeLeg');
  expect(wanted('plaster', 'slab', 'adult').used.constant).toBe('armVolar');
  expect(wanted('plaster', 'cast', 'adult').used.constant).toBe('castNavy');
  for (const age of ['infant', 'child'] as const)
    expect(wanted('plaster', 'slab', age).used.constant).toBe('childSlab');
  const rows = layersWanted.constants as Readonly<Record<string, { note?: string }>>;
  const { published } = wanted('plaster', 'slab', 'adult');
  expect(published.some((row) => 'note' in row) && published.some((row) => !('note' in row))).toBe(true);
  for (const row of published) expect(row.note).toBe(rows[row.constant]?.note);
});
