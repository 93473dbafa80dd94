import { formula } from '../formula.ts';
import { amount, length } from '../measure.ts';
import { mm } from '../quantity.ts';

const allowance = (end: string, symbol: string) =>
  length(`allowance at the ${end} end; negative to stop short`, { symbol, possible: [mm(-300), mm(600)] });

/**
 * Length to cut: the measured path, as a multiple where the rule is one, and an allowance at each end.
 *
 * @throws InputError when nothing would be left to cut
 * @example
 * cutLength({ path: cm(33), times: 1, distal: mm(5), proximal: mm(5) }).value // 340 mm
 */
export const cutLength = /* @__PURE__ */ formula({
  id: 'segment.cut-length',
  revision: 1,
  basis: 'identity',
  inputs: {
    path: length('measured path, end to end', { symbol: 'p', possible: [mm(20), mm(3000)] }),
    times: amount('multiple of the path', { symbol: 'k', possible: [1, 3] }),
    distal: allowance('distal', 'a_d'),
    proximal: allowance('proximal', 'a_p'),
  },
  joint: [
    {
      input: 'path',
      possible: 'a path longer than what is taken off its ends',
      breach: (i) => (i.path * i.times + i.distal + i.proximal > 0 ? undefined : `${i.path} mm`),
    },
  ],
  symmetric: [['distal', 'proximal']],
  rises: ['path', 'times', 'distal', 'proximal'],
  output: length('length to cut', { symbol: 'l' }),
  sources: ['derivation.cut-length'],
  compute: ({ path, times, distal, proximal }) => path * times + distal + proximal,
});
