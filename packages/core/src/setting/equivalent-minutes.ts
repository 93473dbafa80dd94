import { formula } from '../formula.ts';
import { duration } from '../measure.ts';
import { history, outOfOrder, stretchesOf } from './injury-laws.ts';

const from = {
  source: 'sapareto-1984-dose',
  at: 'as implemented in a second source',
  status: 'read-secondary',
} as const;

/** Mean of base^(43 − T) while T goes straight from one value to another. */
function meanOf(base: number, reference: number, t1: number, t2: number): number {
  const start = base ** (reference - t1);
  const grows = Math.log(base) * (t1 - t2);
  return grows === 0 ? start : (start * Math.expm1(grows)) / grows;
}

/**
 * Cumulative equivalent minutes at 43 °C of a history of temperature in tissue: how long 43 °C would have to last for as much.
 *
 * Each degree above 43 °C doubles what a minute counts; each below quarters it. It compares histories; it is no limit for a
 * person.
 *
 * @throws InputError when the times do not run on
 * @example
 * equivalentMinutes({ history: [{ time: hours(0), temperature: celsius(44) }, { time: hours(6), temperature: celsius(44) }] }).value / 60 // 720
 */
export const equivalentMinutes = /* @__PURE__ */ formula({
  id: 'setting.equivalent-minutes',
  revision: 1,
  basis: 'empirical',
  inputs: { history },
  joint: [{ input: 'history', possible: 'times that run on', breach: ({ history }) => outOfOrder(history) }],
  constants: {
    reference: {
      ...from,
      unit: 'Cel',
      printed: '43',
      symbol: 'T_r',
      says: 'temperature that minutes are told at',
    },
    above: { ...from, unit: '1', printed: '0.5', symbol: 'R', says: 'base above that temperature' },
    below: { ...from, unit: '1', printed: '0.25', says: 'base below it' },
  },
  output: duration('time at 43 °C that counts as much', { symbol: 't_{43}' }),
  sources: ['sapareto-1984-dose', 'heylmun-2020-exposure'],
  compute: ({ history }, c) => {
    const baseAt = (t: number): number => (t > c.reference ? c.above : c.below);
    return stretchesOf(history).reduce((sum, [time, t1, t2]) => {
      const share = (c.reference - t1) / (t2 - t1);
      if (!(share > 0 && share < 1))
        return sum + time * meanOf(baseAt(Math.max(t1, t2)), c.reference, t1, t2);
      return (
        sum +
        time * share * meanOf(baseAt(t1), c.reference, t1, c.reference) +
        time * (1 - share) * meanOf(baseAt(t2), c.reference, c.reference, t2)
      );
    }, 0);
  },
});
