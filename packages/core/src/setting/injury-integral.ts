import { formula } from '../formula.ts';
import { amount, flag, group } from '../measure.ts';
import {
  branchesOf,
  comparesLaws,
  history,
  integralOver,
  law,
  lawConstants,
  outOfOrder,
  stretchesOf,
} from './injury-laws.ts';

const degree = (symbol: string) =>
  group({
    threshold: amount('integral at which the sources set this degree', { symbol }),
    reached: flag('whether the integral reaches it'),
  });

/**
 * Integral of a published law of injury by heat over a history of temperature in tissue, beside the sources' thresholds.
 *
 * A measure of what a history of heat amounts to, to compare histories and laws with each other: the laws differ from each
 * other three- to sevenfold, so it says nothing about a person. The law is always named, since none stands out.
 *
 * @throws InputError when the times do not run on
 * @example
 * injuryIntegral({ law: 'henriques', history: [{ time: seconds(0), temperature: celsius(46) }, { time: minutes(30), temperature: celsius(46) }] }).value.integral // 0.48…
 */
export const injuryIntegral = /* @__PURE__ */ formula({
  id: 'setting.injury-integral',
  revision: 1,
  basis: 'empirical',
  inputs: { law, history },
  joint: [{ input: 'history', possible: 'times that run on', breach: ({ history }) => outOfOrder(history) }],
  constants: lawConstants,
  output: group({
    integral: amount('integral of the law', { symbol: '\\Omega' }),
    first: degree('\\Omega_1'),
    second: degree('\\Omega_2'),
    third: degree('\\Omega_3'),
  }),
  sources: ['heylmun-2020-exposure', 'jiang-2002-skin'],
  compute: ({ law, history }, c) => {
    const branches = branchesOf(law, c);
    const integral = stretchesOf(history).reduce(
      (sum, [time, from, to]) => sum + integralOver(branches, c.knee, time, from, to),
      0,
    );
    const beside = (threshold: number) => ({ threshold, reached: integral >= threshold });
    return {
      integral,
      first: beside(c.firstDegree),
      second: beside(c.secondDegree),
      third: beside(c.thirdDegree),
    };
  },
  cautions: () => [comparesLaws],
});
