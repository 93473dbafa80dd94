import { describe, expect, test } from 'vitest';
import { cut, peakOf, sampled, type Trace, timeAbove } from '../../packages/core/src/setting/trace.ts';

/** A cubic a + b t + c t² + d t³ at some times, with its slope: between them a trace is to be that cubic. */
const traced = (
  times: readonly number[],
  [a, b, c, d]: readonly [number, number, number, number],
): Trace => ({
  time: times,
  value: times.map((t) => a + b * t + c * t * t + d * t ** 3),
  slope: times.map((t) => b + 2 * c * t + 3 * d * t * t),
});
const close = (got: number, wanted: number): void =>
  expect(Math.abs(got - wanted), `${got} and ${wanted}`).toBeLessThan(1e-12 * Math.max(1, Math.abs(wanted)));

describe('the peak, by where the derivative is nought', () => {
  test.each<[string, number[], [number, number, number, number], time: number, value: number]>([
    ['20 t − t² turns at 10', [0, 7, 12, 20], [0, 20, -1, 0], 10, 100],
    ['12 t − t³ turns at 2', [0, 1.5, 3, 5], [0, 12, 0, -1], 2, 16],
    ['9 t + 3 t² − t³ turns at 3, bent upwards at first', [0, 4], [0, 9, 3, -1], 3, 27],
    ['30 − 24 t + 9 t² − t³ turns at 4, from a step that begins at 3', [3, 5, 6], [30, -24, 9, -1], 4, 14],
    [
      't / 10⁹ + 3 t² − t³, almost level at first',
      [0, 4],
      [0, 1e-9, 3, -1],
      1 + Math.sqrt(1 + 1e-9 / 3),
      4 + 2e-9,
    ],
    ['20 t − t² left before it turns', [0, 2, 4], [0, 20, -1, 0], 4, 64],
    ['20 t − t² met after it has turned', [12, 14], [0, 20, -1, 0], 12, 96],
    ['5 + 2 t only rises', [0, 1, 4], [5, 2, 0, 0], 4, 13],
    ['5 − 2 t only falls', [1, 2, 4], [5, -2, 0, 0], 1, 3],
    ['7 stays, and is reached at once', [2, 3, 5], [7, 0, 0, 0], 2, 7],
    ['t² − 4 t is highest at an end', [0, 1, 3, 5], [0, -4, 1, 0], 5, 5],
    ['and at its only time', [6], [2, 0, 0, 0], 6, 2],
  ])('%s', (_, times, cubic, time, value) => {
    const peak = peakOf(traced(times, cubic));
    close(peak.time, time);
    close(peak.value, value);
  });

  test('of two humps the higher, whichever comes first; and an end above both', () => {
    // Up and down with slope s over one step: highest in the middle, by s / 4.
    const humps = (...slopes: number[]): Trace => ({
      time: slopes.map((_, n) => 2 * n),
      value: slopes.map(() => 1),
      slope: slopes,
    });
    const [first, second] = [humps(8, -8, 4, -4), humps(4, -4, 8, -8)].map(peakOf);
    expect(first).toEqual({ time: 1, value: 5 });
    expect(second).toEqual({ time: 5, value: 5 });
    expect(peakOf({ time: [0, 1, 2], value: [1, 1, 3], slope: [4, -4, 0] })).toEqual({ time: 2, value: 3 });
  });
});

describe('how long it stands above a level', () => {
  test.each<[number[], [number, number, number, number], level: number, time: number]>([
    [[0, 1, 4], [0, 1, 0, 0], 0.3, 3.7],
    [[0, 1, 4], [0, -1, 0, 0], -1.7, 1.7],
    [[2, 3, 5], [7, 0, 0, 0], 6, 3],
    [[2, 3, 5], [7, 0, 0, 0], 7, 0],
    [[2, 3, 5], [7, 0, 0, 0], 8, 0],
    // Just from a sixteenth on, and just up to one.
    [[0, 1], [0, 1, 0, 0], 0.25, 0.75],
    [[0, 1], [0, -1, 0, 0], -0.25, 0.25],
  ])('straight from %j: %j above %d', (times, cubic, level, time) => {
    close(timeAbove(traced(times, cubic), level), time);
  });

  test('of 20 t − t² by its roots, to what sixteenths of a step leave', () => {
    for (const level of [19, 51, 75, 96]) {
      const exact = 2 * Math.sqrt(100 - level);
      // A chord over h lies at most h² / 4 below this parabola; where it is crossed the slope is the root of 400 − 4 level.
      const off = (4 / 16) ** 2 / 4 / Math.sqrt(400 - 4 * level);
      const got = timeAbove(traced([0, 4, 8, 12, 16, 20], [0, 20, -1, 0]), level);
      expect(got).toBeLessThanOrEqual(exact + 1e-12);
      expect(got).toBeGreaterThan(exact - 2.1 * off);
    }
  });
});

describe('values at other times', () => {
  const cubic = [3, -2, 0.5, 0.25] as const;
  const value = (t: number): number => 3 - 2 * t + 0.5 * t * t + 0.25 * t ** 3;

  test('of a cubic are its own, however the steps lie, before and after them too', () => {
    const times = [-1, 0, 0.5, 1, 1, 3.9, 4, 6.5, 8];
    const got = sampled(traced([0, 1, 1.5, 4, 7], [...cubic]), times);
    for (const [n, t] of times.entries()) close(got[n] as number, value(t));
  });

  test('each by the step it lies in', () => {
    const bent: Trace = { time: [0, 2, 3, 4], value: [0, 2, 0, 5], slope: [1, 1, 0, 0] };
    // Straight to 2; from 2 to 0 with slopes 1 and 0: at the middle 1 + 1/8; from 0 to 5 level at both: the middle.
    expect(sampled(bent, [1, 2, 2.5, 3, 3.5, 4])).toEqual([1, 2, 1.125, 0, 2.5, 5]);
    expect(sampled(bent, [3.5])).toEqual([2.5]);
  });

  test('of a single time are that time’s', () => {
    expect(sampled({ time: [5], value: [2], slope: [1] }, [5, 6])).toEqual([2, 2]);
  });
});

test('stretches cut into equal parts, their own ends kept to the bit', () => {
  expect(cut([0, 3, 5], 2)).toEqual([0, 1.5, 3, 4, 5]);
  expect(cut([1, 4], 3)).toEqual([1, 2, 3, 4]);
  expect(cut([0.1, 0.9, 2.9], 3).filter((_, n) => n % 3 === 0)).toEqual([0.1, 0.9, 2.9]);
  expect(cut([7], 4)).toEqual([7]);
  expect(cut([], 4)).toEqual([]);
});
