import { formula } from '../formula.ts';
import { amount, choice, duration, either, group, kind, length, share, text } from '../measure.ts';
import { cm, hold, months, ratio, tell, years } from '../quantity.ts';
import { normalShare, quantile95 } from './normal.ts';
import { type Lms, statures } from './stature-lms.ts';

/** Where a value stands: exact as L goes to 0, where the power becomes a logarithm. */
export const zOf = (x: number, [l, m, s]: Lms): number =>
  (l === 0 ? Math.log(x / m) : Math.expm1(l * Math.log(x / m)) / l) / s;

/** The value that stands at z. */
export const valueAt = (z: number, [l, m, s]: Lms): number =>
  m * Math.exp(l === 0 ? s * z : Math.log1p(l * s * z) / l);

const youngest = 24;
const oldest = 240;

/** L, M and S at an age, straight between one month of the table and the next. */
function lmsAt(sex: 'male' | 'female', age: number): Lms | undefined {
  if (age < youngest || age > oldest) return undefined;
  const table = statures[sex];
  const ages = table.map((_, n) => Math.min(oldest, n === 0 ? youngest : n + 23.5));
  const n = Math.max(
    1,
    ages.findIndex((month) => month >= age),
  );
  const [from, to] = [ages[n - 1], ages[n]] as [number, number];
  const [a, b] = [table[n - 1], table[n]] as [Lms, Lms];
  const between = (x: number, y: number): number => x + ((y - x) * (age - from)) / (to - from);
  return [between(a[0], b[0]), between(a[1], b[1]), between(a[2], b[2])];
}

/**
 * How tall a child is beside others of the same age and sex: percentile and z by the growth charts of the year 2000.
 *
 * The charts describe children of the United States from 2 to 20 years. They place a stature; they do not judge it.
 *
 * @throws InputError when an age or a stature is none that a person can have
 * @example
 * statureForAge({ sex: 'male', age: months(90.5), stature: cm(120) }).value // at 17.8 %
 */
export const statureForAge = /* @__PURE__ */ formula({
  id: 'segment.stature-for-age',
  revision: 1,
  basis: 'empirical',
  inputs: {
    sex: choice('sex, as the charts have it', ['male', 'female']),
    age: duration('age', {
      possible: [years(0), years(110)],
      tested: [months(youngest), months(oldest)],
    }),
    stature: length('stature, standing', { symbol: 'X', possible: [cm(40), cm(250)] }),
  },
  output: either([
    group({
      kind: kind('placed'),
      z: amount('standard deviations from the median, on the charts’ skewed scale', { symbol: 'z' }),
      percentile: share('share of such children who are shorter', {
        symbol: 'P',
        possible: [ratio(0), ratio(1)],
      }),
      median: length('median stature at that age', { symbol: 'M' }),
      least: length('stature that one in twenty do not reach', { symbol: 'X_5' }),
      most: length('stature that one in twenty exceed', { symbol: 'X_{95}' }),
      skew: amount('power that makes the distribution normal', { symbol: 'L' }),
      spread: amount('standard deviation as a share of the median', { symbol: 'S' }),
    }),
    group({ kind: kind('unsurveyed'), because: text('why there is no chart') }),
  ]),
  sources: ['cdc-2000-growth', 'derivation.normal-distribution'],
  compute: ({ sex, age, stature }) => {
    const lms = lmsAt(sex, tell(age, 'mo'));
    if (!lms) return { kind: 'unsurveyed' as const, because: 'the charts run from 24 to 240 months of age' };
    const [skew, median, spread] = lms;
    const z = zOf(tell(stature, 'cm'), lms);
    return {
      kind: 'placed' as const,
      z,
      percentile: normalShare(z),
      median: hold(median, 'cm'),
      least: hold(valueAt(-quantile95, lms), 'cm'),
      most: hold(valueAt(quantile95, lms), 'cm'),
      skew,
      spread,
    };
  },
});
