import { length, share } from '../measure.ts';
import { mm, ratio } from '../quantity.ts';

export const width = length('width of the bandage as it lies', { symbol: 'w', possible: [mm(10), mm(500)] });

export const overlap = share(
  'overlap of each turn on the last, as a share of the width; a gap where negative',
  {
    symbol: 'f',
    possible: [ratio(-1), ratio(0.95)],
  },
);
