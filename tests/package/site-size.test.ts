import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { catalog } from 'swathe/catalog';
import { describe, expect, test } from 'vitest';

const dist = join(import.meta.dirname, '../../docs-site/dist');
const read = (path: string): Buffer => readFileSync(join(dist, path));
const gzipped = (path: string): number => gzipSync(read(path), { level: 9 }).byteLength;
const kilobytes = (bytes: number): number => bytes / 1000;

const at = (match: RegExp, text: string): string[] => [...text.matchAll(match)].map(([, url]) => url ?? '');

/** The scripts that a script imports, and of those that it may load later the ones that `id` brings. */
function importedBy(path: string, id: string): string[] {
  const text = read(path).toString();
  const beside = (name: string): string => join(path, '..', name);
  const still = at(/(?:from|import)\s*["'`](\.\/[^"'`]+\.js)["'`]/g, text);
  const own = at(
    new RegExp(`["'\`]${id.replace('.', '\\.')}["'\`]:[^:]*?import\\([\`"'](\\./[^\`"']+)`, 'g'),
    text,
  );
  return [...still, ...own].map(beside);
}

/** All that a formula's page loads, its own formula and figure included. */
function loadedBy(id: string) {
  const page = `f/${id}/index.html`;
  const html = read(page).toString();
  const scripts = new Set<string>();
  const open = at(/<script[^>]* src="\/([^"]+)"/g, html);
  for (let path = open.pop(); path; path = open.pop())
    if (!scripts.has(path)) {
      scripts.add(path);
      open.push(...importedBy(path, id));
    }
  const styles = at(/<link rel="stylesheet" href="\/([^"]+)"/g, html);
  const fonts = readdirSync(join(dist, '_astro')).filter((file) => file.endsWith('.woff2'));
  return { page, scripts: [...scripts], styles, fonts: fonts.map((file) => `_astro/${file}`) };
}

const sum = (paths: readonly string[], of: (path: string) => number): number =>
  kilobytes(paths.reduce((total, path) => total + of(path), 0));

describe.each(catalog.map(({ id }) => id))('what the page of %s weighs', (id) => {
  const { page, scripts, styles, fonts } = loadedBy(id);

  test('its scripts are its own: the panel, this formula, this figure', () => {
    const text = scripts.map((path) => read(path).toString()).join('');
    expect(text).toContain(`id:\`${id}\``);
    const others = catalog.filter((formula) => formula.id !== id && text.includes(`id:\`${formula.id}\``));
    // A formula may rest on others of its domain, as the band of temperatures runs the model of their course.
    expect(others.filter((other) => other.id.split('.')[0] !== id.split('.')[0])).toEqual([]);
    expect(others.length).toBeLessThanOrEqual(3);
    if (id !== 'segment.expected-segment') expect(text).not.toContain('popliteal height');
  });

  test('script and style are within 60 kB, all of it with every font within 150 kB, compressed', () => {
    const code = sum([...scripts, ...styles], gzipped);
    const all = code + sum([page], gzipped) + sum(fonts, (path) => read(path).byteLength);
    expect(code).toBeLessThanOrEqual(60);
    expect(all).toBeLessThanOrEqual(150);
  });
});
