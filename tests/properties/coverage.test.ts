import fc from 'fast-check';
import {
  edgeMismatch,
  figureOfEight,
  geodesicAdvance,
  helix,
  layerMap,
  mm,
  overlapFor,
  ratio,
  wholeUp,
} from 'swathe';
import { expect, test } from 'vitest';
import { agrees, answered, between } from '../generators.ts';

const given = { numRuns: Number(process.env['FC_RUNS'] ?? 1000) };
// biome-ignore lint/suspicious/noExplicitAny: whichever formula
const of = <F extends (i: any) => unknown>(formula: F) =>
  answered(formula as never) as unknown as fc.Arbitrary<Parameters<F>[0]>;

test('overlap: least layers wanted, fewer with one less a pass, spared by more passes', () => {
  fc.assert(
    fc.property(of(overlapFor), (i) => {
      const { perPass, overlap, layers, surplus, spacing } = overlapFor.compute(i);
      expect(layers).toBe(perPass * i.passes);
      expect(layers).toBeGreaterThanOrEqual(i.wanted);
      expect((perPass - 1) * i.passes).toBeLessThan(i.wanted);
      expect(surplus).toBeLessThan(i.passes);
      // Mean layers are the width over the distance between turns.
      expect(agrees(i.width / spacing, 1 / (1 - overlap))).toBe(true);
      const laid = helix.compute({ ...i, overlap: ratio(overlap) });
      expect([laid.least, laid.most]).toEqual([perPass, perPass]);
      if (i.passes < 12)
        expect(overlapFor.compute({ ...i, passes: i.passes + 1 }).overlap).toBeLessThanOrEqual(overlap);
    }),
    given,
  );
});

test('edges: more on a stronger taper and a wider bandage, none on a cylinder, less where it is steeper', () => {
  fc.assert(
    fc.property(of(edgeMismatch), between(0, 1), (i, part) => {
      const { mismatch, strain, strainAtNarrowest, sector } = edgeMismatch.compute(i);
      expect(strainAtNarrowest).toBeGreaterThanOrEqual(strain);
      // A whole turn's arc of the rolled-out cone, a width across.
      expect(agrees(mismatch, (i.width * sector * Math.PI) / 180)).toBe(true);
      const middle = (i.first + i.last) / 2;
      const nearer = (c: number) => mm(middle + part * (c - middle));
      const slighter = edgeMismatch.compute({ ...i, first: nearer(i.first), last: nearer(i.last) });
      expect(slighter.mismatch).toBeLessThanOrEqual(mismatch * (1 + 1e-12));
      expect(slighter.strain).toBeLessThanOrEqual(strain * (1 + 1e-12));
      const flat = edgeMismatch.compute({ ...i, last: i.first });
      expect([flat.mismatch, flat.strain, flat.strainAtNarrowest]).toEqual([0, 0, 0]);
      const narrower = edgeMismatch.compute({ ...i, width: mm(i.width / 2) });
      expect(agrees(narrower.mismatch * 2, mismatch)).toBe(true);
    }),
    given,
  );
});

/** A start at which at least one whole turn comes onto the limb, more often than not. */
const slight = fc
  .record({
    first: between(100, 600),
    change: between(0, 0.3),
    apart: between(100, 600),
    width: between(10, 100),
    overlap: between(0, 0.9),
  })
  .map(({ change, ...i }) => ({
    first: mm(i.first),
    last: mm(i.first + change * i.apart),
    apart: mm(i.apart),
    width: mm(i.width),
    overlap: ratio(i.overlap),
  }));

test('flat tape: girth times cosine of the lead angle stays, and each turn turns it by the sector', () => {
  fc.assert(
    fc.property(of(geodesicAdvance), (i) => {
      const { turns, leadAngle, sector, end } = geodesicAdvance.compute(i);
      const kept = i.first * Math.cos((leadAngle * Math.PI) / 180);
      const near = (a: number, b: number) => expect(Math.abs(a - b)).toBeLessThan(1e-7 * (1 + Math.abs(b)));
      let [before, at, length] = [leadAngle, 0, 0];
      const way = Math.hypot(i.apart, (i.last - i.first) / (2 * Math.PI));
      for (const t of turns) {
        near(t.girth * Math.cos((t.leadAngle * Math.PI) / 180), kept);
        near(t.leadAngle - before, sector);
        near(t.girth, i.first + ((i.last - i.first) * t.at) / i.apart);
        near(t.at - at, (t.advance * i.apart) / way);
        expect(t.length).toBeGreaterThan(length);
        expect(t.at).toBeLessThanOrEqual(i.apart * (1 + 1e-6));
        [before, at, length] = [t.leadAngle, t.at, t.length];
      }
      expect(end.length).toBeGreaterThanOrEqual(length * (1 - 1e-9));
      expect(turns.length).toBeLessThanOrEqual(end.turns * (1 + 1e-8));
      expect(turns.length + 1).toBeGreaterThan(end.turns);
    }),
    given,
  );
});

test('flat tape: overlap falls from turn to turn up a taper and grows down one', () => {
  fc.assert(
    fc.property(slight, fc.boolean(), (up, down) => {
      const i = down ? { ...up, first: up.last, last: up.first } : up;
      const overlaps = geodesicAdvance.compute(i).turns.map((t) => t.overlap);
      for (const [n, f] of overlaps.entries()) {
        const last = overlaps[n - 1] ?? i.overlap;
        if (down) expect(f).toBeGreaterThanOrEqual(last - 1e-9);
        else expect(f).toBeLessThanOrEqual(last + 1e-9);
      }
    }),
    given,
  );
});

