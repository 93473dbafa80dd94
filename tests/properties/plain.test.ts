import fc from 'fast-check';
import {
  cutLength,
  dipWater,
  roomLoss,
  setTimes,
  slabShare,
  stripLength,
  turnsOnRoll,
  woundDiameter,
} from 'swathe';
import { describe, expect, test } from 'vitest';
import { agrees, answered, between, disagreement, inputsOf, manyRuns } from '../generators.ts';

// Laws of what is a line or two of arithmetic, or a look into a table.

type In<F extends (inputs: never) => unknown> = Parameters<F>[0];
const same = (a: unknown, b: unknown, scale = 0): void => {
  expect(disagreement(a, b, scale)).toBeUndefined();
};
const always = <T>(of: fc.Arbitrary<T>, holds: (x: T) => void): void =>
  fc.assert(
    fc.property(of, (x) => {
      holds(x);
    }),
    { numRuns: manyRuns },
  );

describe('strip of a helix', () => {
  const strips = inputsOf(stripLength) as unknown as fc.Arbitrary<In<typeof stripLength>>;

  test('is no shorter than the way round or the way along, and no longer than both', () =>
    always(strips, (i) => {
      const length = stripLength.compute(i);
      expect(length).toBeGreaterThanOrEqual(i.turns * Math.max(i.girth, i.advance) * (1 - 1e-15));
      expect(length).toBeLessThanOrEqual(i.turns * (i.girth + i.advance) * (1 + 1e-15));
    }));

  test('of more turns is the strips end to end, and of a limb as large again twice as long', () =>
    always(fc.tuple(strips, between(0, 1)), ([i, part]) => {
      const of = (turns: number, size = 1): number =>
        stripLength.compute({ girth: i.girth * size, advance: i.advance * size, turns } as typeof i);
      same(of(i.turns * part) + of(i.turns * (1 - part)), of(i.turns));
      same(of(i.turns, 2), 2 * of(i.turns));
    }));
});

describe('share of the girth that a slab covers', () => {
  const slabs = answered(slabShare) as unknown as fc.Arbitrary<In<typeof slabShare>>;
  const shares = (i: In<typeof slabShare>): number[] => {
    const { atWidest, mean, atNarrowest } = slabShare.compute(i);
    return [atWidest, mean, atNarrowest];
  };

  test('of the mean girth lies between those where the limb is thickest and thinnest', () =>
    always(slabs, (i) => {
      const [least = 0, mean = 0, most = 0] = shares(i);
      expect(least).toBeLessThanOrEqual(mean * (1 + 1e-12));
      expect(mean).toBeLessThanOrEqual(most * (1 + 1e-12));
    }));

  test('goes with the width, and not with size or with which end is told first', () =>
    always(fc.tuple(slabs, between(0.2, 5)), ([i, by]) => {
      const wider = { ...i, width: i.width * by } as typeof i;
      same(
        shares(wider),
        shares(i).map((x) => x * by),
      );
      const stations = i.stations.map(({ at, girth }) => ({ at: at * by, girth: girth * by }));
      same(shares({ stations, width: i.width * by } as typeof i), shares(i));
      const turned = i.stations.toReversed().map(({ at, girth }) => ({ at: -at, girth }));
      same(shares({ ...i, stations: turned } as typeof i), shares(i));
    }));

  test('is not moved by one more girth on the line between two', () =>
    always(fc.tuple(slabs, between(0.1, 0.9)), ([i, part]) => {
      const [a, b, ...rest] = i.stations as unknown as readonly [
        (typeof i.stations)[0],
        (typeof i.stations)[0],
      ];
      const on = { at: a.at + (b.at - a.at) * part, girth: a.girth + (b.girth - a.girth) * part };
      same(shares({ ...i, stations: [a, on, b, ...rest] } as typeof i), shares(i));
    }));
});

describe('turns on a roll', () => {
  const rolls = inputsOf(turnsOnRoll) as unknown as fc.Arbitrary<In<typeof turnsOnRoll>>;

  test('as many as its depth holds, each as long as the mean way round', () =>
    always(rolls, (i) => {
      const turns = turnsOnRoll.compute(i);
      const outer = woundDiameter.compute(i);
      same(turns * Math.PI * ((outer + i.core) / 2), i.length);
      same(2 * turns * i.thickness + i.core, outer);
    }));

  test('wound in two goes, the second upon the first, are the turns of both', () =>
    always(fc.tuple(rolls, between(0.01, 0.99)), ([i, part]) => {
      const first = { ...i, length: i.length * part } as typeof i;
      const second = { ...i, length: i.length * (1 - part), core: woundDiameter.compute(first) } as typeof i;
      same(turnsOnRoll.compute(first) + turnsOnRoll.compute(second), turnsOnRoll.compute(i));
    }));

  test('are as many on a roll as large again of stuff twice as thick', () =>
    always(rolls, (i) => {
      // Twice as wide and twice as thick winds twice the length.
      const large = { length: i.length * 2, core: i.core * 2, thickness: i.thickness * 2 } as typeof i;
      same(turnsOnRoll.compute(large), turnsOnRoll.compute(i));
    }));
});

