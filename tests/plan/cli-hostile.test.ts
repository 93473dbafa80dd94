import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { csvParseRows } from 'd3-dsv';
import { helix, slabShare } from 'swathe';
import { describe, expect, test } from 'vitest';
import { command } from '../../packages/cli/src/command.ts';
import { orderOf } from './cases.ts';

const run = (formula: string, csv: string) => command(['run', formula, '-'], () => csv);
/** Cells of one column. */
function column(csv: string, heading: string): string[] {
  const [headings = [], ...rows] = csvParseRows(csv.trim());
  return rows.map((row) => row[headings.indexOf(heading)] ?? 'no such column');
}

const stations = 'stations.0.at [mm],stations.0.girth [mm],stations.1.at [mm],stations.1.girth [mm]';
const cells = '0,200,100,220';

describe('a table whose headings are hostile', () => {
  test.each([
    'stations.__proto__.polluted',
    'stations.constructor.prototype.polluted',
    'stations.0.__proto__.polluted',
    'stations.0.at.constructor.prototype.polluted',
  ])('%s pollutes nothing, and is refused in its row', (heading) => {
    const { code, out } = run('segment.girth-profile', `${stations},${heading}\n${cells},yes\n`);
    expect(code).toBe(0);
    expect(column(out, 'cannot')[0]).toMatch(/stations/);
    for (const native of [{}, [], () => 1]) expect('polluted' in native).toBe(false);
  });

  test.each([
    ['a place and a part of it', 'girth [cm],girth.x,width [mm],overlap', '20,1,75,0.5'],
    ['a part of a place and the place', 'girth.x,girth [cm],width [mm],overlap', '1,20,75,0.5'],
    ['the same twice', 'girth [cm],girth [cm],width [mm],overlap', '20,21,75,0.5'],
  ])('%s: refused in its row', (_, headings, row) => {
    const { code, out } = run('coverage.helix', `${headings}\n${row}\n`);
    expect(code).toBe(0);
    expect(out).toContain('girth');
    expect(out).toContain('two columns for it');
  });

  test('a place numbered past any list is refused, not waited for', () => {
    const { code, out } = run(
      'segment.girth-profile',
      `${stations},stations.4294967294.at [mm]\n${cells},3\n`,
    );
    expect(code).toBe(0);
    expect(column(out, 'cannot')[0]).toContain('stations: got an object');
  });

  test('a column called __proto__ is carried along as any other', () => {
    const { out } = run('coverage.helix', '__proto__,girth [cm],width [mm],overlap\nmine,20,75,0.5\n');
    expect(column(out, '__proto__')).toEqual(['mine']);
    expect(column(out, 'cannot')).toEqual(['']);
  });
});

describe('cells', () => {
  test('of blanks are empty, not nought', () => {
    const { out } = run('coverage.helix', 'girth [cm],width [mm],overlap\n20,75, \n');
    expect(column(out, 'cannot')[0]).toContain('overlap: got nothing');
  });

  test('left out in the middle of a list are told by their place', () => {
    const three = `${stations},stations.2.at [mm],stations.2.girth [mm]`;
    const { out } = run('segment.girth-profile', `${three}\n0,200,,,100,220\n`);
    expect(column(out, 'cannot')[0]).toContain('stations.1: got nothing');
  });

  test('after a byte order mark, with quotes and carriage returns, are read as ever', () => {
    const { out } = run('coverage.helix', '\ufeff"girth [cm]",width [mm],overlap\r\n20,"75",0.5\r\n');
    const json = { girth: { value: 20, unit: 'cm' }, width: { value: 75, unit: 'mm' }, overlap: 0.5 };
    expect(Number(column(out, 'value.advance [mm]')[0])).toBe(helix.fromJson(json).value.advance);
  });

  test('of a list give the answer of the list', () => {
    const { out } = run('coverage.slab-share', `${stations},width [mm]\n${cells},100\n`);
    const at = (at: number, girth: number) => ({
      at: { value: at, unit: 'mm' },
      girth: { value: girth, unit: 'mm' },
    });
    const { value } = slabShare.fromJson({
      stations: [at(0, 200), at(100, 220)],
      width: { value: 100, unit: 'mm' },
    });
    expect(Number(column(out, 'value.mean')[0])).toBe(value.mean);
  });

  test('wrong in a hundred places are told in a few', () => {
    const many = Array.from({ length: 100 }, (_, n) => `stations.${n}.girth [ells]`);
    const { out } = run('segment.girth-profile', `${many.join(',')}\n${many.map(() => 'x').join(',')}\n`);
    expect(column(out, 'cannot')[0]).toMatch(/and \d+ more$/);
    expect((column(out, 'cannot')[0] as string).length).toBeLessThan(2000);
  });
});