test('flat tape: a stronger taper leaves less overlap at the second turn and opens a gap no later', () => {
  fc.assert(
    fc.property(slight, between(0, 1), (i, part) => {
      const slighter = { ...i, last: mm(i.first + part * (i.last - i.first)) };
      const [a, b] = [geodesicAdvance.compute(slighter), geodesicAdvance.compute(i)];
      const [first, second] = [a.turns[0], b.turns[0]];
      if (first && second) expect(second.overlap).toBeLessThanOrEqual(first.overlap + 1e-9);
      if (a.gap.kind === 'opens' && b.gap.kind === 'opens')
        expect(b.gap.after).toBeLessThanOrEqual(a.gap.after + 1e-7);
    }),
    given,
  );
});

test('flat tape: the gap opens between the last turn that overlaps and the first that does not', () => {
  fc.assert(
    fc.property(slight, (i) => {
      const { turns, gap } = geodesicAdvance.compute(i);
      for (const { turn, overlap } of turns) {
        // Turn n is measured from where it began, after n − 1 turns.
        if (gap.kind === 'none' || turn - 1 < gap.after - 1e-6) expect(overlap).toBeGreaterThanOrEqual(-1e-9);
        if (gap.kind === 'opens' && turn - 1 > gap.after + 1e-6) expect(overlap).toBeLessThan(1e-9);
      }
    }),
    given,
  );
});

test('flat tape: without taper it is the helix', () => {
  fc.assert(
    fc.property(slight, between(-1e-7, 1e-7), (i, change) => {
      fc.pre(i.width * (1 - i.overlap) < i.first / 2);
      const turns = geodesicAdvance.compute({ ...i, last: mm(i.first * (1 + change)) }).turns;
      const { advance, leadAngle, turnLength } = helix.compute({ ...i, girth: i.first });
      for (const t of turns) {
        // The lead angle changes by at most the change of girth over one advance.
        const most = (4 * i.first * i.first * Math.abs(change)) / advance;
        expect(Math.abs(t.advance - advance)).toBeLessThanOrEqual(most + 1e-11 * i.apart);
        if (change !== 0) continue;
        expect(agrees(t.advance, advance, i.apart)).toBe(true);
        expect(agrees(t.leadAngle, leadAngle)).toBe(true);
        expect(agrees(t.overlap, i.overlap, 1)).toBe(true);
        expect(agrees(t.length, t.turn * turnLength)).toBe(true);
      }
    }),
    given,
  );
});

test('flat tape and layer map differ as a straight line and a kept overlap do: never on a cylinder', () => {
  fc.assert(
    fc.property(slight, (i) => {
      const { leadAngle, advance } = helix.compute({ ...i, girth: i.first });
      // Steeper the map refuses.
      fc.pre(leadAngle < 60);
      const apart = mm(i.apart + 2 * i.width);
      const { end } = geodesicAdvance.compute({ ...i, last: i.first, apart });
      const stations = [mm(0), apart].map((at) => ({ at, girth: i.first }));
      const kept = layerMap.compute({
        stations,
        from: mm(0),
        to: apart,
        width: i.width,
        overlap: i.overlap,
        keeps: 'overlap',
        passes: 1,
        startTurns: 0,
        endTurns: 0,
        extra: [],
        stretch: ratio(0),
        wanted: { least: 0, most: 60 },
      });
      // The map's helix keeps half a bandage, along the limb, from each end.
      const reach = i.width / Math.cos((leadAngle * Math.PI) / 180);
      const ends = (2 * (i.width - reach / 2)) / advance;
      expect(agrees(end.turns - ends, kept.turns, 100)).toBe(true);
    }),
    { numRuns: given.numRuns / 5 },
  );
});

test('figures of eight: never shorter than both girths, longer with rise, layers from the width laid', () => {
  fc.assert(
    fc.property(of(figureOfEight), between(0, 1), (i, part) => {
      const value = figureOfEight.compute(i);
      expect(value.perFigure).toBeGreaterThanOrEqual((i.above + i.below) * (1 - 1e-12));
      expect(value.length).toBe(i.figures * value.perFigure);
      const lower = figureOfEight.compute({ ...i, riseAbove: mm(part * i.riseAbove) });
      expect(lower.perFigure).toBeLessThanOrEqual(value.perFigure * (1 + 1e-12));
      const circles = figureOfEight.compute({ ...i, riseAbove: mm(0), riseBelow: mm(0) });
      expect(agrees(circles.perFigure, i.above + i.below)).toBe(true);
      expect(circles.turnAtCrossing).toBe(0);
      // What is laid is what lies there.
      expect(agrees(value.mean * value.band, i.figures * i.width)).toBe(true);
      expect(value.mean).toBeLessThanOrEqual(value.most * (1 + 1e-9));
      // Where the two bands cross each lies on the other.
      expect([value.meanAtCrossing, value.mostAtCrossing]).toEqual(
        [value.mean, value.most].map((n) => n + n),
      );
      // Without end the mean is the helix's.
      const many = figureOfEight.compute({ ...i, figures: 40 });
      expect(many.mean).toBeLessThanOrEqual(Math.max(1, 1 / (1 - i.overlap)) * (1 + 1e-12));
      expect(many.most).toBe(Math.min(40, wholeUp(1 / (1 - i.overlap))));
      // On two alike parts the loops are two helical turns.
      const alike = figureOfEight.compute({ ...i, below: i.above, riseBelow: i.riseAbove });
      const turn = Math.sqrt(i.above * i.above + (2 * i.riseAbove) ** 2);
      expect(agrees(alike.perFigure, 2 * turn)).toBe(true);
    }),
    given,
  );
});
