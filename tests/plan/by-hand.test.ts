import { applicationPlan, type Plan } from 'swathe';
import { describe, expect, test } from 'vitest';
import { orderOf } from './cases.ts';

// The sums stand in by-hand.md. Lengths in cm.
const byHand = {
  'thumb-spica-slab': {
    ply: 37,
    plies: 8,
    width: 10,
    meanShare: 10 / 21.29,
    stockinette: [54, 7],
    wraps: [255.3, 44.1, 170.6],
    rolls: [1, 1, 2, 1, 1, 1],
    left: { plaster: [16, 238] },
  },
  'child-volar-slab': {
    ply: 18,
    plies: 6,
    width: 7.5,
    meanShare: 7.5 / 15.44,
    stockinette: [27],
    wraps: [168.3, 69.2],
    rolls: [1, 1, 1, 1],
    left: { plaster: [167] },
  },
  'short-leg-cast': {
    stockinette: [69],
    wraps: [414.3, 500.9],
    rolls: [1, 2, 2],
    left: {},
  },
};

const cm = (mm: number): number => mm / 10;
const opened = (plan: Plan): number[] =>
  plan.takeOff.value.lines.map((line) =>
    line.kind === 'taken' ? line.opened.reduce((sum, o) => sum + o.rolls, 0) : Number.NaN,
  );

describe.each(Object.entries(byHand))('%s agrees with the sums on paper', (name, hand) => {
  const plan = applicationPlan.fromJson(orderOf(name));

  test('cuts and rolls, exactly', () => {
    expect(plan.stockinette.map(({ cut }) => cm(cut.value))).toEqual(hand.stockinette);
    expect(opened(plan)).toEqual(hand.rolls);
    for (const [material, lengths] of Object.entries(hand.left)) {
      const left = plan.takeOff.value.left.filter((l) => l.material === material).map((l) => cm(l.left));
      expect(left).toEqual(lengths.map((l) => expect.closeTo(l, 9)));
    }
  });

  test('wound lengths, within 1.5 %: the hand sum leaves the slant out', () => {
    expect(plan.wraps).toHaveLength(hand.wraps.length);
    for (const [n, { map }] of plan.wraps.entries()) {
      const ratio = cm(map.value.offRoll) / (hand.wraps[n] as number);
      expect(ratio).toBeGreaterThan(1);
      expect(ratio).toBeLessThan(1.015);
    }
  });

  if (!('ply' in hand)) return;
  test('length, plies and width of the slab', () => {
    expect(cm(plan.slab?.cut.value ?? 0)).toBeCloseTo(hand.ply, 9);
    expect(plan.slab?.plies.used).toBe(hand.plies);
    expect(cm(plan.slab?.width.used ?? 0)).toBeCloseTo(hand.width, 9);
    expect(plan.slab?.share.value.mean).toBeCloseTo(hand.meanShare, 3);
  });
});

test('two passes of tape at half overlap lay four layers between the ends', () => {
  const { bands } = applicationPlan.fromJson(orderOf('short-leg-cast')).wraps[1]?.map.value ?? { bands: [] };
  const middle = bands.find((b) => b.from < 200 && b.to > 300);
  expect(middle).toMatchObject({ least: 4, most: 4 });
});
