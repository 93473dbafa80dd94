import { InputError } from 'swathe';
import { formula } from '../../../../packages/core/src/formula.ts';
import { count, length } from '../../../../packages/core/src/measure.ts';
import { cm, mm, wholeUp } from '../../../../packages/core/src/quantity.ts';
import { checkRow, type Row } from '../../../../tests/checks/rows.ts';

/**
 * Turns that reach along a stretch of limb.
 *
 * @throws InputError when the stretch or the advance is more, or less, than a limb or a bandage has
 * @example
 * turnsFor({ span: cm(24), advance: cm(5) }).value // 5
 */
const turnsFor = formula({
  id: 'coverage.turns-for',
  revision: 1,
  basis: 'identity',
  inputs: {
    span: length('stretch of limb to reach along', { symbol: 's', possible: [mm(10), mm(1000)] }),
    advance: length('advance along the limb per turn', { symbol: 'p', possible: [mm(1), mm(300)] }),
  },
  rises: ['span'],
  falls: ['advance'],
  output: count('turns', { symbol: 'n' }),
  sources: ['derivation.unrolled-helix'],
  compute: ({ span, advance }) => wholeUp(span / advance),
});

// Called with quantities, it answers; a bare number would not type-check.
const answer = turnsFor({ span: cm(24), advance: cm(5) });
console.log(answer.by, answer.value, answer.domain);

// A row holds it against something that does not come from this code: five turns of 48 mm reach 240 mm exactly, and a
// last-bit excess must not make it six.
const row: Row = {
  id: 'c1',
  kind: 'identity',
  source: 'derivation.unrolled-helix',
  status: 'derived',
  given: { span: { value: 240, unit: 'mm' }, advance: { value: 48, unit: 'mm' } },
  pointer: '/value',
  printed: '5',
  unit: '1',
  within: 'exact',
  note: '',
};
const { pass, got, expected } = checkRow(row, turnsFor);
console.log(`${row.id}: ${expected}; got ${got}; ${pass ? 'agrees' : 'fails'}`);

// What cannot be is refused before `compute` sees it.
try {
  turnsFor({ span: cm(24), advance: mm(0) });
} catch (error) {
  if (!(error instanceof InputError)) throw error;
  for (const { input, possible } of error.faults) console.log(`${input}: possible: ${possible}`);
}
