import { execFileSync } from 'node:child_process';
import { globSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { checkPackage, createPackageFromTarballData } from '@arethetypeswrong/core';
import { build, type Plugin } from 'esbuild';
import { publint } from 'publint';
import type { AnyFormula } from 'swathe';
import * as swathe from 'swathe';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { packages, packed } from './pack.ts';

const core = join(packages, 'core');
const dist = join(core, 'dist');
const sources = globSync('**/*.ts', { cwd: join(core, 'src') });
const out = mkdtempSync(join(tmpdir(), 'swathe-'));
afterAll(() => rmSync(out, { recursive: true }));

test('what is tested was built from the sources as they are', () => {
  const stale = sources.filter((file) => {
    const built = statSync(join(dist, file.replace(/\.ts$/, '.js')), { throwIfNoEntry: false });
    return !built || built.mtimeMs < statSync(join(core, 'src', file)).mtimeMs;
  });
  expect(stale, 'run the build first').toEqual([]);
});

describe('the tarball', () => {
  let tarball: Uint8Array<ArrayBuffer>;
  let files: string[];

  beforeAll(async () => {
    const made = await packed('core', out);
    tarball = Uint8Array.from(readFileSync(made.tarball));
    files = made.files;
  }, 60_000);

  test('holds the build, the sources that its maps point to, the licence, and nothing else', () => {
    const built = sources.flatMap((file) =>
      ['.js', '.js.map', '.d.ts', '.d.ts.map'].map((ending) => `dist/${file.replace(/\.ts$/, ending)}`),
    );
    const expected = ['LICENSE', 'package.json', ...sources.map((file) => `src/${file}`), ...built];
    expect(files).toEqual(expected.sort());
  });

  test('has every source that a map names', () => {
    const maps = files.filter((file) => file.endsWith('.map'));
    const named = maps.flatMap((map) => {
      const { sources } = JSON.parse(readFileSync(join(core, map), 'utf8')) as { sources: string[] };
      return sources.map((source) => join(map, '..', source));
    });
    expect(named.length).toBe(2 * sources.length);
    expect(named.filter((source) => !files.includes(source))).toEqual([]);
  });

  test('is faultless to publint', async () => {
    const { messages } = await publint({ strict: true, pack: { tarball: tarball.buffer } });
    expect(messages).toEqual([]);
  });

  test('has types that resolve for every user of ES modules', async () => {
    const result = await checkPackage(createPackageFromTarballData(tarball));
    if (!result.types) throw new Error('no types');
    const old = ['node10', 'node16-cjs'];
    const problems = result.problems.filter(
      (p) => !('resolutionKind' in p && old.includes(p.resolutionKind)),
    );
    expect(problems).toEqual([]);
  });
});

/** What a page that has this text would load; what `apart` matches is left out of it. */
async function bundle(contents: string, apart?: RegExp): Promise<string> {
  const leaveOut = (filter: RegExp): Plugin => ({
    name: 'apart',
    setup: ({ onResolve }) => onResolve({ filter }, ({ path }) => ({ path, external: true })),
  });
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: import.meta.dirname },
    bundle: true,
    minify: true,
    format: 'esm',
    write: false,
    plugins: apart ? [leaveOut(apart)] : [],
  });
  return outputFiles[0]?.text ?? '';
}
const sizeOf = async (names: string, apart?: RegExp): Promise<number> =>
  gzipSync(await bundle(`export { ${names} } from 'swathe'`, apart)).byteLength;

const one = "export { stripLength, cm } from 'swathe'";
const named = Object.entries(swathe).flatMap(([name, it]) =>
  typeof it === 'function' && 'definition' in it ? [{ name, formula: it as AnyFormula }] : [],
);
/** Whose file has fewer than 80 lines. */
const small = named.flatMap(({ name, formula }) => {
  const text = readFileSync(join(core, 'src', `${formula.id.replace('.', '/')}.ts`), 'utf8');
  return text.trimEnd().split('\n').length < 80 ? [name] : [];
});

describe('what a page pays for, in bytes gzipped', () => {
  // Of this zod's objects, numbers and limits alone are 3.7 kB, and the units 0.5 kB.
  test('one small formula with everything', async () => {
    expect(await sizeOf('stripLength, cm')).toBeLessThanOrEqual(7000);
  });

  test('the first formula that counts, and so brings whole numbers along', async () => {
    expect(
      (await sizeOf('stripLength, buildUp, cm')) - (await sizeOf('stripLength, cm')),
    ).toBeLessThanOrEqual(500);
  });

  // What others bring along as well, such as the width of a bandage or zod's lists, is counted with them.
  test('each further small formula beside all others', async () => {
    const sizeWithout = (left?: string) =>
      sizeOf(named.flatMap(({ name }) => (name === left ? [] : [name])).join());
    const all = await sizeWithout();
    const dear: unknown[] = [];
    for (const name of small) {
      const bytes = all - (await sizeWithout(name));
      if (bytes > 500) dear.push({ name, bytes });
    }
    expect(small.length).toBeGreaterThan(20);
    expect(dear).toEqual([]);
  });

  test('a conversion costs no schema', async () => {
    expect(await sizeOf('mm, inch')).toBeLessThanOrEqual(600);
  });
});

