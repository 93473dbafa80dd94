import { describe, expect, test } from 'vitest';
import { type Course, courseAlong, type Lay, rootBetween } from '../../packages/core/src/coverage/course.ts';
import type { Station } from '../../packages/core/src/segment/profile.ts';

const limb = (...pairs: readonly (readonly [at: number, girth: number])[]): Station[] =>
  pairs.map(([at, girth]) => ({ at, girth })) as unknown as Station[];
const limbs = [
  limb([0, 170], [200, 260]),
  limb([-50, 300], [100, 220], [180, 221], [300, 320]),
  limb([0, 200], [150, 200.05], [300, 200]),
];
const width = 75;
const lays: readonly Lay[] = [
  { keeps: 'spacing', spacing: 40 },
  { keeps: 'spacing', spacing: 90 },
  { keeps: 'advance', advance: 45 },
  { keeps: 'advance', advance: 130 },
  { keeps: 'angle', sine: 0.2 },
  { keeps: 'angle', sine: 0.6 },
];

/** Lead angle at a girth, from the triangle of one turn unrolled: girth along, advance up, spacing square to the edge. */
const angleAt = (lay: Lay, c: number): number =>
  lay.keeps === 'spacing'
    ? Math.asin(lay.spacing / c)
    : lay.keeps === 'advance'
      ? Math.atan(lay.advance / c)
      : Math.asin(lay.sine);

/** Simpson's rule piece by piece between the knots, where the girth goes straight. */
function integral(f: (s: number) => number, knots: readonly number[], to: number): number {
  let sum = 0;
  for (const [n, from] of knots.slice(0, -1).entries()) {
    const h = (Math.min(to, knots[n + 1] as number) - from) / 400;
    if (h <= 0) break;
    for (let k = 0; k < 200; k++)
      sum += (h / 3) * (f(from + 2 * k * h) + 4 * f(from + (2 * k + 1) * h) + f(from + (2 * k + 2) * h));
  }
  return sum;
}
const near = (got: number, wanted: number): void =>
  expect(Math.abs(got - wanted), `${got}, by quadrature ${wanted}`).toBeLessThan(1e-8 * Math.max(1, wanted));

describe.each(lays)('%j', (lay) => {
  test.each(limbs)('turns, length, advance and width along the skin, beside quadrature', (...stations) => {
    const course = courseAlong(stations, width, lay);
    expect(course.follows).toBe(true);
    const end = course.knots.at(-1) as number;
    const angle = (s: number): number => angleAt(lay, course.girth(s));
    for (const part of [0.1, 0.35, 0.6, 0.85, 1]) {
      const s = part * end;
      near(
        course.turns(s),
        integral((p) => 1 / (course.girth(p) * Math.tan(angle(p))), course.knots, s),
      );
      near(
        course.length(0, s),
        integral((p) => 1 / Math.sin(angle(p)), course.knots, s),
      );
      near(course.length(s / 2, s), course.length(0, s) - course.length(0, s / 2));
      near(course.advance(s), course.girth(s) * Math.tan(angle(s)));
      near(course.reach(s), width / 2 / Math.cos(angle(s)));
    }
  });

  test.each(limbs)(
    'the centre is where its edge comes to the place, past the ends as well',
    (...stations) => {
      const course = courseAlong(stations, width, lay);
      const end = course.knots.at(-1) as number;
      for (let edge = -width; edge <= end + width; edge += 7.3) {
        const [far, near] = [course.centreOfFarEdge(edge), course.centreOfNearEdge(edge)];
        expect(Math.abs(far + course.reach(far) - edge)).toBeLessThan(1e-9);
        expect(Math.abs(near - course.reach(near) - edge)).toBeLessThan(1e-9);
      }
    },
  );
});

test('the centre is found where the width along the skin changes nearly as fast as the skin goes on', () => {
  const lay = { keeps: 'spacing', spacing: 80 } as const;
  for (const stations of [limb([0, 100], [60, 160]), limb([0, 160], [60, 100])]) {
    // As wide as can be followed, by the change of 1/cos with the girth at 100, but for a twentieth.
    const change = Math.abs(1 / Math.cos(angleAt(lay, 100.001)) - 1 / Math.cos(angleAt(lay, 99.999))) / 0.002;
    const course = courseAlong(stations, 1.9 / change, lay);
    expect(course.follows).toBe(true);
    for (let edge = -10; edge <= 70; edge += 1.7) {
      const [far, near] = [course.centreOfFarEdge(edge), course.centreOfNearEdge(edge)];
      expect(Math.abs(far + course.reach(far) - edge)).toBeLessThan(1e-9);
      expect(Math.abs(near - course.reach(near) - edge)).toBeLessThan(1e-9);
    }
  }
});

