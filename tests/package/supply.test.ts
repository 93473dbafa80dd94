import { execFileSync } from 'node:child_process';
import { globSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Spec, Validation } from '@cyclonedx/cyclonedx-library';
import { publint } from 'publint';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { packages, packed } from './pack.ts';

const root = join(packages, '..');
const read = (path: string): string => readFileSync(join(root, path), 'utf8');
const out = mkdtempSync(join(tmpdir(), 'swathe-supply-'));
afterAll(() => rmSync(out, { recursive: true }));

interface Manifest {
  readonly version: string;
  readonly dependencies: Record<string, string>;
  readonly scripts: Record<string, string>;
}
const manifest = (name: string): Manifest => JSON.parse(read(`packages/${name}/package.json`)) as Manifest;

test('the library runs on zod and pure-rand, and the commands on d3-dsv and the library', () => {
  expect(Object.keys(manifest('core').dependencies).sort()).toEqual(['pure-rand', 'zod']);
  expect(Object.keys(manifest('cli').dependencies).sort()).toEqual(['d3-dsv', 'swathe']);
});

test.each(['core', 'cli'])('%s runs nothing on the machine of whoever installs it', (name) => {
  const { scripts, ...others } = manifest(name);
  expect(Object.keys(scripts).sort()).toEqual(['build', 'prepack']);
  const installed = ['peerDependencies', 'optionalDependencies', 'bundleDependencies', 'bundledDependencies'];
  expect(installed.filter((kind) => kind in others)).toEqual([]);
});

test('one version everywhere: both packages, the citation', () => {
  const [, cited] = /^version: (.*)$/m.exec(read('CITATION.cff')) ?? [];
  expect([manifest('core').version, manifest('cli').version]).toEqual([cited, cited]);
});

test('a release that is too new, or less proven than the last, is not installed', () => {
  const settings = read('pnpm-workspace.yaml');
  expect(settings).toMatch(/^minimumReleaseAge: 1440$/m);
  expect(settings).toMatch(/^trustPolicy: no-downgrade$/m);
});

describe('the tarball of the commands', () => {
  let made: Awaited<ReturnType<typeof packed>>;
  beforeAll(async () => {
    made = await packed('cli', out);
  }, 60_000);

  test('holds what runs, the licence, and nothing else', () => {
    const sources = globSync('**/*.ts', { cwd: join(packages, 'cli/src') });
    const built = sources.flatMap((file) =>
      ['.js', '.d.ts'].map((ending) => `dist/${file.replace(/\.ts$/, ending)}`),
    );
    expect(made.files).toEqual(['LICENSE', 'bin/swathe.mjs', 'package.json', ...built].sort());
  });

  test('is faultless to publint', async () => {
    const tarball = Uint8Array.from(readFileSync(made.tarball)).buffer;
    expect((await publint({ strict: true, pack: { tarball } })).messages).toEqual([]);
  });
});

interface Bom {
  readonly metadata: { readonly component: { readonly name: string; readonly version: string } };
  readonly components: readonly {
    readonly name: string;
    readonly version: string;
    readonly hashes: readonly { readonly alg: string; readonly content: string }[];
  }[];
}
const bomOf = (name: string): string =>
  execFileSync(process.execPath, ['.ci/sbom.mjs', name], { cwd: root, encoding: 'utf8' });

describe.each([
  ['swathe', ['pure-rand', 'zod']],
  ['swathe-cli', ['commander', 'd3-dsv', 'iconv-lite', 'pure-rand', 'rw', 'safer-buffer', 'swathe', 'zod']],
])('the bill of materials of %s', (name, runsOn) => {
  const text = bomOf(name);
  const bom = JSON.parse(text) as Bom;

  test('names what it runs on, each by the hash that stands in the lock file', () => {
    expect(bom.metadata.component.name).toBe(name);
    expect(bom.components.map((component) => component.name)).toEqual(runsOn);
    const lock = read('pnpm-lock.yaml');
    for (const component of bom.components.filter((c) => c.name !== 'swathe')) {
      const [sha] = component.hashes;
      const integrity = `sha512-${Buffer.from(sha?.content ?? '', 'hex').toString('base64')}`;
      expect(sha?.alg).toBe('SHA-512');
      expect(lock).toContain(
        `  ${component.name}@${component.version}:\n    resolution: {integrity: ${integrity}}`,
      );
    }
  });

  // The schema is that of the standard, as its own library carries it.
  test('is CycloneDX 1.6', async () => {
    const validator = new Validation.JsonStrictValidator(Spec.Version.v1dot6);
    expect(await validator.validate(text)).toBeNull();
    expect(await validator.validate(text.replace('"bomFormat"', '"form"'))).not.toBeNull();
  });

  test('is the same each time, and names no registry', () => {
    expect(bomOf(name)).toBe(text);
    expect(text).not.toMatch(/registry|timestamp|serialNumber/);
  });
});
