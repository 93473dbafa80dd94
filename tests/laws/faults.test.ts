import { formula, InputError, mm } from 'swathe';
import { aboutOf, inside, numberOf } from 'swathe/definition';
import { jsonSchema } from 'swathe/schema';
import { describe, expect, test } from 'vitest';
import {
  amount,
  choice,
  count,
  either,
  flag,
  group,
  kind,
  length,
  list,
  optional,
  share,
  text,
} from '../../packages/core/src/measure.ts';

const lengths = 'mm, cm, m, [in_i], [ft_i], [yd_i]';

/** One input of each kind: what is said of each is written here by hand. It is made anew each time, so that making it is tested too. */
const every = () =>
  formula({
    id: 'test.every',
    revision: 1,
    basis: 'identity',
    inputs: {
      girth: length('girth', { possible: [mm(100), mm(400)] }),
      free: length('a length without limits'),
      turns: count('turns', { possible: [1, 20] }),
      things: count('things'),
      part: share('part', { possible: [0 as never, 1 as never] }),
      material: choice('material', ['plaster', 'fibreglass']),
      note: text('note'),
      folded: flag('folded'),
      spare: optional(length('spare', { possible: [mm(0), mm(50.8)] })),
      widths: list(length('width', { possible: [mm(10), mm(254)] }), [1, 3]),
      fold: either([
        group({ kind: kind('flat'), across: length('across') }),
        group({ kind: kind('round'), of: text('of') }),
      ]),
      size: group({ a: length('a'), b: count('b') }),
      mark: kind('m'),
    },
    output: length('nothing'),
    sources: [],
    compute: () => 0,
  });

const cm = (value: unknown) => ({ value, unit: 'cm' });
const inches = (value: unknown) => ({ value, unit: '[in_i]' });
const good = {
  girth: cm(25),
  free: cm(1),
  turns: 3,
  things: 2,
  part: 0.5,
  material: 'plaster',
  note: 'left arm',
  folded: true,
  spare: inches(1),
  widths: [cm(10), inches(4)],
  fold: { kind: 'flat', across: cm(3) },
  size: { a: cm(1), b: 2 },
  mark: 'm',
};

function faultsOf(call: () => unknown) {
  try {
    call();
    return [];
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return error.faults.map(({ input, fault, got, possible }) => [input, fault, got, possible]);
  }
}

test('what can be is read, told in any unit', () => {
  expect(every().fromJson(good).value).toBe(0);
  const { spare: _, ...without } = good;
  expect(faultsOf(() => every().fromJson(without))).toEqual([]);
});

test('the limits themselves can be', () => {
  const ends = { girth: cm(10), turns: 20, part: 1, spare: cm(0), widths: [cm(1), inches(10), cm(1)] };
  expect(faultsOf(() => every().fromJson({ ...good, ...ends }))).toEqual([]);
  expect(faultsOf(() => every().fromJson({ ...good, girth: cm(40), turns: 1, part: 0 }))).toEqual([]);
});

const told = (value: object, unit: string) => ({
  type: 'object',
  properties: { value, unit: { const: unit } },
  required: ['value', 'unit'],
  additionalProperties: false,
});

test('each kind is known for what it is, and its JSON Schema says so', () => {
  expect(aboutOf(flag('folded'))).toEqual({ kind: 'flag', says: 'folded', unit: null });
  expect(aboutOf(choice('material', ['plaster']))).toEqual({ kind: 'choice', says: 'material', unit: null });
  expect(aboutOf(text('note'))).toEqual({ kind: 'text', says: 'note', unit: null });
  expect(inside(list(flag('folded'), [1, 3])).size).toEqual([1, 3]);
  expect(jsonSchema(every())).toMatchObject({
    type: 'object',
    additionalProperties: false,
    properties: {
      material: { type: 'string', enum: ['plaster', 'fibreglass'], description: 'material' },
      note: { type: 'string', minLength: 1, maxLength: 120, description: 'note' },
      folded: { type: 'boolean', description: 'folded' },
      widths: { type: 'array', minItems: 1, maxItems: 3 },
      size: { type: 'object', required: ['a', 'b'], additionalProperties: false },
      mark: { const: 'm' },
      // A number of things may be told in percent, in hundreds.
      turns: {
        description: 'turns',
        anyOf: [
          { type: 'integer', minimum: 1, maximum: 20 },
          told({ type: 'integer', minimum: 1, maximum: 20 }, '1'),
          told({ type: 'number', minimum: 100, maximum: 2000, multipleOf: 100 }, '%'),
        ],
      },
      part: {
        description: 'part',
        anyOf: [
          { type: 'number', minimum: 0, maximum: 1 },
          told({ type: 'number', minimum: 0, maximum: 1 }, '1'),
          told({ type: 'number', minimum: 0, maximum: 100 }, '%'),
        ],
      },
    },
  });
});

