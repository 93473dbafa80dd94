import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type AnyFormula, type Constant, formula as formulaOf } from 'swathe';
import { describe, expect, test } from 'vitest';
import { aboutOf, type Fields, inside, isRecord } from '../../packages/core/src/measure.ts';
import { checkRow, type Row, type RowFile } from '../checks/rows.ts';
import { entriesOf, formulas } from '../generators.ts';

type Schema = Fields[string];
const root = join(import.meta.dirname, '../..');

function rowsOf(formula: AnyFormula): readonly Row[] {
  const path = join(root, 'references/checks', `${formula.id}.json`);
  const rows = existsSync(path) ? (JSON.parse(readFileSync(path, 'utf8')) as RowFile).rows : [];
  return rows.filter((row) => checkRow(row, formula).pass);
}

/** Constants that a formula's page says its rows do not pin. */
function unpinnedOf(id: string): string[] {
  const path = join(root, 'docs-site/src/content/formulas', `${id}.mdx`);
  const [, front = ''] = existsSync(path) ? readFileSync(path, 'utf8').split(/^---$/m) : [];
  const listed = /^unpinned:\s*(\[[^\]]*\]|(?:\n\s*- .*)+)/m.exec(front)?.[1] ?? '';
  return listed.match(/\w+/g) ?? [];
}

/** Whether some row no longer agrees with what has become of the formula. */
const breaks = (rows: readonly Row[], changed: AnyFormula): boolean =>
  rows.some((row) => !checkRow(row, changed).pass);

interface Leaf {
  readonly path: readonly string[];
  /** What it may be mistaken for: a number in the same unit, a text of the same kind. */
  readonly like: string;
}

/** Leaves of a schema; `*` stands for every entry of a list. */
function leavesOf(schema: Schema, path: readonly string[] = []): Leaf[] {
  const about = aboutOf(schema);
  if (about)
    return [
      { path, like: about.unit ?? `${about.kind} ${about.kind === 'choice' ? entriesOf(schema) : ''}` },
    ];
  const { innerType, element, shape } = inside(schema);
  if (innerType) return leavesOf(innerType, path);
  if (element) return leavesOf(element, [...path, '*']);
  return Object.entries(shape ?? {}).flatMap(([key, part]) => leavesOf(part, [...path, key]));
}

/** The part of a path up to the entry of the innermost list: two leaves can only be mixed up within one. */
const entryOf = (path: readonly string[]): string => path.slice(0, path.lastIndexOf('*') + 1).join('.');

/** Pairs of inputs that code could mix up without a type error. */
function pairsOf(formula: AnyFormula): (readonly [Leaf, Leaf])[] {
  const leaves = leavesOf(formula.input as Schema);
  return leaves.flatMap((a, n) =>
    leaves
      .slice(n + 1)
      .filter((b) => a.like === b.like && entryOf(a.path) === entryOf(b.path))
      .map((b) => [a, b] as const),
  );
}

const at = (data: unknown, path: readonly string[]): unknown =>
  path.reduce<unknown>((part, key) => (isRecord(part) ? part[key] : undefined), data);

function put(data: unknown, [key, ...rest]: readonly string[], value: unknown): unknown {
  return key === undefined
    ? value
    : { ...(data as object), [key]: put((data as Record<string, unknown>)[key], rest, value) };
}

/** Data with two leaves swapped, in every entry of the list that holds them. */
function swapped(data: unknown, a: readonly string[], b: readonly string[]): unknown {
  const list = a.indexOf('*');
  if (list < 0) return put(put(data, a, at(data, b)), b, at(data, a));
  const path = a.slice(0, list);
  const entries = at(data, path) as readonly unknown[];
  return put(
    data,
    path,
    entries.map((entry) => swapped(entry, a.slice(list + 1), b.slice(list + 1))),
  );
}

/** The formula with two inputs mixed up in its code. What then leaves its limits fails, as it would for a user. */
const mixedUp = (formula: AnyFormula, a: readonly string[], b: readonly string[]): AnyFormula => {
  const { compute, cautions } = formula.definition;
  const mixed = (inputs: unknown) => {
    const read = formula.input['~standard'].validate(swapped(inputs, a, b));
    if (!('value' in read)) throw new Error('outside its limits');
    return read.value as never;
  };
  return formulaOf({
    ...formula.definition,
    compute: (inputs: unknown, constants: never, step: never) => compute(mixed(inputs), constants, step),
    ...(cautions && {
      cautions: (inputs: unknown, value: never, constants: never) =>
        cautions(mixed(inputs), value, constants),
    }),
  } as never);
};

/** What a constant would print, were one end of it one more or one less in its last digit. */
function moved({ printed }: Constant): string[] {
  const ends = printed.split('–');
  return ends.flatMap((end, n) => {
    const [mantissa = '', power] = end.split('e');
    const decimals = mantissa.split('.')[1]?.length ?? 0;
    return [1, -1].map((sign) => {
      const shifted = (Number(mantissa) + sign * 10 ** -decimals).toFixed(decimals);
      const other = power === undefined ? shifted : `${shifted}e${power}`;
      return ends.map((text, k) => (k === n ? other : text)).join('–');
    });
  });
}

/** Whether there is a value beside the printed one that no row tells from it. */
function loose(formula: AnyFormula, name: string, rows: readonly Row[]): boolean {
  const { definition } = formula;
  const constant = definition.constants[name];
  return moved(constant).some((printed) => {
    const constants = { ...definition.constants, [name]: { ...constant, printed } };
    return !breaks(rows, formulaOf({ ...definition, constants }));
  });
}

describe.each(formulas)('$id', ({ id, formula }) => {
  const rows = rowsOf(formula);

  test('swapping two inputs in one unit breaks a row, unless they are declared symmetric', () => {
    const symmetric = ((formula.symmetric ?? []) as readonly (readonly [string, string])[]).map((pair) =>
      pair.toSorted().join(' and '),
    );
    const mixable = pairsOf(formula)
      .filter(([a, b]) => !breaks(rows, mixedUp(formula, a.path, b.path)))
      .map(([a, b]) =>
        [a, b]
          .map(({ path }) => path.join('.'))
          .toSorted()
          .join(' and '),
      );
    expect(mixable.filter((pair) => !symmetric.includes(pair))).toEqual([]);
  });

  test('moving a constant by one in its last digit breaks a row, unless its page lists it as not pinned', () => {
    const names = Object.keys(formula.constants ?? {});
    const unpinned = names.filter((name) => loose(formula, name, rows));
    expect(unpinned).toEqual(unpinnedOf(id).toSorted((a, b) => names.indexOf(a) - names.indexOf(b)));
  });
});

test('swapping and moving reach every part of an input and of a constant', () => {
  const data = {
    a: 1,
    b: { c: 2 },
    d: [
      { e: 3, f: 4 },
      { e: 5, f: 6 },
    ],
  };
  expect(swapped(data, ['a'], ['b', 'c'])).toEqual({ ...data, a: 2, b: { c: 1 } });
  expect(swapped(data, ['d', '*', 'e'], ['d', '*', 'f'])).toEqual({
    ...data,
    d: [
      { e: 4, f: 3 },
      { e: 6, f: 5 },
    ],
  });
  const constant = { unit: 'min', says: '', status: 'assumed' } as const;
  expect(moved({ ...constant, printed: '1.5–3' })).toEqual(['1.6–3', '1.4–3', '1.5–4', '1.5–2']);
  expect(moved({ ...constant, printed: '3.1e98' })).toEqual(['3.2e98', '3.0e98']);
});
