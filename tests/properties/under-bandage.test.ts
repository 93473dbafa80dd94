import fc from 'fast-check';
import { mm, newtons, underBandage } from 'swathe';
import { expect, test } from 'vitest';
import { agrees, answered, between, manyRuns } from '../generators.ts';

type Inputs = Parameters<typeof underBandage>[0];

const bandaged = answered(underBandage) as unknown as fc.Arbitrary<Inputs>;
const given = { numRuns: manyRuns };
const pressure = (i: Inputs, other: Partial<Inputs> = {}) => underBandage.compute({ ...i, ...other });

test('the pressure is in proportion to the tension, and to one over the width', () => {
  fc.assert(
    fc.property(bandaged, between(0, 1), (i, part) => {
      expect(agrees(pressure(i, { tension: newtons(i.tension * part) }), pressure(i) * part)).toBe(true);
      const wider = mm(i.width * (1 + part));
      expect(agrees(pressure(i, { width: wider }) * (1 + part), pressure(i))).toBe(true);
    }),
    given,
  );
});

test('without build-up it is in proportion to the layers, and to one over the girth', () => {
  fc.assert(
    fc.property(bandaged, between(1, 3), (i, by) => {
      const thin = { ...i, thickness: mm(0) };
      expect(agrees(pressure(thin), i.layers * pressure(thin, { layers: 1 }))).toBe(true);
      expect(agrees(pressure(thin, { girth: mm(i.girth * by) }) * by, pressure(thin))).toBe(true);
    }),
    given,
  );
});

test('with build-up each layer adds less than the one before, and all of them less than without', () => {
  fc.assert(
    fc.property(bandaged, (i) => {
      fc.pre(i.tension > 0 && i.thickness > 0.01);
      const added = Array.from({ length: i.layers }, (_, n) =>
        n === 0 ? pressure(i, { layers: 1 }) : pressure(i, { layers: n + 1 }) - pressure(i, { layers: n }),
      );
      for (const [n, one] of added.entries()) if (n > 0) expect(one).toBeLessThan(added[n - 1] as number);
      expect(pressure(i)).toBeLessThanOrEqual(pressure(i, { thickness: mm(0) }));
    }),
    given,
  );
});

test('a layer on top of others presses as one alone on a limb as thick as they make it', () => {
  fc.assert(
    fc.property(bandaged, (i) => {
      fc.pre(i.layers > 1);
      const under = i.layers - 1;
      const top = pressure(i) - pressure(i, { layers: under });
      const alone = pressure(i, { layers: 1, girth: mm(i.girth + 2 * Math.PI * under * i.thickness) });
      expect(agrees(top, alone, pressure(i))).toBe(true);
    }),
    given,
  );
});

test('it is told when the pressure is above what is assumed to close capillaries, and not when it is as high', () => {
  const { definition, numbers } = underBandage;
  const told = (value: number) => definition.cautions?.({} as never, value, numbers).length;
  expect([told(31.99), told(32), told(32.01)]).toEqual([0, 0, 1]);
});
