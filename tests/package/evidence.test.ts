import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { csvParse } from 'd3-dsv';
import { immobilisations } from 'swathe';
import { catalog } from 'swathe/catalog';
import { describe, expect, test } from 'vitest';
import { parts } from '../../docs-site/src/library/words.ts';
import { landmarks } from '../../packages/core/src/plan/immobilisation.ts';
import type { RowFile } from '../checks/rows.ts';

const root = join(import.meta.dirname, '../..');
const dist = join(root, 'docs-site/dist');
const html = (path: string): string => readFileSync(join(dist, path), 'utf8');
const count = (text: string, what: RegExp): number => [...text.matchAll(what)].length;
const pages = readdirSync(dist, { recursive: true, encoding: 'utf8' }).filter((file) =>
  file.endsWith('.html'),
);
const rows = catalog.flatMap(
  ({ id }) => (JSON.parse(readFileSync(join(root, `references/checks/${id}.json`), 'utf8')) as RowFile).rows,
);

test('the page of checks holds every row, with its state in words, and none fails', () => {
  const text = html('checks/index.html');
  const states = (state: string): number => count(text, new RegExp(`<tr[^>]* data-state="${state}"`, 'g'));
  const deviating = rows.filter(({ deviates }) => deviates !== undefined).length;
  expect(states('fails')).toBe(0);
  expect(states('deviates')).toBe(deviating);
  expect(states('agrees')).toBe(rows.length - deviating);
  expect(count(text, />(agrees|deviates)<\/span>/g)).toBe(rows.length);
});

test('the page of disagreements holds every row that deviates, with its reason', () => {
  const text = html('disagreements/index.html');
  const reasons = rows.flatMap(({ deviates }) => deviates ?? []);
  expect(count(text, /<td class="why">/g)).toBe(reasons.length);
});

test('the page of constants holds every constant as printed', () => {
  const printed = catalog.flatMap(({ constants = {} }) =>
    Object.values(constants as Record<string, { printed: string }>).map((constant) => constant.printed),
  );
  const cells = [...html('constants/index.html').matchAll(/<td class="value">\s*(\S+)/g)].map(
    ([, cell]) => cell,
  );
  expect(cells.map((cell) => cell?.replace('</td>', ''))).toEqual(printed);
});

test('tables are offered as they stand, and each says its licence and how it was made, or shows its program', () => {
  const folder = join(root, 'references/tables');
  const names = readdirSync(folder).filter((file) => file.endsWith('.csv'));
  const text = html('tables/index.html');
  expect(names.length).toBeGreaterThan(0);
  for (const name of names) {
    const csv = readFileSync(join(folder, name), 'utf8');
    expect(html(`tables/${name}`)).toBe(csv);
    expect(text).toContain(`href="/tables/${name}" download`);
    expect(text).toContain(`${csvParse(csv).length} rows`);
  }
  expect(count(text, />Licence<\/h3>/g) + count(text, />The program<\/summary>/g)).toBe(names.length);
});

test('there is a page for each splint and cast, and no other', () => {
  const built = readdirSync(join(dist, 'immobilisations')).filter((name) => name !== 'index.html');
  expect(built.sort()).toEqual(Object.keys(immobilisations).sort());
});

test('every place and angle of the catalogue, and every kind of material, is explained among the words', () => {
  const words = new Set(parts.flatMap((part) => part.words.map(({ word }) => word)));
  const angles = Object.values(immobilisations).flatMap(({ joints }) => Object.keys(joints));
  expect([...landmarks, ...angles].filter((word) => !words.has(word))).toEqual([]);
});

test('what the search finds is there: every address, every anchor, no entry twice', () => {
  const entries = JSON.parse(html('search.json')) as { title: string; kind: string; to: string }[];
  const ids = new Map<string, Set<string>>();
  const idsOf = (path: string): Set<string> => {
    const known =
      ids.get(path) ?? new Set([...html(path).matchAll(/ id="([^"]+)"/g)].map(([, id]) => id as string));
    ids.set(path, known);
    return known;
  };
  const missing = entries.filter(({ to }) => {
    const [page = '', anchor] = to.split('#');
    const path = `${page.slice(1)}index.html`;
    return !pages.includes(path) || (anchor !== undefined && !idsOf(path).has(anchor));
  });
  expect(missing).toEqual([]);
  expect(new Set(entries.map(({ to }) => to)).size).toBe(entries.length);
  const kinds = new Map<string, number>();
  for (const { kind } of entries) kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
  expect(kinds.get('formula')).toBe(catalog.length);
  expect(kinds.get('check')).toBe(rows.length);
  expect(kinds.get('splint or cast')).toBe(Object.keys(immobilisations).length);
  for (const kind of ['guide', 'evidence', 'word', 'table', 'source', 'API'])
    expect(kinds.get(kind)).toBeGreaterThan(2);
});

test('formulas and the API lead to each other', () => {
  const api = html('api/swathe/index.html');
  for (const { id } of catalog) {
    expect(api, id).toContain(`href="/f/${id}/"`);
    const [, anchor] = /href="\/api\/swathe\/#([^"]+)"/.exec(html(`f/${id}/index.html`)) ?? [];
    expect(api, id).toContain(`id="${anchor}"`);
  }
});

describe.each(pages.filter((page) => page !== '404.html'))('%s', (page) => {
  test('says how to cite it, dated by the release', () => {
    const text = html(page);
    const unescaped = (part: string): string =>
      part.replaceAll('&quot;', '"').replaceAll('&#34;', '"').replaceAll('&amp;', '&');
    const [, csl = ''] = /aria-label="CSL-JSON"[^>]*><pre><code>([^<]+)/.exec(text) ?? [];
    const [cited] = JSON.parse(unescaped(csl)) as { title: string; issued: { 'date-parts': number[][] } }[];
    const released = /^date-released: (\d{4})/m.exec(readFileSync(join(root, 'CITATION.cff'), 'utf8'))?.[1];
    expect(cited?.title.length).toBeGreaterThan(2);
    expect(cited?.issued['date-parts']).toEqual([[Number(released)]]);
    expect(text).toMatch(/aria-label="BibTeX"[^>]*><pre><code>@misc\{swathe-/);
    expect(unescaped(text)).toContain(`title        = {${cited?.title}}`);
  });
});
