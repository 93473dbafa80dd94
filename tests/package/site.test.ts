import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { AnyFormula } from 'swathe';
import { catalog } from 'swathe/catalog';
import { describe, expect, test } from 'vitest';
import { aboutOf, inside } from '../../packages/core/src/measure.ts';

const root = join(import.meta.dirname, '../..');
const dist = join(root, 'docs-site/dist');
const content = join(root, 'docs-site/src/content/formulas');
const html = (path: string): string => readFileSync(join(dist, path), 'utf8');
const files = readdirSync(dist, { recursive: true, encoding: 'utf8' });
const pages = files.filter((file) => file.endsWith('.html'));

test('there is a page for each formula, built and written, and no other', () => {
  const ids = catalog.map(({ id }) => id).sort();
  expect(files.filter((file) => /^f\/[^/]+$/.test(file)).sort()).toEqual(ids.map((id) => `f/${id}`));
  expect(readdirSync(content).sort()).toEqual(ids.map((id) => `${id}.mdx`).sort());
});

describe.each(pages)('%s', (path) => {
  const text = html(path);

  test('holds no inline script, style or handler', () => {
    expect(text.match(/<style|\sstyle=|\son[a-z]+=|javascript:/gi) ?? []).toEqual([]);
    for (const [script] of text.matchAll(/<script[^>]*>/g)) expect(script).toContain(' src="/');
  });

  test('loads nothing from elsewhere, and forbids it', () => {
    const loaded = [
      ...text.matchAll(/<(?!a\b)[a-z]+\b[^>]*?\s(?:src|href|srcset|data|poster)="([^"]+)"/gi),
    ].map(([, url]) => url);
    expect(loaded.filter((url) => !/^(\/(?!\/)|#)/.test(url ?? ''))).toEqual([]);
    expect(text).toContain(
      `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'self'; font-src 'self'; img-src 'self' data:; script-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'">`,
    );
  });

  test('carries the caution', () => {
    expect(text).toContain('local protocol decide');
    expect(text).toContain('Stop and take it off on pain, burning or numbness.');
  });
});

test('style sheets load nothing from elsewhere', () => {
  for (const file of files.filter((name) => name.endsWith('.css')))
    for (const [, url] of html(file).matchAll(/url\(["']?([^"')]+)/g)) expect(url).toMatch(/^\/(?!\/)/);
});

/** The TeX of a page as its frontmatter holds it. */
function texOf(id: string): string {
  const block = /^tex: \|\n((?: {2}.*\n)+)/m.exec(readFileSync(join(content, `${id}.mdx`), 'utf8'))?.[1];
  if (!block) throw new Error(`${id}.mdx shows no formula`);
  return block;
}

type Schema = Parameters<typeof aboutOf>[0];

/** Every symbol that a schema declares. */
function symbolsOf(schema: Schema): string[] {
  const about = aboutOf(schema);
  if (about) return about.symbol === undefined ? [] : [about.symbol];
  const { innerType, element, shape, options } = inside(schema);
  return [innerType, element, ...Object.values(shape ?? {}), ...(options ?? [])].flatMap((part) =>
    part ? symbolsOf(part) : [],
  );
}

function declaredBy(formula: AnyFormula): readonly string[] {
  const schemas = [
    formula.input,
    formula.output,
    ...Object.values((formula.steps ?? {}) as Record<string, Schema>),
  ];
  const constants = Object.values((formula.constants ?? {}) as Record<string, { symbol?: string }>);
  return [...schemas.flatMap(symbolsOf), ...constants.flatMap(({ symbol }) => symbol ?? [])];
}

const spacing = new Set(['\\ ', '\\,', '\\;', '\\!', '\\\\', '&', '\\quad', '\\qquad']);
const tokensOf = (tex: string): readonly string[] =>
  (tex.match(/\\[a-zA-Z]+|\\.|\S/g) ?? []).filter((token) => !spacing.has(token));
const textOf = (tex: string): string => tokensOf(tex).join(' ');

/** Layout, operators and functions that mean the same on every page. */
const notation = new Set(
  (
    'frac tfrac sqrt left right bigl bigr sum int max min sin cos tan arcsin arccos arctan exp ln log Phi pi ' +
    'partial le ge lt gt approx times cdot dots infty lfloor rfloor lceil rceil'
  ).split(' '),
);

/** The declared symbols that a formula shows, and what in it is neither declared nor notation. */
function shownIn(tex: string, declared: readonly string[]) {
  // Letters that only count, or that an integral runs over, are no symbols of the formula.
  const bound = new Set(['i']);
  for (const [, letter = ''] of tex.matchAll(/(?:\\mathrm\{d\}\s*|\\sum_)([a-z])/g)) bound.add(letter);
  const symbols = [...new Set(declared)]
    .map((symbol) => ({ text: textOf(symbol), tokens: tokensOf(symbol) }))
    .sort((a, b) => b.tokens.length - a.tokens.length);
  const tokens = tokensOf(tex.replace(/\\(begin|end)\{aligned\}|\\mathrm\{d\}/g, ' '));

  /** How many tokens the subscript at a place takes, if it only counts: `C_i` is C, `C_o` is another symbol. */
  const indexAt = (at: number): number | undefined => {
    if (tokens[at] !== '_') return 0;
    const end = tokens[at + 1] === '{' ? tokens.indexOf('}', at) : at + 1;
    const counts = tokens.slice(at + 1, end + 1).every((x) => bound.has(x) || /^[\d{}+=-]$/.test(x));
    return counts ? end + 1 - at : undefined;
  };

  const found = new Set<string>();
  const undeclared: string[] = [];
  for (let at = 0; at < tokens.length; ) {
    const index = (of: readonly string[]) => indexAt(at + of.length);
    const symbol = symbols.find(
      (s) => s.tokens.every((token, k) => tokens[at + k] === token) && index(s.tokens) !== undefined,
    );
    if (symbol) {
      found.add(symbol.text);
      at += symbol.tokens.length + (index(symbol.tokens) as number);
      continue;
    }
    const token = tokens[at] as string;
    const known = token.startsWith('\\')
      ? notation.has(token.slice(1))
      : bound.has(token) || !/[a-z]/i.test(token);
    if (!known) undeclared.push(tokens.slice(at, at + 4).join(' '));
    at += 1;
  }
  return { found, undeclared };
}

test('the reader of formulas tells symbols, indices and strangers apart', () => {
  const read = shownIn('C_o = C_{i+1} + 2\\pi\\,h + \\int v\\,\\mathrm{d}v', ['C', 'C_o', 'h']);
  expect([...read.found].sort()).toEqual(['C', 'C _ o', 'h']);
  expect(read.undeclared).toEqual([]);
  expect(shownIn('C_x + \\alpha + z', ['C', 'z']).undeclared).toEqual([
    'C _ x +',
    'x + \\alpha +',
    '\\alpha + z',
  ]);
});

describe.each(catalog.map((formula) => ({ id: formula.id, formula })))(
  'the formula shown on $id',
  ({ id, formula }) => {
    const declared = declaredBy(formula);
    const { found, undeclared } = shownIn(texOf(id), declared);

    test('uses only symbols that the definition declares', () => {
      expect(undeclared).toEqual([]);
    });

    test('shows every input and step that has a symbol', () => {
      const steps = Object.values((formula.steps ?? {}) as Record<string, Schema>);
      const wanted = [...symbolsOf(formula.input), ...steps.flatMap(symbolsOf)].map(textOf);
      expect(wanted.filter((symbol) => !found.has(symbol))).toEqual([]);
    });

    test('is set as MathML that a browser can lay out', () => {
      const text = html(`f/${id}/index.html`);
      const math = [...text.matchAll(/<math[\s\S]*?<\/math>/g)].map(([all]) => all);
      expect(math.length).toBeGreaterThan(1);
      expect(text).not.toContain('katex-error');
      expect(text).toContain(`<math aria-label=`);
      for (const all of math) for (const fault of misshapen(all)) expect.fail(`${fault} in ${all}`);
    });
  },
);

const children: Readonly<Record<string, number>> = {
  mfrac: 2,
  msub: 2,
  msup: 2,
  munder: 2,
  mover: 2,
  msubsup: 3,
  munderover: 3,
};

/** Elements whose number of children is not what MathML demands: a browser then lays them out as a plain row. */
function misshapen(math: string): string[] {
  const faults: string[] = [];
  const open: { name: string; count: number }[] = [];
  for (const [, close, name = '', single] of math.matchAll(/<(\/?)([a-z]+)[^>]*?(\/?)>/g)) {
    if (close) {
      const { count } = open.pop() as { count: number };
      const wanted = children[name];
      if (wanted !== undefined && count !== wanted) faults.push(`${name} with ${count}`);
      continue;
    }
    const parent = open.at(-1);
    if (parent) parent.count += 1;
    if (!single) open.push({ name, count: 0 });
  }
  return faults;
}
