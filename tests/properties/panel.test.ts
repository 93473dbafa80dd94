import fc from 'fast-check';
import type { AnyFormula } from 'swathe';
import * as library from 'swathe';
import { aboutOf, type Fields, inside, type Schema } from 'swathe/definition';
import { describe, expect, test } from 'vitest';
import { asCode, asCsv } from '../../docs-site/src/client/copy.ts';
import { withAt } from '../../docs-site/src/client/data.ts';
import { blankOf, formOf, pruned } from '../../docs-site/src/client/form.ts';
import { fragmentOf, stateOf } from '../../docs-site/src/client/fragment.ts';
import { sliderOf } from '../../docs-site/src/client/slider.ts';
import { typed } from '../../docs-site/src/client/units.ts';
import { figureOf } from '../../docs-site/src/figures/index.ts';
import { runRows } from '../../packages/cli/src/run-rows.ts';
import {
  disagreement,
  formulas,
  inputsOf,
  isPossible,
  placesOf,
  samplesOf,
  wireIn,
  wireOf,
} from '../generators.ts';

type Given = Readonly<Record<string, unknown>>;
const fieldsOf = (formula: AnyFormula): Fields => formula.inputs as Fields;
const few = { numRuns: 40 };

/** Inputs in units chosen at random, as people tell them. */
const told = (formula: AnyFormula): fc.Arbitrary<Given> =>
  fc
    .tuple(inputsOf(formula), fc.array(fc.nat(7), { minLength: 1, maxLength: 5 }))
    .map(([inputs, picks]) => wireIn(formula, inputs, picks) as Given);