test('on a limb that is hardly a cone it runs as on a cylinder', () => {
  for (const lay of lays) {
    const [cone, cylinder] = [200.000006, 200].map((c) => courseAlong(limb([0, 200], [150, c]), width, lay));
    // A girth greater by 3e-8 changes no more than that.
    expect(Math.abs((cone as Course).turns(150) / (cylinder as Course).turns(150) - 1)).toBeLessThan(1e-7);
    // But rounding must not be heard: the change of a half is half the change.
    const off = (s: number): number => (cone as Course).length(0, s) / (cylinder as Course).length(0, s) - 1;
    expect(Math.abs(off(150) - 2 * off(75))).toBeLessThan(1e-12);
  }
});

test('a place along the axis lies along the skin by the slant of each cone, there and back', () => {
  for (const stations of limbs) {
    const course = courseAlong(stations, width, { keeps: 'angle', sine: 0.2 });
    let skin = 0;
    for (const [n, a] of stations.slice(0, -1).entries()) {
      const b = stations[n + 1] as Station;
      const [along, rise] = [b.at - a.at, (b.girth - a.girth) / (2 * Math.PI)];
      const slant = Math.sqrt(along * along + rise * rise);
      for (const part of [0, 0.25, 0.99]) {
        near(course.alongSkin(a.at + part * along), skin + part * slant);
        expect(Math.abs(course.alongAxis(skin + part * slant) - (a.at + part * along))).toBeLessThan(1e-9);
      }
      skin += slant;
      near(course.knots[n + 1] as number, skin);
    }
  }
});

describe('whether a bandage can follow', () => {
  const cylinder = (girth: number) => limb([0, girth], [200, girth]);

  test('up to a lead angle of 60 degrees, at the thinnest place', () => {
    const follows = (stations: readonly Station[], lay: Lay) => courseAlong(stations, 10, lay).follows;
    for (const [degrees, may] of [
      [59.9, true],
      [60.1, false],
    ] as const) {
      const angle = (degrees / 180) * Math.PI;
      expect(follows(cylinder(200), { keeps: 'angle', sine: Math.sin(angle) })).toBe(may);
      expect(follows(cylinder(200), { keeps: 'spacing', spacing: 200 * Math.sin(angle) })).toBe(may);
      expect(follows(cylinder(200), { keeps: 'advance', advance: 200 * Math.tan(angle) })).toBe(may);
      const spacing = { keeps: 'spacing', spacing: 200 * Math.sin(angle) } as const;
      expect(follows(limb([0, 200], [300, 260]), spacing)).toBe(may);
      expect(follows(limb([0, 260], [300, 200]), spacing)).toBe(may);
    }
  });

  test('only where its edges stay in order: half the width times the change of 1/cos along the skin below 1', () => {
    // Girth 100 to 160 over a skin length of 60: the girth grows by 1 mm a mm.
    const at = Math.sqrt(60 * 60 - (60 / (2 * Math.PI)) ** 2);
    for (const lay of [
      { keeps: 'spacing', spacing: 80 },
      { keeps: 'advance', advance: 120 },
    ] as const) {
      const inverse = (c: number): number => 1 / Math.cos(angleAt(lay, c));
      const change = Math.abs(inverse(100.001) - inverse(99.999)) / 0.002;
      const limit = 2 / change;
      for (const stations of [limb([0, 100], [at, 160]), limb([0, 160], [at, 100])]) {
        expect(courseAlong(stations, 0.99 * limit, lay).follows).toBe(true);
        expect(courseAlong(stations, 1.01 * limit, lay).follows).toBe(false);
        // One piece that cannot be followed is enough.
        const more = [...stations, { at: at + 100, girth: stations[1]?.girth }] as Station[];
        expect(courseAlong(more, 1.01 * limit, lay).follows).toBe(false);
      }
    }
  });
});

describe('root between two places', () => {
  test('of a smooth function', () => {
    for (const wanted of [0.1, Math.SQRT2, 1.9])
      expect(Math.abs(rootBetween((x) => x ** 3 - wanted ** 3, 0, 2) - wanted)).toBeLessThan(1e-10);
  });

  test('below nought as well', () => {
    for (const wanted of [-0.1, -Math.SQRT2, -1.9])
      expect(Math.abs(rootBetween((x) => x ** 3 - wanted ** 3, -2, 0) - wanted)).toBeLessThan(1e-10);
  });

  test('of a crooked one too: flat on one side and steep on the other, or with a jump', () => {
    for (const f of [
      (x: number) => (x < 0.7 ? -1e-9 : 1e9),
      (x: number) => (x < 0.7 ? -1e9 : 1e-9),
      (x: number) => (x < 0.7 ? (x - 0.7) * 1e-6 : (x - 0.7) * 1e6),
      (x: number) => (x < 0.7 ? -1 : 1),
    ])
      expect(Math.abs(rootBetween(f, 0, 2) - 0.7)).toBeLessThan(1e-9);
  });
});
