import ucum from '@lhncbc/ucum-lhc';
import highsLoader from 'highs';
import { create, all as everything } from 'mathjs';
import { Outcome, Solver } from 'odex';
import {
  buildUp,
  cm,
  codes,
  digits12,
  girthProfile,
  hold,
  kgf,
  layerMap,
  metres,
  mm,
  newtons,
  percent,
  ratio,
  takeOff,
  type UnitCode,
  underBandage,
  woundLength,
} from 'swathe';
import { LatheGeometry, Vector2 } from 'three';
import { describe, expect, test } from 'vitest';
import { greaterEq, lessEq, solve } from 'yalps';
import { type Limb, Sampler, type Wrap } from './sampler.ts';

/** Both at 12 significant digits: what every engine agrees on. */
const same = (got: number, other: number): void => expect(digits12(got)).toBe(digits12(other));
const near = (got: number, other: number, relative: number): void =>
  expect(Math.abs(got / other - 1), `${got} and ${other}`).toBeLessThan(relative);

describe('mathjs, with its units', () => {
  const math = create(everything ?? {});
  // Its own mmHg is rounded to six digits.
  math.createUnit('conventionalmmHg', '133.322387415 Pa');
  const evaluate = (expression: string, unit: string): number =>
    (math.evaluate(`${expression} to ${unit}`) as { toNumber(unit: string): number }).toNumber(unit);

  test.each([
    [10, 1, 25, 10, 0],
    [9.80665, 2, 36, 10, 0],
    [17, 4, 21, 7.5, 1.5],
    [40, 9, 55, 15, 3],
  ])('pressure of %d N in %d layers round %d cm, %d cm wide, %d mm thick', (f, n, c, w, t) => {
    const layer = (k: number): string =>
      `2 * pi * (${f} N) / ((${c} cm + 2 * pi * ${k} * ${t} mm) * (${w} cm))`;
    const sum = Array.from({ length: n }, (_, k) => layer(k)).join(' + ');
    const pressure = underBandage({
      tension: newtons(f),
      layers: n,
      girth: cm(c),
      width: cm(w),
      thickness: mm(t),
    }).value;
    same(pressure, evaluate(`(${sum})`, 'conventionalmmHg'));
    near(pressure, evaluate(`(${sum})`, 'mmHg'), 3e-6);
  });

  test('a kilogram-force is what the standard acceleration makes of a kilogram', () => {
    same(kgf(1), evaluate('1 kg * 9.80665 m/s^2', 'N'));
  });

  test.each([
    [25, 4, 0.5, 0],
    [61.3, 15, 0.42, 0.15],
  ])('girth over %d cm with %d layers of %d mm, pressed by %d', (c, n, t, k) => {
    const built = buildUp({ girth: cm(c), layers: n, thickness: mm(t), compression: ratio(k) }).value;
    same(built.outerGirth, evaluate(`${c} cm + 2 * pi * ${n} * ${t} mm * (1 - ${k})`, 'mm'));
    same(built.thickness, evaluate(`${n} * ${t} mm * (1 - ${k})`, 'mm'));
  });
});