describe.each(formulas)('$id', ({ formula }) => {
  test('an address tells the inputs that it was made of', () => {
    fc.assert(
      fc.property(
        told(formula),
        fc.record({
          length: fc.constantFrom('cm', 'in', undefined),
          temperature: fc.constantFrom('C', 'F', undefined),
        }),
        (given, units) => {
          const fragment = fragmentOf(fieldsOf(formula), { given, units });
          expect(fragment).toMatch(/^v1&[\w\-.~!$&'()*+,;=:@/?%]*$/);
          const read = stateOf(fieldsOf(formula), fragment);
          expect(read.unread).toEqual([]);
          // What is held bare as a pure number may be told with its unit.
          expect(pruned(read.given)).toEqual(plain(pruned(given)));
          for (const [name, unit] of Object.entries(units)) expect(read.units[name as 'length']).toBe(unit);
        },
      ),
      few,
    );
  });

  test('the form has a control for every value given, and no other', () => {
    fc.assert(
      fc.property(told(formula), (given) => {
        const html = formOf(fieldsOf(formula), given, { units: {}, symbol: () => '' });
        const names = [...html.matchAll(/ name="([^"]*)"/g)].map(([, name]) => name);
        const leaves = placesOf(formula.input as Schema, given)
          .filter(({ about }) => about)
          .map(({ path }) => path.join('.'));
        expect(leaves.filter((path) => !names.includes(path))).toEqual([]);
        expect(new Set(names).size).toBe(names.length);
        expect(html).not.toMatch(/undefined|NaN|\[object|\sstyle=|\son\w+=/);
      }),
      { numRuns: 15 },
    );
  });

  test('code and a row of a table that are copied give the answer again', () => {
    for (const inputs of samplesOf(formula, 2)) {
      const mixed = wireIn(formula, inputs, [1, 2, 0, 3]) as Given;
      const given = isPossible(() => formula.fromJson(mixed)) ? mixed : (wireOf(formula, inputs) as Given);
      const answer = formula.fromJson(given);
      const code = asCode(formula, 'call', given);
      const names = /import \{ (.*) \}/.exec(code)?.[1]?.split(', ').slice(1) ?? [];
      const body = code.slice(code.indexOf('\n\n') + 2);
      const call = new Function('call', ...names, `return ${body}`);
      const makers = names.map((name) => (library as unknown as Record<string, unknown>)[name]);
      expect(disagreement(call(formula, ...makers).value, answer.value)).toBeUndefined();

      // An empty list has no column, and a table no way to say that it is there.
      if (JSON.stringify(given).includes('[]')) continue;
      const csv = asCsv(given, answer);
      const [head = '', row = ''] = csv.split('\n');
      const inputColumns = head.split(',').findIndex((name) => name.startsWith('value'));
      expect(inputColumns).toBeGreaterThan(0);
      const again = runRows(formula, csv).split('\n');
      expect(again[1]?.startsWith(row)).toBe(true);
      expect(again[1]?.endsWith(',') || again[0]?.endsWith('cannot')).toBe(true);
    }
  });

  test('its figure is drawn of whole numbers and says what it shows', async () => {
    for (const inputs of samplesOf(formula, 6)) {
      const answer = formula(inputs);
      const figure = await figureOf(formula, answer, (id) => id);
      if (!figure) return;
      expect(figure.svg).not.toMatch(/NaN|Infinity|undefined/);
      expect(figure.svg.length, JSON.stringify(answer.from)).toBeLessThan(200_000);
      const [, height] = /viewBox="0 0 440 ([\d.]+)"/.exec(figure.svg) ?? [];
      expect(Number(height), JSON.stringify(answer.from)).toBeLessThan(3000);
      expect(figure.words).not.toMatch(/NaN|undefined/);
      expect(figure.words.length).toBeGreaterThan(20);
      for (const row of figure.data.rows) expect(row.length).toBe(figure.data.columns.length);
    }
  });

  test('a slider stays within what is possible and meets its own places', () => {
    for (const about of aboutsOf(formula.input as Schema)) {
      if (about.unit === null || !about.possible) continue;
      for (const code of library.codesFor(about.unit)) {
        const slider = sliderOf(about, code);
        if (!slider) continue;
        expect(slider.last).toBeGreaterThan(slider.first);
        expect(slider.last - slider.first).toBeLessThan(1500);
        const [least, most] = about.possible.map((x) => library.tell(x, code)) as [number, number];
        for (const place of [slider.first, slider.last, Math.round((slider.first + slider.last) / 2)]) {
          const value = slider.valueAt(place);
          expect(value).toBeGreaterThanOrEqual(least);
          expect(value).toBeLessThanOrEqual(most);
          expect(slider.placeOf(value)).toBe(place);
        }
      }
    }
  });
});

/** `{ value, unit: '1' }` as the bare number that it is. */
function plain(data: unknown): unknown {
  if (Array.isArray(data)) return data.map(plain);
  if (typeof data !== 'object' || data === null) return data;
  if ('unit' in data && 'value' in data) return data.unit === '1' ? data.value : data;
  return Object.fromEntries(Object.entries(data).map(([name, x]) => [name, plain(x)]));
}

function aboutsOf(schema: Schema): readonly NonNullable<ReturnType<typeof aboutOf>>[] {
  const about = aboutOf(schema);
  if (about) return [about];
  const { innerType, element, shape, options } = inside(schema);
  return [innerType, element, ...Object.values(shape ?? {}), ...(options ?? [])].flatMap((x) =>
    x ? aboutsOf(x) : [],
  );
}

test('what is typed is read as a number where it is one', () => {
  expect(['7.5', ' 7,5 ', '−2', '–2', '1e3', '', 'seven', '1,234.5'].map(typed)).toEqual([
    7.5,
    7.5,
    -2,
    -2,
    1000,
    '',
    'seven',
    '1,234.5',
  ]);
});

test('an address that cannot be read says so, and a value that cannot be is left to the definition', () => {
  const helix = formulas.find(({ id }) => id === 'coverage.helix')?.formula as AnyFormula;
  const read = stateOf(fieldsOf(helix), 'v1&girth=2furlong&width=wide&turns=6&overlap=(50pct&units=ell');
  expect(read.unread).toEqual(['turns=6', 'overlap=(50pct', 'units=ell']);
  const faults = (() => {
    try {
      helix.fromJson(read.given);
    } catch (error) {
      return (error as library.InputError).faults.map(({ input, fault }) => `${input} ${fault}`);
    }
    return [];
  })();
  expect(faults).toEqual(['girth unit', 'width type', 'overlap missing']);
});

test('an entry that is added is empty, in the units of the one before', () => {
  const profile = formulas.find(({ id }) => id === 'segment.girth-profile')?.formula as AnyFormula;
  const element = inside(fieldsOf(profile)['stations'] as Schema).element as Schema;
  const like = { at: { value: 3, unit: 'cm' }, girth: { value: 7, unit: '[in_i]' } };
  const blank = blankOf(element, like);
  expect(blank).toEqual({ at: { value: '', unit: 'cm' }, girth: { value: '', unit: '[in_i]' } });
  expect(pruned({ stations: [like, blank] })).toEqual({ stations: [like, {}] });
  expect(withAt({ stations: [1, 2, 3] }, 'stations.1', undefined)).toEqual({ stations: [1, 3] });
});
