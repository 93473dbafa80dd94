import { existsSync, globSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join, relative } from 'node:path';
import * as swathe from 'swathe';
import { describe, expect, test } from 'vitest';
import { formulas } from '../generators.ts';

const root = join(import.meta.dirname, '../..');
const src = join(root, 'packages/core/src');
const rows = join(root, 'references/checks');
const pages = join(root, 'docs-site/src/content/formulas');

const ids = formulas.map(({ id }) => id);
const codeOf = (id: string): string => join(src, `${id.replace('.', '/')}.ts`);
const nameOf = (id: string): string =>
  (id.split('.')[1] ?? '').replace(/-(.)/g, (_, letter: string) => letter.toUpperCase());
const namesIn = (folder: string, ending: string): string[] =>
  existsSync(folder)
    ? readdirSync(folder)
        .filter((file) => file.endsWith(ending))
        .map((file) => basename(file, ending))
    : [];

test('every id is <domain>.<kebab-name>, and no two are the same', () => {
  expect(ids.filter((id) => !/^[a-z]+\.[a-z]+(-[a-z]+)*$/.test(id))).toEqual([]);
  expect(new Set(ids).size).toBe(ids.length);
});

describe.each(formulas)('$id lives in three places', ({ id }) => {
  const example = () => {
    const text = readFileSync(codeOf(id), 'utf8');
    const docstring =
      /\/\*\*((?:(?!\*\/)[\s\S])*)\*\/\s*export const (\w+) = (?:\/\* @__PURE__ \*\/ )?formula\(\{\s*id: '([^']+)'/;
    const [, words = '', name, named] = docstring.exec(text) ?? [];
    expect([name, named]).toEqual([nameOf(id), id]);
    const code = words.split('@example')[1];
    expect(words).toContain('@throws');
    return (code ?? '').replaceAll(/^ *\* ?/gm, '').trim();
  };

  test('code, at the place that its id says, with a docstring that shows it at work', () => {
    expect(existsSync(codeOf(id)), codeOf(id)).toBe(true);
    expect(example()).toContain(`${nameOf(id)}({`);
  });

  test('the example gives what it says', () => {
    const [code = '', says = ''] = example().split(' // ');
    const give = new Function('swathe', `with (swathe) return (${code})`) as (names: unknown) => unknown;
    const value = give({ ...swathe });
    expect(value).toBeDefined();
    const printed = /^'?(-?[\d.]+…?|[\w-]+)/.exec(says)?.[1];
    if (typeof value === 'number' && printed?.endsWith('…'))
      expect(String(value)).toContain(printed.slice(0, -1));
    else if (typeof value !== 'object') expect(String(value)).toBe(printed);
  });

  test('rows that it is checked by', () => expect(namesIn(rows, '.json')).toContain(id));

  test('a page that says why', () => expect(namesIn(pages, '.mdx')).toContain(id));

  test('nothing in them is left to do', () => {
    const places = [codeOf(id), join(rows, `${id}.json`), join(pages, `${id}.mdx`)].filter(existsSync);
    const left = places.flatMap((path) =>
      readFileSync(path, 'utf8')
        .split('\n')
        .flatMap((line, n) =>
          /\btodo\b/i.test(line) ? [`${relative(root, path)}:${n + 1}: ${line.trim()}`] : [],
        ),
    );
    expect(left).toEqual([]);
  });
});

test('there are no rows, pages or formula files of anything else', () => {
  expect(namesIn(rows, '.json').filter((id) => !ids.includes(id as `${string}.${string}`))).toEqual([]);
  expect(namesIn(pages, '.mdx').filter((id) => !ids.includes(id as `${string}.${string}`))).toEqual([]);
  const defining = globSync('**/*.ts', { cwd: src }).filter((file) =>
    / = (?:\/\* @__PURE__ \*\/ )?formula\(\{/.test(readFileSync(join(src, file), 'utf8')),
  );
  expect(defining.map((file) => join(src, file)).sort()).toEqual(ids.map(codeOf).sort());
});