describe('odex, a solver of differential equations', () => {
  const integrate = (
    f: (x: number, y: number[]) => number[],
    y: number[],
    from: number,
    to: number,
  ): number[] => {
    const solver = new Solver(y.length);
    solver.relativeTolerance = 1e-13;
    solver.absoluteTolerance = 1e-13;
    solver.maxSteps = 100_000;
    const { y: end, outcome } = solver.solve(f, from, y, to);
    expect(outcome).toBe(Outcome.Converged);
    return end;
  };

  test.each([
    [17, 26, 20, 7.5, 0.5],
    [38, 22, 30, 10, 0.5],
    [16, 30, 34, 7.5, 0.25],
  ])('course of a bandage on a cone of %d to %d cm over %d cm, %d cm wide at %d', (c1, c2, h, w, f) => {
    const { value, steps } = layerMap({
      stations: [
        { at: cm(0), girth: cm(c1) },
        { at: cm(h), girth: cm(c2) },
      ],
      from: cm(0),
      to: cm(h),
      width: cm(w),
      overlap: ratio(f),
      keeps: 'overlap',
      passes: 1,
      startTurns: 0,
      endTurns: 0,
      extra: [],
      stretch: percent(0),
      wanted: { least: 0, most: 60 },
    });
    const [turns, length] = ['helicalTurns', 'helicalLength'].map(
      (name) => steps.find((step) => step.name === name)?.value as number,
    ) as [number, number];
    const q = 10 * w * (1 - f);
    const skin = Math.hypot(10 * h, (10 * (c2 - c1)) / (2 * Math.PI));
    const girth = (s: number): number => 10 * (c1 + ((c2 - c1) * s) / skin);
    const advance = (s: number): number => q / Math.cos(Math.asin(q / girth(s)));
    // Newton's rule for where the far edge is one width in, and the near edge one width from the end.
    let [first, last] = [5 * w, skin - 5 * w];
    for (let n = 0; n < 50; n++) {
      first += 10 * w - (first + advance(first) / (2 * (1 - f)));
      last += skin - 10 * w - (last - advance(last) / (2 * (1 - f)));
    }
    const [end, laid] = integrate(
      (_, [s = 0]) => [advance(s), Math.hypot(advance(s), girth(s))],
      [first, 0],
      0,
      turns,
    );
    near(end as number, last, 1e-11);
    near(laid as number, length, 1e-11);
    near(value.turns, turns, 1e-12);
  });

  test.each([
    [70, 25, 0.5],
    [95, 12, 1.2],
    [40, 0, 2],
  ])('spiral on a roll of %d mm with a core of %d mm, %d mm a turn', (outer, core, thickness) => {
    const { spiral, turns } = woundLength({
      outer: mm(outer),
      core: mm(core),
      thickness: mm(thickness),
    }).value;
    const perRadian = thickness / (2 * Math.PI);
    const [length] = integrate(
      (angle) => [Math.hypot(core / 2 + perRadian * angle, perRadian)],
      [0],
      0,
      2 * Math.PI * turns,
    );
    near(spiral, length as number, 1e-11);
  });
});

describe('three, a mesh of triangles', () => {
  const limb = [
    [0, 170],
    [60, 214],
    [160, 261],
    [240, 255],
  ] as const;

  /** Skin and volume of the limb turned on a lathe with so many sides. */
  const mesh = (sides: number): { area: number; volume: number } => {
    const open = limb.map(([x, c]) => new Vector2(c / (2 * Math.PI), x));
    const closed = [new Vector2(0, 0), ...open, new Vector2(0, 240)];
    const sum = (points: Vector2[], of: (a: number[], b: number[], c: number[]) => number): number => {
      const { attributes, index } = new LatheGeometry(points, sides);
      const corner = (n: number): number[] => {
        const k = index?.getX(n) ?? 0;
        const at = attributes['position'];
        return at ? [at.getX(k), at.getY(k), at.getZ(k)] : [];
      };
      let total = 0;
      for (let n = 0; n < (index?.count ?? 0); n += 3) total += of(corner(n), corner(n + 1), corner(n + 2));
      return total;
    };
    const cross = ([a = 0, b = 0, c = 0]: number[], [d = 0, e = 0, f = 0]: number[]): number[] => [
      b * f - c * e,
      c * d - a * f,
      a * e - b * d,
    ];
    const less = (a: number[], b: number[]): number[] => a.map((x, n) => x - (b[n] as number));
    const area = sum(open, (a, b, c) => Math.hypot(...cross(less(b, a), less(c, a))) / 2);
    const volume = sum(closed, (a, b, c) => cross(a, b).reduce((t, x, n) => t + x * (c[n] as number), 0) / 6);
    return { area, volume: Math.abs(volume) };
  };

  test.each(['area', 'volume'] as const)('%s of a limb: four times nearer with twice the sides', (what) => {
    const value = girthProfile({ stations: limb.map(([at, girth]) => ({ at: mm(at), girth: mm(girth) })) })
      .value[what];
    const [rough, fine] = [mesh(128)[what], mesh(256)[what]];
    expect((value - rough) / (value - fine)).toBeCloseTo(4, 1);
    near((4 * fine - rough) / 3, value, 1e-6);
  });
});

