import fc from 'fast-check';
import { layerMap, mm, ratio } from 'swathe';
import { describe, expect, test } from 'vitest';
import { agrees, answered, between, disagreement, manyRuns } from '../generators.ts';

type Inputs = Parameters<typeof layerMap>[0];
type Value = ReturnType<typeof layerMap.compute>;

const wrap = answered(layerMap) as unknown as fc.Arbitrary<Inputs>;

/** A wrap on a cylinder, where all that may be kept is one, turns at most half as far apart as the limb is round. */
const onCylinder = fc
  .record({
    girth: between(30, 1000),
    part: between(0.02, 0.5),
    width: between(10, 400),
    room: between(1, 4),
    passes: fc.integer({ min: 1, max: 4 }),
    startTurns: fc.integer({ min: 0, max: 3 }),
    endTurns: fc.integer({ min: 0, max: 3 }),
    keeps: fc.constantFrom('overlap', 'advance', 'lead angle'),
  })
  .map(({ girth, part, width, room, ...turns }) => {
    const to = width * room;
    return {
      stations: [mm(-10), mm(to / 3), mm(to + 10)].map((at) => ({ at, girth: mm(girth) })),
      from: mm(0),
      to: mm(to),
      width: mm(width),
      overlap: ratio(Math.min(0.95, Math.max(-1, 1 - (part * girth) / width))),
      extra: [],
      stretch: ratio(0),
      wanted: { least: 1, most: 60 },
      ...turns,
    };
  })
  .filter(({ width, overlap, stations }) => width * (1 - overlap) <= 0.5 * (stations[0]?.girth ?? 0));

/** What unrolling the cylinder gives: spacing, cosine of the lead angle, and how far a slanted end reaches past the edge. */
function unrolled({ stations, width, overlap, from, to }: Inputs) {
  const girth = stations[0]?.girth as number;
  const q = width * (1 - overlap);
  const cosine = Math.sqrt(1 - (q / girth) * (q / girth));
  return { girth, q, cosine, past: width / cosine - width, long: to - from };
}

const given = { numRuns: manyRuns };
const few = given;

describe('on a cylinder', () => {
  test('what the layers cover is the bandage, less the slanted ends that lie past the wrap', () => {
    fc.assert(
      fc.property(onCylinder, (i) => {
        const { girth, q, cosine, past, long } = unrolled(i);
        const { mean, length } = layerMap.compute(i);
        // Past each end the turns thin out evenly from cos α / q × past to none: a triangle of bandage, once a pass.
        const lost = i.passes * girth * ((cosine * past * past) / q);
        expect(agrees(mean * long * girth, length * i.width - lost, 1e-3 * length * i.width)).toBe(true);
      }),
      given,
    );
  });

  test('the mean of the layers is the closed form w (L − w cos α) / (q L) a pass, and a width of each circular turn', () => {
    fc.assert(
      fc.property(onCylinder, (i) => {
        const { q, cosine, long } = unrolled(i);
        const helical = (i.passes * i.width * (long - i.width * cosine)) / (q * long);
        const circular = ((i.startTurns + i.endTurns) * i.width) / long;
        expect(agrees(layerMap.compute(i).mean, helical + circular, 1e-3)).toBe(true);
      }),
      given,
    );
  });

  test('more overlap never means fewer layers, where the wrap is at least as long as the bandage lies along it', () => {
    fc.assert(
      fc.property(onCylinder, between(0, 1), (i, part) => {
        const { cosine, long } = unrolled(i);
        fc.pre(long >= i.width / cosine);
        const more = { ...i, overlap: ratio(i.overlap + part * (0.95 - i.overlap)) };
        const [a, b] = [layerMap.compute(i).mean, layerMap.compute(more).mean];
        expect(b).toBeGreaterThanOrEqual(a * (1 - 1e-12));
      }),
      few,
    );
  });

  test('the length is the helix’s way round and along, and the circles', () => {
    fc.assert(
      fc.property(onCylinder, (i) => {
        const { girth, q, cosine, past, long } = unrolled(i);
        const advance = q / cosine;
        const turns = (long - i.width + past) / advance;
        const length = i.passes * turns * Math.sqrt(girth * girth + advance * advance);
        const circles = (i.startTurns + i.endTurns) * girth;
        const value = layerMap.compute(i);
        expect(agrees(value.length, length + circles, girth)).toBe(true);
        expect(agrees(value.turns, i.passes * turns + i.startTurns + i.endTurns, 1)).toBe(true);
      }),
      given,
    );
  });
});

test('bands and zones lie end to end from one end of the wrap to the other, without gap', () => {
  fc.assert(
    fc.property(wrap, (i) => {
      const { bands, thin, thick, least, most, mean } = layerMap.compute(i);
      expect(bands[0]?.from).toBeCloseTo(i.from, 9);
      expect(bands.at(-1)?.to).toBeCloseTo(i.to, 9);
      for (const [n, band] of bands.entries()) {
        expect(band.to).toBeGreaterThan(band.from);
        expect(band.least).toBeLessThanOrEqual(band.most);
        if (n > 0) expect(band.from).toBe(bands[n - 1]?.to);
      }
      expect(least).toBe(Math.min(...bands.map((b) => b.least)));
      expect(most).toBe(Math.max(...bands.map((b) => b.most)));
      expect(mean).toBeGreaterThanOrEqual(Math.min(...bands.map((b) => b.mean)) * (1 - 1e-12));
      expect(mean).toBeLessThanOrEqual(Math.max(...bands.map((b) => b.mean)) * (1 + 1e-12));
      const long = (of: readonly { from: number; to: number }[]) =>
        of.reduce((sum, z) => sum + z.to - z.from, 0);
      expect(long(thin)).toBeCloseTo(long(bands.filter((b) => b.least < i.wanted.least)), 6);
      expect(long(thick)).toBeCloseTo(long(bands.filter((b) => b.most > i.wanted.most)), 6);
    }),
    few,
  );
});