describe('length to cut', () => {
  const cuts = answered(cutLength) as unknown as fc.Arbitrary<In<typeof cutLength>>;

  test('of a path in two parts is that of both, each with the allowance of its own end', () =>
    always(fc.tuple(cuts, between(0, 1)), ([i, part]) => {
      const of = (path: number, distal: number, proximal: number): number =>
        cutLength.compute({ ...i, path, distal, proximal } as typeof i);
      const parts = of(i.path * part, i.distal, 0) + of(i.path * (1 - part), 0, i.proximal);
      same(parts, of(i.path, i.distal, i.proximal), i.path * i.times);
    }));

  test('undoes its allowances, and goes with size', () =>
    always(fc.tuple(cuts, between(0.1, 10)), ([i, by]) => {
      same((cutLength.compute(i) - i.distal - i.proximal) / i.times, i.path, i.path + 1200);
      const large = { ...i, path: i.path * by, distal: i.distal * by, proximal: i.proximal * by } as typeof i;
      same(cutLength.compute(large), cutLength.compute(i) * by, i.path * i.times * by);
    }));
});

describe('dip water', () => {
  const dips = inputsOf(dipWater) as unknown as fc.Arbitrary<In<typeof dipWater>>;
  const order = ['below', 'within', 'above'];

  test('stands below, within or above one span of each material, ends included', () =>
    always(dips, (i) => {
      const { least, most, place } = dipWater.compute(i);
      expect(least).toBeLessThan(most);
      expect(place === 'within').toBe(i.water >= least && i.water <= most);
      for (const end of [least, most])
        expect(dipWater.compute({ ...i, water: end } as typeof i)).toEqual({
          ...dipWater.compute(i),
          place: 'within',
        });
    }));

  test('never stands lower for being warmer, and there is something to heed outside its span alone', () =>
    always(fc.tuple(dips, between(0, 70)), ([i, other]) => {
      const [cold, warm] = [i.water, other].sort((a, b) => a - b);
      const at = (water = 0) => dipWater({ ...i, water } as typeof i);
      expect(order.indexOf(at(cold).value.place)).toBeLessThanOrEqual(order.indexOf(at(warm).value.place));
      const { value, cautions } = at(warm);
      expect(cautions.map(({ code }) => code)).toEqual(
        { below: ['dip-below-range'], within: [], above: ['dip-above-limit'] }[value.place],
      );
    }));
});

describe('set times', () => {
  const times = inputsOf(setTimes) as unknown as fc.Arbitrary<In<typeof setTimes>>;

  test('a window is all that is published for its stage and nothing more', () =>
    always(times, (i) => {
      for (const window of setTimes.compute(i)) {
        if (window.kind === 'unstated') continue;
        for (const { least, most } of window.published) expect(least).toBeLessThanOrEqual(most);
        expect(window.published.map(({ least }) => least)).toContain(window.least);
        expect(window.published.map(({ most }) => most)).toContain(window.most);
        for (const { least, most } of window.published) {
          expect(least).toBeGreaterThanOrEqual(window.least);
          expect(most).toBeLessThanOrEqual(window.most);
        }
      }
    }));

  test('no water moves a time: it is told sooner or later where the water stands outside its span', () =>
    always(times, ({ material, dip }) => {
      const { value, cautions } = setTimes({ material, ...(dip !== undefined && { dip }) });
      expect(value).toEqual(setTimes.compute({ material }));
      const of = material === 'fibreglass' ? 'fibreglass' : 'plaster';
      const place = dip === undefined ? 'within' : dipWater.compute({ material: of, water: dip }).place;
      expect(cautions.map(({ code }) => code).filter((code) => code.startsWith('sets-'))).toEqual(
        { below: ['sets-later'], within: [], above: ['sets-sooner'] }[place],
      );
    }));
});

describe('heat that a bare limb gives to a still room', () => {
  const losses = inputsOf(roomLoss) as unknown as fc.Arbitrary<In<typeof roomLoss>>;
  const of = (i: In<typeof roomLoss>, change: Partial<Record<keyof In<typeof roomLoss>, number>> = {}) =>
    roomLoss.compute({ ...i, ...change } as typeof i);

  test('is as much per kelvin from limb to room as from room to limb', () =>
    always(losses, (i) => same(of(i, { surface: i.room, room: i.surface }), of(i))));

  test('by air: more from a thinner limb, and more for a greater difference about the same mean', () =>
    always(fc.tuple(losses, between(1.01, 3), between(0, 0.99)), ([i, by, part]) => {
      expect(of(i, { diameter: i.diameter * by }).convection).toBeLessThan(of(i).convection);
      expect(of(i, { diameter: i.diameter * by }).nusselt).toBeGreaterThanOrEqual(of(i).nusselt);
      const [mean, half] = [(i.surface + i.room) / 2, (part * (i.surface - i.room)) / 2];
      expect(of(i, { surface: mean + half, room: mean - half }).convection).toBeLessThanOrEqual(
        of(i).convection * (1 + 1e-12),
      );
    }));

  test('by air that does not move it is what the air conducts', () =>
    always(losses, (i) => {
      const { nusselt, convection } = of(i, { surface: i.room });
      expect(agrees(nusselt, 0.36)).toBe(true);
      same(convection * i.diameter, of(i, { surface: i.room, diameter: 100 }).convection * 100);
    }));

  test('by radiation: as the emissivity, whatever the limb, between four times the cubes of both', () =>
    always(fc.tuple(losses, between(0, 1)), ([i, part]) => {
      const { radiation } = of(i);
      same(of(i, { emissivity: i.emissivity * part }).radiation, radiation * part);
      expect(of(i, { diameter: 50 }).radiation).toBe(radiation);
      const cubes = [i.surface, i.room].map((t) => 4 * 5.670374419e-8 * i.emissivity * (t + 273.15) ** 3);
      expect(radiation).toBeGreaterThanOrEqual(Math.min(...cubes) * (1 - 1e-12));
      expect(radiation).toBeLessThanOrEqual(Math.max(...cubes) * (1 + 1e-12));
    }));
});