describe('linear programs', () => {
  const slab = (
    length: number,
    pieces: number,
    rolls: readonly (readonly [length: number, onHand: number])[],
  ) =>
    takeOff({
      needs: [
        {
          what: 'slab',
          material: 'plaster',
          width: cm(10),
          length: cm(length),
          pieces,
          joins: false,
          wider: false,
        },
      ],
      stock: rolls.map(([l, onHand]) => ({ material: 'plaster', width: cm(10), length: cm(l), onHand })),
    }).value;

  test.each([
    [34, 8, [[275, 6]]],
    [80, 10, [[275, 6]]],
    [
      95,
      12,
      [
        [275, 3],
        [457, 2],
      ],
    ],
    [
      60,
      25,
      [
        [274, 4],
        [366, 2],
        [457, 1],
      ],
    ],
    [
      130,
      7,
      [
        [274, 2],
        [300, 9],
        [457, 1],
      ],
    ],
    [
      41,
      40,
      [
        [270, 3],
        [366, 3],
        [457, 3],
        [100, 9],
      ],
    ],
  ] as [number, number, [number, number][]][])(
    'yalps: fewest rolls for pieces of %d cm, %d of them',
    (length, pieces, rolls) => {
      const { status, result } = solve({
        direction: 'minimize',
        objective: 'rolls',
        constraints: {
          pieces: greaterEq(pieces),
          ...Object.fromEntries(rolls.map(([l, onHand]) => [`on hand ${l}`, lessEq(onHand)])),
        },
        variables: Object.fromEntries(
          rolls.map(([l]) => [`${l}`, { rolls: 1, pieces: Math.floor(l / length), [`on hand ${l}`]: 1 }]),
        ),
        integers: true,
      });
      expect(status).toBe('optimal');
      expect(slab(length, pieces, rolls).rolls).toBe(result);
    },
  );

  test('yalps: what the rolls on hand cannot yield is refused', () => {
    const { status } = solve({
      direction: 'minimize',
      objective: 'rolls',
      constraints: { pieces: greaterEq(12), rolls: lessEq(3) },
      variables: { roll: { rolls: 1, pieces: 3 } },
      integers: true,
    });
    expect(status).toBe('infeasible');
    expect(slab(80, 12, [[275, 3]]).lines).toMatchObject([{ kind: 'cannot', reason: 'too few rolls' }]);
  });

  test('HiGHS: for thirteen lengths from one stock no fewer than the best of all patterns, as many as best fit in their order', async () => {
    const items = [
      [2200, 20],
      [2150, 18],
      [2140, 16],
      [2100, 14],
      [2050, 12],
      [2000, 10],
      [1930, 20],
      [1880, 18],
      [1820, 18],
      [1710, 14],
      [1560, 12],
      [1520, 25],
      [1380, 22],
    ] as const;
    const patterns: number[][] = [];
    const grow = (pattern: number[], left: number): void => {
      const n = pattern.length;
      const item = items[n];
      if (!item) {
        if (left < 1380) patterns.push(pattern);
        return;
      }
      for (let k = Math.floor(left / item[0]); k >= 0; k--) grow([...pattern, k], left - k * item[0]);
    };
    grow([], 5600);
    const names = patterns.map((_, n) => `x${n}`);
    const enough = items.map(([, pieces], n) => {
      const terms = patterns.flatMap((p, k) => (p[n] ? [`${p[n]} x${k}`] : []));
      return `${terms.join(' + ')} >= ${pieces}`;
    });
    const model = ['Minimize', names.join(' + '), 'Subject To', ...enough, 'General', names.join(' '), 'End'];
    const { Status, ObjectiveValue } = (await highsLoader()).solve(model.join('\n'));
    expect(Status).toBe('Optimal');
    expect(ObjectiveValue).toBe(73);

    const rolls = takeOff({
      needs: items.map(([length, pieces]) => ({
        what: `${length} mm`,
        material: 'plaster',
        width: cm(10),
        length: mm(length),
        pieces,
        joins: false,
        wider: false,
      })),
      stock: [{ material: 'plaster', width: cm(10), length: metres(5.6), onHand: 200 }],
    }).value.rolls;
    expect(rolls).toBeGreaterThanOrEqual(ObjectiveValue);

    const open: number[] = [];
    for (const [length, pieces] of items)
      for (let k = 0; k < pieces; k++) {
        const best = Math.min(...open.filter((left) => left >= length));
        if (best === Number.POSITIVE_INFINITY) open.push(5600 - length);
        else open[open.indexOf(best)] = best - length;
      }
    expect(rolls).toBe(open.length);
  });
});

