import { celsius, contactTime, mm } from 'swathe';
import { describe, expect, test } from 'vitest';
import { gridOf } from '../../packages/core/src/setting/column.ts';
import { march } from '../../packages/core/src/setting/march.ts';

const { henriquesFactor, henriquesActivation, firstDegree, secondDegree, thirdDegree } = contactTime.numbers;
const rate = (t: number): number => henriquesFactor * Math.exp(-henriquesActivation / (t + 273.15));
const thresholds = { first: firstDegree, second: secondDegree, third: thirdDegree };
type Degree = keyof typeof thresholds;

const at = (surface: number, epidermis: number, degree: Degree = 'second') =>
  contactTime({
    law: 'henriques',
    degree,
    surface: celsius(surface),
    start: celsius(34),
    epidermis: mm(epidermis),
  }).value;
/** The surface that would reach a threshold after so long if the basal layer were as warm. */
const surfaceFor = (time: number, degree: Degree = 'second'): number =>
  henriquesActivation / Math.log((henriquesFactor * time) / thresholds[degree]) - 273.15;

/** Skin in equal cells of a hundredth of a millimetre, then wider: the basal layer's temperature by small steps. */
function independently(surface: number, epidermis: number, degree: Degree): number {
  const layer = (d: number, conductivity: number, capacity: number, cells: number, blood: number) => ({
    thickness: d / 1000,
    conductivity,
    capacity,
    cells,
    source: 0,
    blood,
    arterial: 34,
    contact: 0,
  });
  const flow = 0.00125 * 3770 * 1060;
  const grid = gridOf({
    radius: undefined,
    layers: [
      layer(epidermis, 0.24, 3590 * 1200, Math.round(epidermis * 100), 0),
      layer(2, 0.45, 3300 * 1200, 60, flow),
      layer(10, 0.19, 2.5e6, 50, flow),
      layer(30, 0.5, 4e6, 40, flow),
    ],
    inner: { fixed: surface },
    outer: { fixed: 37 },
  });
  const n = grid.capacity.length;
  const still = { time: 0, temperature: new Float64Array(n).fill(34), conversion: new Float64Array(n) };
  let [integral, before, speed, reached] = [0, 0, rate(34), Number.NaN];
  march(grid, still, 86_400, 1e-4, ({ time, temperature }) => {
    const now = rate(grid.at(epidermis / 1000, temperature));
    const more = ((speed + now) / 2) * (time - before);
    const wanted = thresholds[degree];
    if (integral < wanted && integral + more >= wanted)
      reached = before + ((wanted - integral) / more) * (time - before);
    integral += more;
    [before, speed] = [time, now];
  });
  return reached;
}

describe('time to a threshold', () => {
  test.each([
    [48, 1, 'second'],
    [46, 0.6, 'first'],
    [60, 0.2, 'third'],
  ] as const)('%d °C over %d mm, %s degree, on cells of this test', (surface, epidermis, degree) => {
    const value = at(surface, epidermis, degree);
    const wanted = independently(surface, epidermis, degree);
    if (value.kind !== 'reached') throw new Error('not reached');
    expect(Math.abs(value.time / wanted - 1)).toBeLessThan(2e-3);
    // What is told of the error is an error, and small.
    expect(value.uncertainty).toBeGreaterThan(0);
    expect(value.uncertainty).toBeLessThan(1e-2 * value.time);
    expect(value.basal).toBeLessThan(surface);
    // No sooner than at the surface's own temperature, which the basal layer never has.
    expect(value.time).toBeGreaterThan(thresholds[degree] / rate(surface));
  });

  test('a thick epidermis takes more than twice what its surface would, and is followed so far', () => {
    const value = at(48, 1);
    if (value.kind !== 'reached') throw new Error('not reached');
    expect(value.time).toBeGreaterThan(2 * (secondDegree / rate(48)) + 10);
  });

  test('falls as the surface warms, also where the first look ends between the two meshes', () => {
    const time = (surface: number): number => {
      const value = at(surface, 0.5);
      if (value.kind !== 'reached') throw new Error('not reached');
      return value.time;
    };
    // The first look is as long as the surface by itself would take twice, and ten seconds.
    const beyond = (surface: number): number => time(surface) - (2 * (secondDegree / rate(surface)) + 10);
    let [low, high] = [44, 60];
    expect(beyond(low)).toBeLessThan(0);
    expect(beyond(high)).toBeGreaterThan(0);
    for (let k = 0; k < 14; k++) {
      const middle = (low + high) / 2;
      if (beyond(middle) < 0) low = middle;
      else high = middle;
    }
    const times = Array.from({ length: 21 }, (_, n) => time(low + (n - 10) * 2e-4));
    expect(times).toEqual(times.toSorted((a, b) => b - a));
    expect(new Set(times).size).toBe(21);
  });

  test('no longer than a day: reached on one side of it, not on the other', () => {
    // Through skin this thin the surface reaches it soon after it would by itself; through a millimetre it takes far longer.
    const close = at(surfaceFor(70_000, 'third'), 0.02, 'third');
    expect(close).toMatchObject({ kind: 'reached' });
    if (close.kind === 'reached') {
      expect(close.time).toBeGreaterThan(70_000);
      expect(close.time).toBeLessThan(86_400);
    }
    expect(at(surfaceFor(70_000, 'third'), 1, 'third')).toEqual({ kind: 'not reached', within: 86_400 });
    // Nor where even the surface would take longer, or where the day ends before the second look.
    expect(at(surfaceFor(100_000, 'third'), 0.02, 'third')).toEqual({ kind: 'not reached', within: 86_400 });
    expect(at(surfaceFor(20_000, 'third'), 1, 'third')).toEqual({ kind: 'not reached', within: 86_400 });
  });

  test('in the basal layer as warm as a layer at rest is, once long held', () => {
    // Down to the core by resistances and blood: in tissue that blood flows through, hyperbolic sines.
    const surface = surfaceFor(30_000);
    const value = at(surface, 0.08);
    if (value.kind !== 'reached') throw new Error('not reached');
    const flow = 0.00125 * 3770 * 1060;
    // From the core outwards: [temperature, flux] at one face to those at the next, for 0 and for 1 W/m2 from the core.
    const outwards = (flux: number): readonly [number, number] => {
      let [t, q] = [37 - 34, flux];
      for (const [d, k] of [
        [0.03, 0.5],
        [0.01, 0.19],
        [0.002, 0.45],
      ] as const) {
        const m = Math.sqrt(flow / k);
        const [c, s] = [Math.cosh(m * d), Math.sinh(m * d)];
        [t, q] = [t * c + (q * s) / (k * m), t * k * m * s + q * c];
      }
      return [t + 34, t + 34 + (q * 0.00008) / 0.24];
    };
    const [[b0, s0], [b1, s1]] = [outwards(0), outwards(1)];
    const share = (surface - s0) / (s1 - s0);
    expect(Math.abs(value.basal - (b0 + share * (b1 - b0)))).toBeLessThan(1e-3);
  });
});
