import fc from 'fast-check';
import {
  celsius,
  codes,
  codesFor,
  digits12,
  fahrenheit,
  feet,
  hold,
  inch,
  kgf,
  metres,
  minutes,
  percent,
  tell,
  type UnitCode,
  wholeDown,
  wholeUp,
  yards,
} from 'swathe';
import { describe, expect, test } from 'vitest';
import { isCode } from '../../packages/core/src/quantity.ts';
import { agrees, between, manyRuns, runs } from '../generators.ts';

const names = Object.keys(codes) as UnitCode[];
const number = fc.oneof(between(-1e6, 1e6), between(-1, 1), fc.double({ noNaN: true, min: 1e-6, max: 1e9 }));

describe.each(names)('%s', (code) => {
  // A scale with a zero of its own is exact to the last digits of that zero.
  const { zero = 0 } = codes[code] as { times: number; zero?: number };

  test('told and held again is the same at 12 digits', () => {
    fc.assert(
      fc.property(number, (x) => {
        expect(agrees(tell(hold(x, code), code), x, zero)).toBe(true);
        expect(agrees(hold(tell(x, code), code), x, zero)).toBe(true);
      }),
      { numRuns: manyRuns },
    );
  });

  test('keeps order', () => {
    fc.assert(
      fc.property(number, number, (a, b) => {
        const [less, more] = [Math.min(a, b), Math.max(a, b)];
        expect(hold(less, code)).toBeLessThanOrEqual(hold(more, code));
      }),
      { numRuns: manyRuns },
    );
  });

  test('is among the codes of the unit that it is held in, after that unit', () => {
    const held = codes[code].holds;
    expect(codesFor(held)[0]).toBe(held);
    expect(codesFor(held)).toContain(code);
    expect(codesFor(held).every((other) => codes[other].holds === held)).toBe(true);
  });
});

test('a unit code is one of these texts and nothing else', () => {
  expect([...names, 'mm'].every(isCode)).toBe(true);
  for (const other of ['ell', 'MM', '', 'toString', '__proto__', 7, null, undefined, {}, ['mm']])
    expect(isCode(other), String(other)).toBe(false);
});

test('decimal multiples of an inch, a foot and a yard are the decimal number that they are', () => {
  for (let n = 1; n <= 4000; n++) {
    expect(inch(n / 4)).toBe(Number(`${(n * 635) / 100}`));
    expect(feet(n)).toBe(inch(12 * n));
    expect(yards(n)).toBe(feet(3 * n));
  }
  expect(inch(3)).toBe(76.2);
  expect(metres(0.0762)).toBe(76.2);
  expect([minutes(1.5), percent(50), kgf(1)]).toEqual([90, 0.5, 9.80665]);
});

test('0, 37 and 100 °C are 32, 98.6 and 212 °F, both ways', () => {
  expect([fahrenheit(32), fahrenheit(98.6), fahrenheit(212)]).toEqual([0, 37, 100]);
  expect([0, 37, 100].map((t) => tell(celsius(t), '[degF]'))).toEqual([32, 98.6, 212]);
  expect(fahrenheit(-40)).toBe(-40);
});

test('the number of whole things is never one off on an exact multiple', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 5000 }),
      between(0.01, 5000),
      fc.constantFrom(1, 3, 7, 9, 11),
      (k, x, by) => {
        const part = x / by;
        expect([wholeUp((k * part) / part), wholeDown((k * part) / part)]).toEqual([k, k]);
        const sum = Array.from({ length: Math.min(k, 300) }).reduce<number>((total) => total + part, 0);
        expect([wholeUp(sum / part), wholeDown(sum / part)]).toEqual([Math.min(k, 300), Math.min(k, 300)]);
      },
    ),
    { numRuns: 10 * runs },
  );
});

test('a last bit too much or too little is neither one more nor one less, at any size', () => {
  for (const k of [1, 3, 1000, 1e6, 1e8]) {
    expect([wholeUp(k * (1 + 2 ** -52)), wholeDown(k * (1 - 2 ** -53))]).toEqual([k, k]);
    expect([wholeUp(k), wholeDown(k)]).toEqual([k, k]);
  }
  // What is left when three tenths are taken from one and two of them: nothing, but for the last bit.
  expect(wholeUp(0.1 + 0.2 - 0.3) + 0).toBe(0);
  expect(wholeDown(0.3 - (0.1 + 0.2))).toBe(0);
});

test('a part of one more counts up, and does not count down', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 100_000 }), between(0.001, 0.999), (k, part) => {
      expect([wholeUp(k + part), wholeDown(k + part)]).toEqual([k + 1, k]);
    }),
    { numRuns: manyRuns },
  );
});

test('12 digits are kept and no more', () => {
  expect(digits12(0.1 + 0.2)).toBe(0.3);
  expect(digits12(3 * 25.4)).toBe(76.2);
  expect(digits12(1.00000000001)).toBe(1.00000000001);
});
