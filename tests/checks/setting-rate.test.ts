import { celsius, supersaturation } from 'swathe';
import { describe, expect, test } from 'vitest';

type SettingRate = typeof import('../../packages/core/src/setting/setting-rate.ts')['settingRate'];

const kinetics = { k25: 0.003, activation: 35_000, order: 1.6, seed: 0.02 };
let loaded = 0;
/** The module keeps its table of the drive: each test loads it anew, so that the table is made there. */
async function loadedAnew() {
  loaded += 1;
  const url = new URL(`../../packages/core/src/setting/setting-rate.ts?${loaded}`, import.meta.url);
  const { settingRate } = (await import(url.href)) as { settingRate: SettingRate };
  const usual = settingRate(kinetics);
  const at = (temperature: number, conversion: number, of = usual) => {
    const out = { rate: 99, byTemperature: 99, byConversion: 99 };
    of(temperature, conversion, out);
    return out;
  };
  return { settingRate, at };
}
const drive = (t: number): number =>
  supersaturation.compute({ hemihydrate: 'beta', temperature: celsius(t) }).supersaturation - 1;
/** The law as it is written: k25 · exp(−E/R (1/T − 1/298.15)) · (drive / drive at 25 °C)ⁿ · (α + α0)^⅔ · (1 − α). */
const law = (t: number, a: number, { k25, activation, order, seed } = kinetics): number =>
  k25 *
  Math.exp((-activation / 8.314462618) * (1 / (t + 273.15) - 1 / 298.15)) *
  (drive(t) / drive(25)) ** order *
  (a + seed) ** (2 / 3) *
  (1 - a);
const near = (got: number, wanted: number, part: number): void =>
  expect(Math.abs(got - wanted), `${got} and ${wanted}`).toBeLessThan(part * Math.abs(wanted));

describe('the rate of setting', () => {
  test('is the law on each half degree, and between them but for a ten-thousandth', async () => {
    const { at } = await loadedAnew();
    for (const a of [0, 0.1, 0.6, 0.95])
      for (const t of [-10, -3.5, 0, 12, 25, 40.5, 77, 90]) {
        near(at(t, a).rate, law(t, a), 1e-12);
        near(at(t + 0.2, a).rate, law(t + 0.2, a), 1e-4);
        if (t > -10 && t < 80) near(at(t + 0.2, a).rate, law(t + 0.2, a), 2e-6);
      }
  });

  test('is what it is said to be at 25 °C, whatever the activation and the order', async () => {
    const { settingRate, at } = await loadedAnew();
    for (const [activation, order] of [
      [30_000, 1],
      [45_000, 2],
    ] as const) {
      const other = settingRate({ ...kinetics, activation, order });
      near(at(25, 0.4, other).rate, 0.003 * 0.42 ** (2 / 3) * 0.6, 1e-12);
      near(at(50, 0.4, other).rate, law(50, 0.4, { ...kinetics, activation, order }), 1e-12);
    }
  });

  test('changes with temperature and conversion as its own differences say, and as the law’s nearly do', async () => {
    const { at } = await loadedAnew();
    const step = 1e-5;
    for (const t of [-9.9, 3.1, 25.2, 36.6, 60.3, 84.9])
      for (const a of [0.05, 0.4, 0.9]) {
        const { byTemperature, byConversion } = at(t, a);
        near(byTemperature, (at(t + step, a).rate - at(t - step, a).rate) / (2 * step), 1e-5);
        near(byConversion, (at(t, a + step).rate - at(t, a - step).rate) / (2 * step), 1e-5);
        if (t > 0) near(byTemperature, (law(t + step, a) - law(t - step, a)) / (2 * step), 3e-3);
      }
  });

  test('runs smoothly over the half degrees', async () => {
    const { at } = await loadedAnew();
    for (const t of [-9.5, 10, 25, 39.5, 85]) {
      const [below, above] = [at(t - 1e-9, 0.3), at(t + 1e-9, 0.3)];
      near(above.rate, below.rate, 1e-9);
      near(above.byTemperature, below.byTemperature, 1e-6);
      // On a half degree the slope is that between its neighbours.
      near(at(t, 0.3).byTemperature, law(t + 0.5, 0.3) - law(t - 0.5, 0.3), 1e-9);
    }
  });

  test('is that of the coldest or the hottest paste beyond them', async () => {
    const { at } = await loadedAnew();
    expect(at(-40, 0.3).rate).toBe(at(-10, 0.3).rate);
    expect(at(-10, 0.3).byTemperature).not.toBe(0);
    near(at(-10, 0.3).byTemperature, (law(-9.5, 0.3) - law(-10, 0.3)) / 0.5, 1e-9);
    expect(at(500, 0.3).rate).toBe(0);
    expect(at(140, 0.3).rate).toBe(0);
  });

  test('is nought where hemihydrate no longer dissolves', async () => {
    const { at } = await loadedAnew();
    // Where the drive ends is found by halving; well beyond it nothing is left.
    let [low, high] = [80, 140];
    for (let k = 0; k < 60; k++) {
      const middle = (low + high) / 2;
      if (drive(middle) > 0) low = middle;
      else high = middle;
    }
    expect(at(low - 1, 0.3).rate).toBeGreaterThan(0);
    for (const t of [low + 1.1, low + 10, 139]) {
      expect(at(t, 0.3).rate).toBe(0);
      expect(at(t, 0.3).byTemperature).toBe(0);
      expect(at(t, 0.3).byConversion).toBe(0);
    }
  });

  test('is nought once all has set, and never runs back', async () => {
    const { at } = await loadedAnew();
    expect(at(30, 1).rate).toBe(0);
    expect(at(30, 1.001).rate).toBe(0);
    // What rounding takes below no conversion is none.
    expect(at(30, -0.01).rate).toBeCloseTo(at(30, 0).rate * 1.01, 12);
    near(at(30, 1).byConversion, -law(30, 0.5) * 2 * (1.02 / 0.52) ** (2 / 3), 1e-12);
  });
});