const noList = 'a list of 1 to 3';
const noCount = 'a whole number, 1 to 20';
const noText = 'text of 1 to 120 characters';
describe('a fault is told with what was got and what is possible, in the unit in which it came', () => {
  test.each<[input: string, given: object, fault: string, got: string, possible: string]>([
    ['girth', { girth: inches(3) }, 'below', '3 [in_i]', '3.93701 to 15.748 [in_i]'],
    ['girth', { girth: cm(40.5) }, 'above', '40.5 cm', '10 to 40 cm'],
    ['girth', { girth: undefined }, 'missing', 'nothing', '100 to 400 mm'],
    ['girth', { girth: null }, 'unit', 'null', `{ value, unit } with a unit of ${lengths}`],
    ['girth', { girth: 25 }, 'unit', '25', `{ value, unit } with a unit of ${lengths}`],
    ['girth', { girth: { value: 5, unit: 'kg' } }, 'unit', 'unit "kg"', `a unit of ${lengths}`],
    ['girth', { girth: { value: 5, unit: 7 } }, 'unit', 'unit 7', `a unit of ${lengths}`],
    ['girth', { girth: { value: 5, unit: 'ell' } }, 'unit', 'unit "ell"', `a unit of ${lengths}`],
    ['girth', { girth: { ...cm(25), of: 1 } }, 'unit', 'unit "cm"', 'value and unit and nothing else'],
    ['free', { free: cm('x') }, 'type', '"x"', 'any finite number cm'],
    ['free', { free: cm(Number.NaN) }, 'not-finite', 'NaN', 'any finite number cm'],
    ['turns', { turns: 2.5 }, 'not-whole', '2.5', noCount],
    ['turns', { turns: 0 }, 'below', '0', noCount],
    ['turns', { turns: { value: 2100, unit: '%' } }, 'above', '2100 %', 'a whole number, 100 to 2000 %'],
    ['turns', { turns: true }, 'unit', 'true', '{ value, unit } with a unit of 1, %'],
    ['things', { things: 0.5 }, 'not-whole', '0.5', 'a whole number, any finite number'],
    ['part', { part: 1.2 }, 'above', '1.2', '0 to 1'],
    ['part', { part: { value: 120, unit: '%' } }, 'above', '120 %', '0 to 100 %'],
    ['material', { material: 'wood' }, 'choice', '"wood"', 'plaster, fibreglass'],
    ['material', { material: 'w'.repeat(40) }, 'choice', `"${'w'.repeat(40)}"`, 'plaster, fibreglass'],
    ['mark', { mark: 'n' }, 'choice', '"n"', 'm'],
    ['turns', { turns: { value: 'x', unit: '1' } }, 'type', '"x"', noCount],
    ['material', { material: undefined }, 'missing', 'nothing', 'plaster, fibreglass'],
    ['note', { note: '' }, 'too-few', '""', noText],
    ['note', { note: 'x'.repeat(121) }, 'too-many', `"${'x'.repeat(40)}…"`, noText],
    ['note', { note: 7 }, 'type', '7', noText],
    ['folded', { folded: 'yes' }, 'type', '"yes"', 'true or false'],
    ['spare', { spare: inches(3) }, 'above', '3 [in_i]', '0 to 2 [in_i]'],
    ['widths', { widths: [] }, 'too-few', 'a list of 0', noList],
    ['widths', { widths: [cm(1), cm(1), cm(1), cm(1)] }, 'too-many', 'a list of 4', noList],
    ['widths', { widths: {} }, 'type', 'an object', noList],
    ['widths.1', { widths: [cm(5), inches(11)] }, 'above', '11 [in_i]', '0.393701 to 10 [in_i]'],
    ['fold.kind', { fold: { kind: 'oval' } }, 'choice', '"oval"', 'flat, round'],
    ['fold.of', { fold: { ...good.fold, of: 'y' } }, 'unknown', '"y"', 'no such input'],
    ['fold', { fold: null }, 'type', 'null', 'flat, round'],
    ['size', { size: 5 }, 'type', '5', 'an object of a, b'],
    ['size.b', { size: { a: cm(1) } }, 'missing', 'nothing', 'a whole number, any finite number'],
    ['colour', { colour: null }, 'unknown', 'null', 'no such input'],
  ])('%s: %j', (input, given, fault, got, possible) => {
    expect(faultsOf(() => every().fromJson({ ...good, ...given }))).toEqual([[input, fault, got, possible]]);
  });

  test('input that is none at all', () => {
    const of = `an object of ${Object.keys(good).join(', ')}`;
    expect(faultsOf(() => every().fromJson(null))).toEqual([['', 'type', 'null', of]]);
    expect(faultsOf(() => every().fromJson(undefined))).toEqual([['', 'missing', 'nothing', of]]);
    expect(faultsOf(() => every().fromJson([1, 2]))).toEqual([['', 'type', 'a list of 2', of]]);
    expect(faultsOf(() => every().fromJson(true))).toEqual([['', 'type', 'true', of]]);
  });

  test('a call is told in the units held', () => {
    const held = {
      ...good,
      girth: 25,
      free: 1,
      spare: 1,
      widths: [300],
      fold: { kind: 'flat', across: 1 },
      size: { a: 1, b: 2 },
    };
    expect(faultsOf(() => every()(held as never))).toEqual([
      ['girth', 'below', '25 mm', '100 to 400 mm'],
      ['widths.0', 'above', '300 mm', '10 to 254 mm'],
    ]);
  });
});