describe('what the whole costs, in bytes gzipped', () => {
  // A table is data that a source printed: the constants of a formula, or a file of its own.
  test('every formula that rests on no table', async () => {
    const bare = named.filter(({ formula }) => Object.keys(formula.constants ?? {}).length === 0);
    expect(bare.length).toBeGreaterThan(20);
    const names = [...bare.map(({ name }) => name), 'recheck', 'formula', 'mm'].join(', ');
    const tables = /stature-lms|survey/;
    expect(await sizeOf(names, tables)).toBeLessThanOrEqual(34_500);
  });

  test('every formula with every table, and the plan with all that it holds', async () => {
    expect(await sizeOf(named.map(({ name }) => name).join(', '))).toBeLessThanOrEqual(71_000);
    expect(gzipSync(await bundle("export * from 'swathe'")).byteLength).toBeLessThanOrEqual(91_000);
  });
});

describe('what is not imported', () => {
  const far = [
    'toJSONSchema',
    'json-schema.org',
    'roll.take-off',
    'drug-tariff',
    'layer-map',
    'ulnar',
    'plaster',
    // Of the tables of sizes, and of statures.
    'popliteal',
    '86.86160934',
  ];

  test('does not come along', async () => {
    const text = await bundle(one);
    expect(text).toContain('coverage.strip-length');
    expect(far.filter((name) => text.includes(name))).toEqual([]);
  });

  test('would be seen if it did', async () => {
    const all = await bundle(
      "export * from 'swathe'; export * from 'swathe/schema'; export * from 'swathe/catalog'",
    );
    expect(far.filter((name) => !all.includes(name))).toEqual([]);
  });

  test('the schemas come without the catalog, and the catalog without the schemas', async () => {
    expect(await bundle("export * from 'swathe/schema'")).not.toContain('roll.take-off');
    expect(await bundle("export * from 'swathe/catalog'")).not.toContain('toJSONSchema');
  });
});

test('it runs where code may not be made from text, as under a strict content policy', async () => {
  const file = join(out, 'strict.mjs');
  const run = `
    import { stripLength, cm, InputError } from 'swathe';
    import { catalog } from 'swathe/catalog';
    import { jsonSchema } from 'swathe/schema';
    let refused = 0;
    for (const formula of catalog) {
      jsonSchema(formula);
      try { formula.fromJson({}); } catch (error) { refused += error instanceof InputError; }
    }
    const { value } = stripLength({ girth: cm(16.5), advance: cm(3.81), turns: 6 });
    let made = 'code from text was made';
    try { new Function('return 1')(); } catch { made = 'none made'; }
    console.log(JSON.stringify({ value, all: refused === catalog.length, made }));
  `;
  writeFileSync(file, await bundle(run));
  const told = execFileSync(process.execPath, ['--disallow-code-generation-from-strings', file], {
    encoding: 'utf8',
  });
  expect(JSON.parse(told)).toEqual({ value: expect.closeTo(1016.05, 2), all: true, made: 'none made' });
});

test('a small bundle has no way at all to make code from text', async () => {
  const text = await bundle(one);
  expect(text.match(/\beval\(|\bFunction\(/g) ?? []).toEqual([]);
});

test('the build imports itself and what it depends on, of zod only the small one, and uses nothing of one runtime alone', () => {
  const { dependencies } = JSON.parse(readFileSync(join(core, 'package.json'), 'utf8')) as {
    dependencies: object;
  };
  const allowed = (name: string) => name !== 'zod' && Object.hasOwn(dependencies, name.split('/')[0] ?? '');
  const odd = globSync('**/*.js', { cwd: dist }).flatMap((file) => {
    const text = readFileSync(join(dist, file), 'utf8');
    const imported = [...text.matchAll(/^(?:import|export) (?:[^;=']* from )?'([^']+)';$/gm)].map(
      ([, name]) => name as string,
    );
    const far = imported.filter((name) => !/^\.\.?\/.*\.js$/.test(name) && !allowed(name));
    const globals =
      text.match(/\b(process|Buffer|__dirname|Deno|Bun|document|window)\.|\b(require|import)\(/g) ?? [];
    return [...far, ...globals].map((name) => `${file}: ${name}`);
  });
  expect(odd).toEqual([]);
});
