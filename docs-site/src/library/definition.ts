import { type AnyFormula, codesFor, type Unit } from 'swathe';
import { type About, aboutOf, inside, type Schema } from 'swathe/definition';
import { spanShown, unitWord } from './show.ts';

/** One value that a formula takes or gives. */
export interface Leaf {
  readonly path: string;
  readonly about: About;
  readonly possible: string;
  readonly tested: string;
}

function possibleOf(schema: Schema, about: About): string {
  if (about.kind === 'choice') return Object.keys(inside(schema).entries ?? {}).join(', ');
  if (about.kind === 'text') return 'text';
  if (about.kind === 'flag') return 'yes or no';
  const whole = about.kind === 'count' ? 'whole, ' : '';
  if (about.possible && about.unit) return whole + spanShown(about.possible, about.unit);
  return about.kind === 'count' ? 'whole' : 'any';
}

/** Every leaf that a schema describes, in its order; a list stands for each of its entries. */
export function leavesOf(schema: Schema, basis: AnyFormula['basis'], path = ''): readonly Leaf[] {
  const about = aboutOf(schema);
  if (about) {
    const tested =
      about.tested && about.unit
        ? spanShown(about.tested, about.unit)
        : basis === 'identity'
          ? 'all: exact'
          : about.kind === 'measure'
            ? 'not stated'
            : 'all';
    return [{ path, about, possible: possibleOf(schema, about), tested }];
  }
  const { innerType, element, shape, options } = inside(schema);
  if (innerType) return leavesOf(innerType, basis, `${path}?`);
  if (element) return leavesOf(element, basis, `${path}[]`);
  if (options)
    return options.flatMap((option) => {
      const kind = inside(inside(option).shape?.['kind'] ?? option).values?.[0] ?? '';
      return leavesOf(option, basis, `${path}:${kind}`);
    });
  return Object.entries(shape ?? {}).flatMap(([name, part]) =>
    leavesOf(part, basis, path === '' ? name : `${path}.${name}`),
  );
}

/** How many entries each list takes, in words. */
export function listsOf(schema: Schema, path = ''): readonly { path: string; says: string }[] {
  const { innerType, element, shape, size } = inside(schema);
  if (aboutOf(schema)) return [];
  if (innerType) return listsOf(innerType, path);
  if (element)
    return [
      ...(size ? [{ path, says: `${size[0]} to ${size[1]} entries` }] : []),
      ...listsOf(element, `${path}[]`),
    ];
  return Object.entries(shape ?? {}).flatMap(([name, part]) =>
    listsOf(part, path === '' ? name : `${path}.${name}`),
  );
}

/** The units in which inputs may be told, one text a dimension. */
export function unitsTold(leaves: readonly Leaf[]): readonly string[] {
  const units = new Set(leaves.map(({ about }) => about.unit).filter((unit): unit is Unit => unit !== null));
  return [...units]
    .map((unit) => codesFor(unit).map((code) => unitWord(code) || 'bare number'))
    .map((told) => told.join(', '));
}

const files = import.meta.glob<string>('../../../packages/core/src/*/*.ts', {
  query: '?raw',
  import: 'default',
  eager: true,
});

interface Docstring {
  /** Path in the repository. */
  readonly file: string;
  /** Name under which the library exports it. */
  readonly exported: string;
  /** The first sentence, and what follows it. */
  readonly lead: string;
  readonly more: readonly string[];
  readonly example: string;
}

/** What stands above the formula in its source file. */
export function docstringOf(id: string): Docstring {
  const found = Object.entries(files).find(([, code]) => code.includes(`id: '${id}'`));
  if (!found) throw new Error(`No source file defines ${id}`);
  const [path, code] = found;
  const [, comment, exported] =
    /\/\*\*\n((?: \*[^\n]*\n)+?) \*\/\nexport const (\w+) = \/\* @__PURE__ \*\/ formula\(/.exec(code) ?? [];
  if (!comment || !exported) throw new Error(`No docstring stands above ${id} in ${path}`);
  const [prose = '', example = ''] = comment.replace(/^ \* ?/gm, '').split('@example\n');
  const [lead = '', ...more] = prose
    .replace(/@throws[\s\S]*/, '')
    .trim()
    .split(/\n\n/)
    .map((paragraph) => paragraph.replaceAll('\n', ' '));
  return { file: path.replace(/^(\.\.\/)+/, ''), exported, lead, more, example: example.trim() };
}