test('the message tells eight faults, and how many more there are', () => {
  const nine = Object.fromEntries(Array.from({ length: 9 }, (_, n) => [`extra${n}`, n]));
  const message = (given: object): string => {
    try {
      every().fromJson({ ...good, ...given });
      return '';
    } catch (error) {
      return (error as Error).message;
    }
  };
  const line = (n: number): string => `  extra${n}: got ${n}; possible: no such input`;
  const eight = Array.from({ length: 8 }, (_, n) => line(n));
  expect(message(nine).split('\n')).toEqual(['test.every cannot use this input', ...eight, '  and 1 more']);
  const { extra8: _, ...rest } = nine;
  expect(message(rest).split('\n')).toEqual(['test.every cannot use this input', ...eight]);
  // Long lines leave room for fewer, so that the whole is never longer than a screen.
  const long = Object.fromEntries(Array.from({ length: 5 }, (_, n) => [`${n}`.repeat(90), 'x'.repeat(60)]));
  expect(message(long)).toContain(`${'0'.repeat(80)}…: got "${'x'.repeat(40)}…"`);
});

test('the message is never longer than a screen: of long lines there are fewer', () => {
  const words = ['a', 'b', 'c'].map((letter) => letter.repeat(99));
  const of = Object.fromEntries(
    Array.from({ length: 8 }, (_, n) => [`c${n}`, choice('one of long words', words)]),
  );
  const wordy = formula({
    id: 'test.wordy',
    revision: 1,
    basis: 'identity',
    inputs: of,
    output: length('nothing'),
    sources: [],
    compute: () => 0,
  });
  const given = Object.fromEntries(Object.keys(of).map((name) => [name, 7]));
  try {
    wordy.fromJson(given);
    expect.fail('an answer');
  } catch (error) {
    // A line has 23 + 301 letters: five of them are 1620, six would be 1944.
    const lines = (error as Error).message.split('\n');
    expect(lines).toHaveLength(7);
    expect(lines.slice(5)).toEqual([`  c4: got 7; possible: ${words.join(', ')}`, '  and 3 more']);
  }
});

