import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { packages, packed } from './pack.ts';

const project = mkdtempSync(join(tmpdir(), 'swathe-user-'));
afterAll(() => rmSync(project, { recursive: true }));
const write = (file: string, text: string): void => writeFileSync(join(project, file), text);
const run = (program: string, ...args: string[]): string =>
  execFileSync(program, args, { cwd: project, encoding: 'utf8' });

/** The first formula of the README, each value that it tells printed, and what it tells of each. */
function firstFormula(): { program: string; told: string[] } {
  const readme = readFileSync(join(packages, '../README.md'), 'utf8');
  const [, code] = /## A first formula\n\n```ts\n([\s\S]*?)```/.exec(readme) ?? [];
  if (!code) throw new Error('the README shows no first formula');
  const told: string[] = [];
  const program = code.replaceAll(/^(\S.*); \/\/ (.*)$/gm, (_, value: string, says: string) => {
    told.push(says);
    return `console.log(JSON.stringify(${value}));`;
  });
  return { program, told };
}
const { program, told } = firstFormula();

function expectTold(printed: string): void {
  const [value = '', ...others] = printed.trimEnd().split('\n');
  const [number = '', ...texts] = told;
  const [shown = '', unit] = number.split('…');
  expect(shown).toMatch(/^\d+\.\d+$/);
  expect(unit).toBe(' (mm)');
  expect(value.slice(0, shown.length)).toBe(shown);
  expect(texts.length).toBe(2);
  expect(others).toEqual(texts.map((text) => text.replaceAll("'", '"')));
}

beforeAll(async () => {
  const { tarball } = await packed('core', project);
  const stored = (name: string): string => `file:${realpathSync(join(packages, 'core/node_modules', name))}`;
  // What it depends on comes from this workspace, so that nothing is asked of a network.
  const dependencies = { swathe: `file:${tarball}`, zod: stored('zod'), 'pure-rand': stored('pure-rand') };
  write('package.json', JSON.stringify({ name: 'user', private: true, type: 'module', dependencies }));
  run('npm', 'install', '--offline', '--no-audit', '--no-fund');
}, 60_000);

/** Every Node of this machine that the package promises to run on, the one that runs the tests first. */
const nodes = (): { version: string; path: string }[] => {
  const folders = (process.env['PATH'] ?? '').split(delimiter);
  const found = new Map<string, string>();
  for (const path of [process.execPath, ...folders.map((folder) => join(folder, 'node'))])
    try {
      const version = execFileSync(path, ['--version'], { encoding: 'utf8' }).trim();
      if (Number(/^v(\d+)/.exec(version)?.[1]) >= 20 && !found.has(version)) found.set(version, path);
    } catch {
      // No Node there.
    }
  return [...found].map(([version, path]) => ({ version, path }));
};

test.each(nodes())(
  'in plain JavaScript the first formula prints what the README tells: $version',
  ({ path }) => {
    write('first.mjs', program);
    expectTold(run(path, 'first.mjs'));
  },
);

const tsc = join(createRequire(import.meta.url).resolve('typescript/package.json'), '../bin/tsc');

test.each([
  ['nodenext', 'nodenext'],
  ['bundler', 'esnext'],
])(
  'in strict TypeScript, resolved as %s, it type-checks, a bare number does not, and it runs',
  (resolution, module) => {
    const bare = `
    // @ts-expect-error a bare number is no length
    export const wrong = () => stripLength({ girth: 165, advance: inch(1.5), turns: 6 });`;
    const entries = `
    import { catalog } from 'swathe/catalog';
    import { aboutOf } from 'swathe/definition';
    import { jsonSchema } from 'swathe/schema';
    export const all: [string, unknown, object] = [catalog[0]!.id, aboutOf(catalog[0]!.output), jsonSchema(catalog[0]!)];`;
    write('first.ts', entries + program + bare);
    write(
      'tsconfig.json',
      JSON.stringify({
        compilerOptions: {
          strict: true,
          target: 'es2022',
          lib: ['es2023', 'dom'],
          module,
          moduleResolution: resolution,
          outDir: `out-${resolution}`,
          skipLibCheck: false,
          types: [],
        },
        files: ['first.ts'],
      }),
    );
    const { stdout } = spawnSync(process.execPath, [tsc, '-p', '.'], { cwd: project, encoding: 'utf8' });
    expect(stdout).toBe('');
    expectTold(run(process.execPath, `out-${resolution}/first.js`));
  },
);
