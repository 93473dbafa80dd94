// The skeleton of a formula: `npx --yes pnpm@12.21.0 run new-formula coverage.tapered-slab`. Whatever it leaves to do says TODO,
// and the laws refuse it until none is left.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const code = (id: string, name: string): string => `import { formula } from '../formula.ts';
import { length } from '../measure.ts';
import { mm } from '../quantity.ts';

/**
 * TODO what it gives, in one sentence.
 *
 * @throws InputError when TODO
 * @example
 * ${name}({ todo: mm(1) }).value // TODO
 */
export const ${name} = /* @__PURE__ */ formula({
  id: '${id}',
  revision: 1,
  // TODO 'identity' follows from geometry or logic, 'empirical' from measurements, 'numerical' from a method that comes near.
  basis: 'identity',
  inputs: {
    todo: length('TODO what it means', { symbol: 'x', possible: [mm(1), mm(1000)] }),
  },
  output: length('TODO what it means', { symbol: 'y' }),
  // TODO ids in references/sources.json
  sources: ['todo'],
  compute: () => {
    throw new Error('TODO compute');
  },
});
`;

const rows = (id: string): string =>
  `${JSON.stringify(
    {
      formula: id,
      rows: [
        {
          id: 'c1',
          kind: 'TODO',
          source: 'todo',
          at: 'TODO where in the source',
          status: 'TODO',
          given: { todo: { value: 1, unit: 'mm' } },
          pointer: '/value',
          printed: 'TODO',
          unit: 'mm',
          within: 'half-last-digit',
          note: 'TODO why, and what was assumed',
        },
      ],
    },
    undefined,
    2,
  )}\n`;

const page = `---
title: TODO
tex: |
  y = \\mathrm{TODO}(x)
spoken: >-
  TODO the same, as one would say it.
example:
  todo: { value: 1, unit: mm }
---

## What it is for

TODO

## Why it is so

TODO the derivation, or what was measured.

## What it assumes

TODO

## When not to use it

TODO

## What it gets wrong

TODO
`;

function refuse(what: string, got: string, possible: string): never {
  throw new Error(`new-formula: ${what}: got ${got}; possible: ${possible}`);
}

/** A line put where its path sorts it among those of its domain. */
function listed(text: string, domain: string, path: string, line: string): string {
  const lines = text.split('\n');
  const places = lines.flatMap((old, n) => {
    const from = old.match(/ from '(.+)';$/)?.[1];
    return from?.startsWith(`./${domain}/`) ? [{ from, n }] : [];
  });
  const next = places.find(({ from }) => from > path)?.n ?? (places.at(-1)?.n ?? -1) + 1;
  return lines.toSpliced(next, 0, line).join('\n');
}

/** Writes the skeleton and lists it; gives the paths of what it wrote. Nothing is written when it refuses. */
export function newFormula(root: string, id = ''): string[] {
  const pathOf = (path: string): string => join(root, path);
  const [catalogPath, indexPath] = ['packages/core/src/catalog.ts', 'packages/core/src/index.ts'] as const;
  if (!existsSync(pathOf(catalogPath))) refuse('folder', root, 'the top of the repository');
  const catalog = readFileSync(pathOf(catalogPath), 'utf8');
  const index = readFileSync(pathOf(indexPath), 'utf8');

  const [, domain = '', kebab = ''] = /^([a-z]+)\.([a-z]+(?:-[a-z]+)*)$/.exec(id) ?? [];
  if (!domain) refuse('id', `'${id}'`, '<domain>.<name> in small letters, as coverage.tapered-slab');
  const imports = [...catalog.matchAll(/^import \{ (\w+) \} from '\.\/(\w+)\//gm)];
  const domains = [...new Set(imports.map(([, , of]) => of))];
  if (!domains.includes(domain)) refuse('domain', `'${domain}'`, domains.join(', '));

  const codePath = `packages/core/src/${domain}/${kebab}.ts`;
  const written = {
    [codePath]: '',
    [`references/checks/${id}.json`]: rows(id),
    [`docs-site/src/content/formulas/${id}.mdx`]: page,
  };
  const there = Object.keys(written).filter((path) => existsSync(pathOf(path)));
  if (there.length > 0) refuse('id', `'${id}'`, `one that has no file yet; there is ${there.join(', ')}`);
  const name = kebab.replace(/-(.)/g, (_, letter: string) => letter.toUpperCase());
  const exported = `${index}${readFileSync(pathOf('packages/core/src/quantity.ts'), 'utf8')}`;
  if (
    new RegExp(`(?:[{,]|^ |export (?:const|function|type|interface)) (?:type )?${name}\\b`, 'm').test(
      exported,
    )
  )
    refuse('name', `'${name}'`, 'one that the library does not export yet');
  written[codePath] = code(id, name);

  // The order of the catalog is that of a job: to begin with, last of its domain.
  const last = imports.filter(([, , of]) => of === domain).map(([, of]) => of as string);
  const order = [...catalog.matchAll(/^ {2}(\w+),$/gm)].map(([, of]) => of as string);
  const after = order.findLast((of) => last.includes(of));
  const path = `./${domain}/${kebab}.ts`;
  written[catalogPath] = listed(catalog, domain, path, `import { ${name} } from '${path}';`).replace(
    `\n  ${after},\n`,
    (line) => `${line}  ${name},\n`,
  );
  written[indexPath] = listed(index, domain, path, `export { ${name} } from '${path}';`);
  for (const [file, text] of Object.entries(written)) writeFileSync(pathOf(file), text);
  return Object.keys(written);
}

if (import.meta.main) {
  try {
    console.log(newFormula(process.cwd(), process.argv[2]).join('\n'));
    console.log('Each TODO is yours; DEVELOPERS.md, “Add a formula”, says how.');
  } catch (error) {
    console.error((error as Error).message);
    process.exitCode = 1;
  }
}