/** A sum of sides that was tested for sides of 10 to 20 mm. */
const tried = () =>
  formula({
    id: 'test.tried',
    revision: 3,
    basis: 'empirical',
    changes: { 2: 'the second', 3: 'the third' },
    inputs: {
      side: length('side', { possible: [mm(1), mm(100)], tested: [mm(10), mm(20)] }),
      times: count('times', { possible: [1, 9] }),
      more: optional(amount('more')),
    },
    joint: [
      {
        input: 'times',
        possible: 'no more times than the side has millimetres',
        breach: ({ side, times }) => (times > side ? `${times} times ${side} mm` : undefined),
      },
    ],
    steps: { sum: length('all sides') },
    output: group({ sum: length('sum'), list: list(length('side'), [0, 9]), note: optional(text('note')) }),
    sources: [],
    compute: ({ side, times }, _, step) => ({
      sum: step('sum', side * times),
      list: Array.from({ length: times }, () => side),
    }),
  });

describe('an answer records', () => {
  test('whether its inputs lie where the formula was tested, both limits included', () => {
    const at = (side: number) => {
      const { domain, beyond } = tried()({ side: mm(side), times: 2 });
      return [domain, beyond.map(({ input, got, tested, unit }) => [input, got, tested, unit])];
    };
    expect([10, 15, 20].map(at)).toEqual([10, 15, 20].map(() => ['tested', []]));
    expect([9.9, 20.1].map(at)).toEqual(
      [9.9, 20.1].map((got) => ['beyond', [['side', got, [10, 20], 'mm']]]),
    );
    expect(tried()({ side: mm(15), times: 2, more: 1 as never }).domain).toBe('unstated');
    expect(tried()({ side: mm(9), times: 2, more: 1 as never }).domain).toBe('beyond');
    expect(every().fromJson(good).domain).toBe('exact');
  });

  test('its steps, with what they are and their units', () => {
    expect(tried()({ side: mm(15), times: 2 }).steps).toEqual([
      { name: 'sum', says: 'all sides', value: 30, unit: 'mm' },
    ]);
  });

  test('its inputs as JSON can give them back, and the units of its value', () => {
    const answer = tried()({ side: mm(15), times: 2 });
    expect(answer.from).toEqual({ side: { value: 15, unit: 'mm' }, times: 2 });
    expect(answer.unit).toEqual({ sum: 'mm', list: 'mm', note: null });
    expect([answer.cautions, answer.by]).toEqual([[], 'test.tried@3']);
    expect(answer.value).toEqual(tried().compute({ side: mm(15), times: 2 }));
    expect(every().fromJson(good).from).toMatchObject({ material: 'plaster', folded: true, part: 0.5 });
  });
});

test('an answer of several shapes has the units of all of them, and none for the word that tells them apart', () => {
  const shaped = formula({
    id: 'test.shaped',
    revision: 1,
    basis: 'identity',
    inputs: { side: length('side') },
    output: either([
      group({ kind: kind('flat'), across: length('across') }),
      group({ kind: kind('round'), part: share('part') }),
    ]),
    sources: [],
    compute: ({ side }) => ({ kind: 'flat' as const, across: side }),
  });
  expect(shaped({ side: mm(1) }).unit).toEqual({ kind: null, across: 'mm', part: '1' });
});

test('what is not possible together is refused with its own words, and nothing else', () => {
  expect(faultsOf(() => tried()({ side: mm(2), times: 3 }))).toEqual([
    ['times', 'joint', '3 times 2 mm', 'no more times than the side has millimetres'],
  ]);
  expect(faultsOf(() => tried()({ side: mm(2), times: 2 }))).toEqual([]);
});

test('a printed range is held as a span, a number as a number, both in the unit held', () => {
  const constant = { says: '', status: 'assumed' } as const;
  expect(numberOf({ ...constant, printed: '5–6', unit: 'min' })).toEqual([300, 360]);
  expect(numberOf({ ...constant, printed: '1.5', unit: 'cm' })).toBe(15);
});
