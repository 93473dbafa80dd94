import { type Answer, formula, InputError, mm, recheck, stripLength } from 'swathe';
import { describe, expect, test } from 'vitest';
import { group, length, list, text } from '../../packages/core/src/measure.ts';

/** A formula two revisions on: the second counted the ends, the third told them apart. */
const later = formula({
  ...stripLength.definition,
  revision: 3,
  changes: { 2: 'Ends are counted.', 3: 'Ends count 20 mm each.' },
  compute: (inputs) => stripLength.compute(inputs) + (inputs.turns > 0 ? 40 : 0),
});
const kept = (turns: number, revision = 1): Answer => ({
  ...JSON.parse(JSON.stringify(stripLength({ girth: mm(165), advance: mm(38.1), turns }))),
  by: `${stripLength.id}@${revision}`,
});

const revisions = (then: number, now: number) => ({ then, now });

describe('an answer of an earlier revision', () => {
  test('differs, with what each revision since then changed', () => {
    const then = kept(6).value as number;
    expect(recheck(kept(6), later)).toEqual({
      kind: 'differs',
      revision: revisions(1, 3),
      differences: [{ path: '', then, now: then + 40 }],
      changes: ['Ends are counted.', 'Ends count 20 mm each.'],
    });
    const second = recheck(kept(6, 2), later);
    expect(second.kind === 'differs' && second.changes).toEqual(['Ends count 20 mm each.']);
  });

  test('holds where its own number did not move', () => {
    expect(recheck(kept(0), later)).toEqual({ kind: 'holds' });
  });

  test('of this revision differs with no change to tell: the record was altered', () => {
    const found = recheck({ ...kept(6), value: 1000 }, stripLength);
    expect(found).toMatchObject({ kind: 'differs', revision: revisions(1, 1), changes: [] });
  });

  test('is refused where its inputs are no longer possible', () => {
    const narrower = formula({
      ...stripLength.definition,
      revision: 2,
      changes: { 2: 'Nothing over five turns.' },
      joint: [
        { input: 'turns', possible: 'up to 5', breach: ({ turns }) => (turns > 5 ? `${turns}` : undefined) },
      ],
    });
    expect(() => recheck(kept(6), narrower)).toThrow(InputError);
    expect(recheck(kept(5), narrower).kind).toBe('holds');
  });
});

test('a last bit is no difference, even where it carries over the twelfth digit; the twelfth digit is one', () => {
  // Half-way between two numbers of twelve digits.
  const edge = 1.000000000005;
  const same = formula({ ...stripLength.definition, compute: () => edge * (1 + 2 ** -52) });
  expect(recheck({ ...kept(6), value: edge * (1 - 2 ** -52) }, same).kind).toBe('holds');
  expect(recheck({ ...kept(6), value: 1.00000000002 }, same).kind).toBe('differs');
});

test.each([
  'coverage.strip-length@1.5',
  'coverage.strip-length@1e0',
  'coverage.strip-length@01',
  'x@coverage.strip-length@1',
])('%s names no revision', (by) => {
  expect(() => recheck({ ...kept(6), by }, stripLength)).toThrow(InputError);
});

test('what differs is told by its path, whatever stands there', () => {
  const now = { list: [1, -2], note: 'a', part: { a: 3 } };
  const { cautions: _, ...bare } = stripLength.definition;
  const shaped = formula({
    ...bare,
    output: group({
      list: list(length('each'), [0, 9]),
      note: text('note'),
      part: group({ a: length('a') }),
    }),
    compute: () => now,
  });
  const found = (value: unknown) => {
    const told = recheck({ ...kept(6), value }, shaped);
    return told.kind === 'differs' ? told.differences.map((d) => [d.path, d.then, d.now]) : [];
  };
  expect(found(now)).toEqual([]);
  expect(found({ ...now, list: [1, 2] })).toEqual([['list.1', 2, -2]]);
  expect(found({ ...now, list: [1] })).toEqual([['list.1', undefined, -2]]);
  expect(found({ ...now, list: [1, -2, 0] })).toEqual([['list.2', 0, undefined]]);
  for (const list of [{ 0: 1, 1: -2 }, null, 5, '1,-2'])
    expect(found({ ...now, list })).toEqual([['list', list, now.list]]);
  for (const part of [[3], null, 3, 'a']) expect(found({ ...now, part })).toEqual([['part', part, now.part]]);
  for (const a of ['3', null, [3], { b: 3 }])
    expect(found({ ...now, part: { a } })).toEqual([['part.a', a, 3]]);
  expect(found({ ...now, note: 0 })).toEqual([['note', 0, 'a']]);
  expect(found(null)).toEqual([['', null, now]]);
});

test('a revision is a whole number and nothing else, of as many digits as it has', () => {
  const twelfth = formula({ ...stripLength.definition, revision: 12 });
  expect(recheck({ ...kept(6), by: `${stripLength.id}@10` }, twelfth).kind).toBe('holds');
  expect(recheck({ ...kept(6), by: `${stripLength.id}@12` }, twelfth).kind).toBe('holds');
  for (const revision of ['13', '1x', '1.5', '01', '-1', ''])
    expect(() => recheck({ ...kept(6), by: `${stripLength.id}@${revision}` }, twelfth), revision).toThrow(
      InputError,
    );
});
