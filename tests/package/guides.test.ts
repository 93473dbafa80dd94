import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import fc from 'fast-check';
import { digits12, recheck } from 'swathe';
import { describe, expect, test } from 'vitest';
import { fragmentOf, stateOf } from '../../docs-site/src/client/fragment.ts';
import { type Exercise, exercises, leastSeed, mostSeed } from '../../docs-site/src/guides/exercises.ts';

const site = join(import.meta.dirname, '../../docs-site');
const code = join(site, 'src/guides/code');
const files = readdirSync(code);
const read = (file: string): string => readFileSync(join(code, file), 'utf8');
const programs = files.filter((file) => file.endsWith('.ts') || file.endsWith('.sh'));

// The command as a package would be installed, and the Node that runs the tests.
const path = [
  join(import.meta.dirname, '../node_modules/.bin'),
  dirname(process.execPath),
  process.env['PATH'],
];
const env = { ...process.env, PATH: path.join(delimiter), NO_COLOR: '1' };

/** What it prints. Guides import the built package; the one on adding a formula works in the sources. */
function printed(file: string): string {
  const [command, ...args] = file.endsWith('.sh')
    ? (['sh', file] as const)
    : ([process.execPath, ...(file === 'add-a-formula.ts' ? ['--conditions=source'] : []), file] as const);
  return execFileSync(command, args, { cwd: code, env, encoding: 'utf8' });
}

describe.each(programs)('%s', (file) => {
  const told = file.replace(/\.\w+$/, '.txt');

  test('prints what the guide says it prints', () => {
    expect(printed(file)).toBe(read(told));
  });

  test('is shown on a guide with what it prints, as it stands', () => {
    const guides = readdirSync(join(site, 'dist/guides'), { recursive: true, encoding: 'utf8' })
      .filter((page) => page.endsWith('.html'))
      .map((page) => readFileSync(join(site, 'dist/guides', page), 'utf8'));
    const entities: Readonly<Record<string, string>> = {
      amp: '&',
      lt: '<',
      gt: '>',
      quot: '"',
      '#39': "'",
      '#34': '"',
    };
    const texts = guides.map((html) =>
      html.replaceAll(/&(#?\w+);/g, (whole, name) => entities[name] ?? whole),
    );
    const shows = texts.filter((text) => [file, told].every((name) => text.includes(read(name).trimEnd())));
    expect(shows.length).toBe(1);
  });
});

test('every file beside the guides is a program, what one prints, or its input', () => {
  const known = new Set([
    ...programs.flatMap((file) => [file, file.replace(/\.\w+$/, '.txt')]),
    'girths.csv',
  ]);
  expect(files.filter((file) => !known.has(file))).toEqual([]);
});

test('the guide on the law cites what stands in its list, and all of it', () => {
  const laws = JSON.parse(readFileSync(join(site, '../references/regulation.json'), 'utf8')) as {
    id: string;
  }[];
  const text = readFileSync(join(site, 'src/content/guides/regulation.mdx'), 'utf8');
  const ids = laws.map(({ id }) => id);
  const cited = new Set([...text.matchAll(/\]\(#([\w-]+)\)/g)].map(([, id]) => id));
  cited.delete('what-was-read-and-what-was-not');
  expect([...cited].sort()).toEqual(ids.toSorted());
  const html = readFileSync(join(site, 'dist/guides/regulation/index.html'), 'utf8');
  expect(ids.filter((id) => !html.includes(`<li id="${id}">`))).toEqual([]);
  expect(html).toContain('This is not legal advice.');
});

describe('exercises', () => {
  const seeds = fc.integer({ min: leastSeed, max: mostSeed });
  /** The numbers of a question in the order in which it tells them. */
  const numbers = ({ question }: Exercise): number[] => (question.match(/\d+(\.\d+)?/g) ?? []).map(Number);
  const first = ({ result }: Exercise): number => Number(/\d+(\.\d+)?/.exec(result)?.[0]);

  test('a set is the same for everybody, and another set is another', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        expect(exercises(seed)).toEqual(exercises(seed));
        const [one, other] = [exercises(seed), exercises((seed % mostSeed) + 1)];
        expect(one.map(({ question }) => question)).not.toEqual(other.map(({ question }) => question));
      }),
      { numRuns: 50 },
    );
  });

  test('results follow from the numbers in the question, by sums done here another way', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const [cut, girth, turns, overlap, layers, plies, rolls] = exercises(seed) as [
          Exercise,
          Exercise,
          Exercise,
          Exercise,
          Exercise,
          Exercise,
          Exercise,
        ];
        const near = (exercise: Exercise, value: number) =>
          expect(first(exercise)).toBe(Number(value.toPrecision(4)));

        const [path = 0, each = 0] = numbers(cut);
        near(cut, path + 2 * each);

        const [low = 0, high = 0, length = 1, at = 0] = numbers(girth);
        near(girth, (low * (length - at) + high * at) / length);

        const [count = 0, round = 0, climb = 0] = numbers(turns);
        near(turns, count * Math.hypot(round, climb));

        const [width = 0, limb = 1, percent = 0] = numbers(overlap);
        near(overlap, limb * Math.tan(Math.asin((width * (100 - percent)) / 100 / limb)));

        const [n = 0, thick = 0, girthBefore = 0] = numbers(layers);
        near(layers, girthBefore + (2 * Math.PI * n * thick) / 10);

        const [after = 0, before = 1] = numbers(plies);
        near(plies, (after / before) ** 3);

        const [pieces = 0, piece = 1, roll = 0] = numbers(rolls);
        near(rolls, Math.ceil(pieces / Math.floor(roll / piece)));
      }),
      { numRuns: 200 },
    );
  });

  test('the answers are the library’s, and a link opens its page with just these inputs', () => {
    for (const { formula, given, answer, result, working } of exercises(leastSeed)) {
      expect(recheck(answer, formula).kind).toBe('holds');
      expect(`${result} ${working.join(' ')}`).not.toMatch(/NaN|undefined|Infinity/);
      const fragment = fragmentOf(formula.inputs, { given, units: {} });
      const { given: back, unread } = stateOf(formula.inputs, fragment);
      expect(unread).toEqual([]);
      expect(
        JSON.stringify(formula.fromJson(back).value, (_, x) => (typeof x === 'number' ? digits12(x) : x)),
      ).toBe(JSON.stringify(answer.value, (_, x) => (typeof x === 'number' ? digits12(x) : x)));
    }
  });
});