describe('a real process', () => {
  const bin = join(import.meta.dirname, '../../packages/cli/bin/swathe.mjs');
  const folder = mkdtempSync(join(tmpdir(), 'hostile-'));
  const file = (name: string, content: string | Uint8Array): string => {
    const path = join(folder, name);
    writeFileSync(path, content);
    return path;
  };
  const order = orderOf('short-leg-cast');

  test.each<[string, () => { args: string[]; input?: string }]>([
    ['ten megabytes that are no JSON', () => ({ args: ['plan', '-'], input: 'x'.repeat(1e7) })],
    [
      'lists a hundred thousand deep',
      () => ({ args: ['plan', '-'], input: '['.repeat(1e5) + ']'.repeat(1e5) }),
    ],
    [
      'a list that deep for a length',
      () => ({
        args: [
          'plan',
          file('deep.json', `{"order":{"limb":{"length":${'['.repeat(1e5)}${']'.repeat(1e5)}}}}`),
        ],
      }),
    ],
    [
      'a hundred thousand wraps',
      () => ({
        args: ['plan', '-'],
        input: JSON.stringify({ order: { ...order, wraps: Array(1e5).fill({ layer: 1 }) } }),
      }),
    ],
    [
      'bytes that are no text',
      () => ({
        args: [
          'plan',
          file(
            'bytes.json',
            new Uint8Array(4096).map((_, n) => n * 7),
          ),
        ],
      }),
    ],
    ['a folder', () => ({ args: ['run', 'coverage.helix', folder] })],
    ['nothing at all', () => ({ args: ['plan', '-'], input: '' })],
    ['a name that steers a terminal', () => ({ args: ['schema', `\u001b[2J\n${'x'.repeat(50_000)}`] })],
  ])('%s: exit code 2, a short message, no stack', (_, given) => {
    const { args, input = '' } = given();
    const { status, stdout, stderr } = spawnSync(process.execPath, [bin, ...args], {
      encoding: 'utf8',
      input,
    });
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr.trim()).not.toBe('');
    expect(stderr.length).toBeLessThanOrEqual(2000);
    expect(stderr).not.toMatch(/^ +at /m);
    expect(stderr.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
  });

  test('a hundred thousand rows are answered', () => {
    const rows = `girth [cm],width [mm],overlap\n${'20,75,0.5\n'.repeat(1e5)}`;
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      [bin, 'run', 'coverage.helix', file('rows.csv', rows)],
      {
        encoding: 'utf8',
        maxBuffer: 1e9,
      },
    );
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout.trim().split('\n').length).toBe(1e5 + 1);
  });

  test('a reader that goes away before the end gets no stack', async () => {
    const rows = `girth [cm],width [mm],overlap\n${'20,75,0.5\n'.repeat(20_000)}`;
    const child = spawn(process.execPath, [bin, 'run', 'coverage.helix', file('more.csv', rows)]);
    let stderr = '';
    child.stderr.on('data', (data) => {
      stderr += data;
    });
    child.stdout.once('data', () => child.stdout.destroy());
    const code = await new Promise((done) => child.on('close', done));
    expect([code, stderr]).toEqual([0, '']);
  });
});