test('with twice the passes and no circular turns, everything that is counted or laid doubles', () => {
  fc.assert(
    fc.property(wrap, ({ phases, ...i }) => {
      const one = { ...i, startTurns: 0, endTurns: 0, extra: [] };
      const [a, b] = [layerMap.compute(one), layerMap.compute({ ...one, passes: 2 * i.passes })];
      const doubled: Partial<Value> = {
        length: 2 * a.length,
        offRoll: 2 * a.offRoll,
        turns: 2 * a.turns,
        mean: 2 * a.mean,
        least: 2 * a.least,
        most: 2 * a.most,
        bands: a.bands.map((x) => ({ ...x, least: 2 * x.least, most: 2 * x.most, mean: 2 * x.mean })),
      };
      const { thin, thick, ...rest } = b;
      expect(disagreement(rest, doubled)).toBeUndefined();
    }),
    few,
  );
});

test('where the passes begin changes nothing of what is laid, and their layers stay within the bounds for any beginning', () => {
  fc.assert(
    fc.property(wrap, (i) => {
      const { phases, ...anywhere } = i;
      // Closer turns leave no stripe of a seam's width between the edges of all passes, and the counts are only the nearest.
      fc.pre(phases !== undefined && i.width * (1 - i.overlap) > 4 * i.passes * layerMap.numbers.seam);
      const [known, any] = [layerMap.compute(i), layerMap.compute(anywhere)];
      const laid = ({ turns, length, offRoll }: Value) => ({ turns, length, offRoll });
      expect(disagreement(laid(known), laid(any), 1)).toBeUndefined();
      // The mean is integrated over bands, and these are others: on a limb of waves that costs digits.
      expect(Math.abs(known.mean / any.mean - 1)).toBeLessThan(1e-7);
      expect(known.least).toBeGreaterThanOrEqual(any.least);
      expect(known.most).toBeLessThanOrEqual(any.most);
    }),
    given,
  );
});

test('circular turns add their own length and layers, and change nothing of the helix', () => {
  fc.assert(
    fc.property(wrap, (i) => {
      const [a, b] = [layerMap.compute({ ...i, extra: [] }), layerMap.compute(i)];
      const turns = i.extra.reduce((sum, e) => sum + e.turns, 0);
      const girths = i.stations.map((s) => s.girth);
      expect(agrees(b.turns - a.turns, turns, b.turns)).toBe(true);
      expect(b.length - a.length).toBeGreaterThanOrEqual(turns * Math.min(...girths) - 1e-9 * b.length);
      expect(b.length - a.length).toBeLessThanOrEqual(turns * Math.max(...girths) + 1e-9 * b.length);
    }),
    few,
  );
});

test('a limb and a bandage twice the size give the same layers, with seams twice as wide', () => {
  fc.assert(
    fc.property(wrap, fc.constantFrom(0.5, 2, 4), (i, by) => {
      const grow = <T extends number>(x: T): T => (x * by) as T;
      const larger: Inputs = {
        ...i,
        stations: i.stations.map(({ at, girth }) => ({ at: grow(at), girth: grow(girth) })),
        from: grow(i.from),
        to: grow(i.to),
        width: grow(i.width),
        extra: i.extra.map((e) => ({ ...e, at: grow(e.at) })),
      };
      const a = layerMap.compute(i);
      const b = layerMap.compute(larger, { seam: layerMap.numbers.seam * by });
      const long = <Z extends { from: number; to: number }>(z: Z): Z => ({
        ...z,
        from: grow(z.from),
        to: grow(z.to),
      });
      const expected = {
        ...a,
        bands: a.bands.map(long),
        thin: a.thin.map(long),
        thick: a.thick.map(long),
        length: grow(a.length),
        offRoll: grow(a.offRoll),
      };
      // Where layers change hardly along the limb, the place of the change is no sharper than a ten-thousandth of a seam.
      const [places, rest] = [
        1e7 * by * layerMap.numbers.seam,
        1e-3 * Math.max(i.to - i.from, a.length) * by,
      ];
      const zones = ({ bands, thin, thick }: Pick<Value, 'bands' | 'thin' | 'thick'>) => ({
        bands,
        thin,
        thick,
      });
      const others = ({ bands, thin, thick, ...value }: Value) => value;
      expect(disagreement(zones(b), zones(expected), places)).toBeUndefined();
      expect(disagreement(others(b), others(expected), rest)).toBeUndefined();
    }),
    few,
  );
});

test('a bandage that is stretched comes off the roll shorter by as much', () => {
  fc.assert(
    fc.property(wrap, (i) => {
      const { length, offRoll } = layerMap.compute(i);
      expect(agrees(offRoll * (1 + i.stretch), length)).toBe(true);
    }),
    few,
  );
});
