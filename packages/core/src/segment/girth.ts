import { length } from '../measure.ts';
import { mm } from '../quantity.ts';

export const girth = length('girth of the limb', { symbol: 'C', possible: [mm(30), mm(1200)] });