describe('layers counted point by point', () => {
  const cylinder: Limb = [
    [0, 200],
    [400, 200],
  ];
  const cone: Limb = [
    [0, 170],
    [300, 305],
  ];
  const leg: Limb = [
    [-20, 240],
    [80, 215],
    [220, 345],
    [340, 362],
  ];
  const plain = { keeps: 'overlap', passes: 1, startTurns: 0, endTurns: 0, extra: [] } as const;
  const cases: [string, Wrap][] = [
    [
      'a cylinder at half width, two turns at each end',
      { ...plain, limb: cylinder, from: 0, to: 400, width: 75, overlap: 0.5, startTurns: 2, endTurns: 2 },
    ],
    [
      'a cylinder at a third, part of it',
      { ...plain, limb: cylinder, from: 35, to: 372, width: 100, overlap: 0.34 },
    ],
    [
      'a cylinder with gaps',
      { ...plain, limb: cylinder, from: 0, to: 400, width: 50, overlap: -0.3, endTurns: 1 },
    ],
    [
      'a cone in two passes',
      {
        ...plain,
        limb: cone,
        from: 0,
        to: 300,
        width: 75,
        overlap: 0.4,
        passes: 2,
        startTurns: 2,
        endTurns: 1,
      },
    ],
    [
      'a cone at the advance it began with',
      { ...plain, keeps: 'advance', limb: cone, from: 10, to: 290, width: 75, overlap: 0.45, startTurns: 2 },
    ],
    [
      'a cone at the lead angle it began with: the overlap gives out on the way up',
      { ...plain, keeps: 'lead angle', limb: cone, from: 0, to: 300, width: 60, overlap: 0.5, passes: 2 },
    ],
    [
      'a leg of four girths in three passes, with turns at the ankle',
      {
        ...plain,
        limb: leg,
        from: -10,
        to: 330,
        width: 100,
        overlap: 0.3,
        passes: 3,
        startTurns: 1,
        endTurns: 3,
        extra: [[80, 2]],
      },
    ],
  ];
  const round = 240;
  const seam = 1;
  const around = Array.from({ length: round }, (_, k) => (k + 0.5) / round);

  describe.each(cases)('%s', (_, wrap) => {
    const sampler = new Sampler(wrap);
    const given = {
      stations: wrap.limb.map(([at, girth]) => ({ at: mm(at), girth: mm(girth) })),
      from: mm(wrap.from),
      to: mm(wrap.to),
      width: mm(wrap.width),
      overlap: ratio(wrap.overlap),
      keeps: wrap.keeps,
      passes: wrap.passes,
      startTurns: wrap.startTurns,
      endTurns: wrap.endTurns,
      extra: wrap.extra.map(([at, turns]) => ({ at: mm(at), turns })),
      stretch: percent(0),
      wanted: { least: 0, most: 60 },
    };
    const { value, steps } = layerMap(given);
    const bands = value.bands.map((band) => ({
      ...band,
      from: sampler.alongSkin(band.from),
      to: sampler.alongSkin(band.to),
    }));
    const step = (name: string): number => steps.find((s) => s.name === name)?.value as number;
    /** Counts all round the limb, and which of them are on more than a share of the girth. */
    const countsAt = (along: number, phases: readonly number[]): number[] =>
      around.map((turn) => sampler.layers(along, turn, phases));
    const seenOn = (counts: readonly number[], share: number): number[] =>
      [...new Set(counts)].filter((c) => counts.filter((x) => x === c).length > share * round);
    const advance = sampler.leastAdvance;
    const places = bands.flatMap((band) => {
      const [low, high] = [band.from + 1.5 * seam, band.to - 1.5 * seam];
      return high > low ? [0, 0.23, 0.5, 0.81, 1].map((t) => ({ band, along: low + t * (high - low) })) : [];
    });

    test('turns and length of a pass', () => {
      expect(Math.abs(sampler.turns - step('helicalTurns'))).toBeLessThan(1 / 1000);
      expect(Math.abs(sampler.length - step('helicalLength'))).toBeLessThan(0.5);
    });

    // Twentieths of a turn let many changes fall on one place, so that a band is found in pieces.
    test.each([[[0.11, 0.48, 0.73]], [[0.95, 0, 0.9]], [[0.6, 0.45, 0.65]]])(
      'fewest and most, where passes begin at %j',
      (from) => {
        const begins = from.slice(0, wrap.passes);
        const phases = begins.map((at, n) => ({
          at: ratio(at),
          hand: n % 2 ? ('left' as const) : ('right' as const),
        }));
        const known = layerMap({ ...given, phases }).value.bands;
        const wide = known.filter((b) => b.to - b.from > 5 * seam);
        expect(wide.length).toBeGreaterThanOrEqual(2);
        for (const band of wide)
          for (const at of [band.from + 2.1 * seam, (band.from + band.to) / 2, band.to - 2.1 * seam]) {
            // What is no longer than a seam along the limb is not told either, so a seam before and after are seen as well.
            const seen = (points: number): number[][] =>
              [at - seam, at, at + seam].map((place) => {
                const along = sampler.alongSkin(place);
                return seenOn(countsAt(along, begins), seam / sampler.advance(along) + points / round);
              });
            const [surely, perhaps] = [seen(2), seen(-2)];
            const always = surely.flat().filter((n) => surely.every((counts) => counts.includes(n)));
            const where = `${at} in ${JSON.stringify(band)}: ${JSON.stringify(perhaps)}`;
            expect(always.length, where).toBeGreaterThan(0);
            expect(Math.min(...always), where).toBeGreaterThanOrEqual(band.least);
            expect(Math.min(...perhaps.flat()), where).toBeLessThanOrEqual(band.least);
            expect(Math.max(...always), where).toBeLessThanOrEqual(band.most);
            expect(Math.max(...perhaps.flat()), where).toBeGreaterThanOrEqual(band.most);
          }
      },
    );

    test('fewest and most, where passes lie turn on turn', () => {
      expect(places.length).toBeGreaterThanOrEqual(10);
      for (const { band, along } of places) {
        const counts = countsAt(along, []);
        // A stripe narrower than a seam is not counted; two points either way are the sampling's own error.
        const tolerance = seam / advance;
        const [surely, perhaps] = [tolerance + 2 / round, tolerance - 2 / round].map((share) =>
          seenOn(counts, share),
        );
        const where = `${along} in ${JSON.stringify(band)}: ${[...new Set(counts)]}`;
        expect(Math.min(...(surely as number[])), where).toBeGreaterThanOrEqual(band.least);
        expect(Math.min(...(perhaps as number[])), where).toBeLessThanOrEqual(band.least);
        expect(Math.max(...(surely as number[])), where).toBeLessThanOrEqual(band.most);
        expect(Math.max(...(perhaps as number[])), where).toBeGreaterThanOrEqual(band.most);
      }
    });

    test('fewest and most hold wherever passes begin, and whichever way they go round', () => {
      for (const phases of [
        [0.1, 0.47, 0.83],
        [0.9, 0.3, 0.55],
      ]) {
        for (const { band, along } of places) {
          const seen = seenOn(countsAt(along, phases), (wrap.passes * seam) / advance + 2 / round);
          expect(Math.min(...seen)).toBeGreaterThanOrEqual(band.least);
          expect(Math.max(...seen)).toBeLessThanOrEqual(band.most);
        }
      }
    });

    test('the mean of each band, and of all', () => {
      let all = 0;
      for (const band of bands) {
        const n = Math.ceil(2 * (band.to - band.from));
        let sum = 0;
        for (let k = 0; k < n; k++) {
          const along = band.from + ((k + 0.5) * (band.to - band.from)) / n;
          sum += countsAt(along, []).reduce((t, c) => t + c, 0) / round;
        }
        expect(Math.abs(sum / n - band.mean), JSON.stringify(band)).toBeLessThan(0.02 * wrap.passes);
        all += (sum / n) * (band.to - band.from);
      }
      expect(Math.abs(all / (sampler.end - sampler.start) - value.mean)).toBeLessThan(0.01 * wrap.passes);
    });
  });
});

describe('ucum-lhc, the units by their codes', () => {
  const utils = ucum.UcumLhcUtils.getInstance();
  // UCUM's metre of mercury is 133.322 kPa, rounded; ours is the conventional one of 133.322387415 kPa.
  const rounded = 133.322387415 / 133.322;

  test.each(Object.entries(codes))('%s', (code, { holds }) => {
    expect(utils.validateUnitString(code).status).toBe('valid');
    for (const value of [1, 37, 0.125, 104]) {
      const { toVal } = utils.convertUnitTo(code, value, holds);
      const factor = holds === 'mm[Hg]' && code !== holds ? rounded : 1;
      same(hold(value, code as UnitCode) * factor, toVal as number);
    }
  });
});
