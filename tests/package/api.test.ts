import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { apiOf } from './api.ts';
import { packages } from './pack.ts';

const core = join(packages, 'core');
const report = join(core, 'api.txt');
const api = apiOf(core);

// UPDATE=1 writes it anew, once the change has its line of kind interface in the changelog.
test('what the package exports is what stands in its report', () => {
  if (process.env['UPDATE']) writeFileSync(report, api);
  expect(
    api,
    'the public surface changed: tell it in CHANGELOG.md as *interface*, then run with UPDATE=1 and read the difference',
  ).toBe(readFileSync(report, 'utf8'));
});

test.each(['swathe', 'swathe/catalog', 'swathe/definition', 'swathe/schema'])(
  'the report has all that %s gives at run time',
  async (entry) => {
    const part = api.split('==== ').find((text) => text.startsWith(`${entry} ====`)) ?? '';
    const names = Object.keys((await import(entry)) as object);
    expect(
      names.filter((name) => !new RegExp(`^(?:const|class|function) ${name}\\b`, 'm').test(part)),
    ).toEqual([]);
  },
);
