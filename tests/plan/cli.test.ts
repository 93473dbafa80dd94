import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { stripVTControlCharacters } from 'node:util';
import { applicationPlan, stripLength } from 'swathe';
import { describe, expect, test } from 'vitest';
import { casesFolder, orderOf } from './cases.ts';

const bin = join(import.meta.dirname, '../../packages/cli/bin/swathe.mjs');
const swathe = (args: string[], input = '') => {
  const { NO_COLOR: _, FORCE_COLOR: __, ...env } = process.env;
  return spawnSync(process.execPath, [bin, ...args], { encoding: 'utf8', input, env });
};
const caseFile = (name: string): string => join(casesFolder, `${name}.json`);

describe.each(readdirSync(casesFolder))('swathe plan %s', (file) => {
  const { stdout, status } = swathe(['plan', join(casesFolder, file)]);

  test('prints every part of the plan, on a screen and a half, without colour into a pipe', () => {
    expect(status).toBe(0);
    for (const part of [
      'POSITION',
      'CUT AND OPEN',
      'LAYERS',
      'WATER AND TIME',
      'HEAT OF SETTING',
      'CAUTIONS',
      'CHECK',
      'CHOSEN',
    ])
      expect(stdout).toContain(part);
    expect(stdout).toContain('local protocol');
    expect(stripVTControlCharacters(stdout)).toBe(stdout);
    expect(stdout.split('\n').length).toBeLessThan(90);
    expect(stdout).not.toMatch(/NaN|undefined|-0\.0/);
  });
});

test('--units leaves the other unit out', () => {
  const inches = swathe(['plan', caseFile('short-leg-cast'), '--units', 'in']).stdout;
  const cm = swathe(['plan', caseFile('short-leg-cast'), '--units', 'cm']).stdout;
  expect(inches).toMatch(/\.\d in\b/);
  expect(inches).not.toMatch(/\.\d cm\b/);
  expect(cm).toMatch(/\.\d cm\b/);
  expect(cm).not.toMatch(/\.\d in\b/);
});

test('--json is the plan itself', () => {
  const { stdout } = swathe(['plan', caseFile('short-leg-cast'), '--json']);
  expect(JSON.parse(stdout)).toEqual(applicationPlan.fromJson(orderOf('short-leg-cast')));
});

describe('what cannot be', () => {
  const folder = mkdtempSync(join(tmpdir(), 'case-'));
  const broken = (order: unknown): string => {
    const path = join(folder, 'case.json');
    writeFileSync(path, typeof order === 'string' ? order : JSON.stringify({ order }));
    return path;
  };

  test.each([
    [
      'a girth past any limb',
      { ...orderOf('short-leg-cast'), dip: { value: 95, unit: 'Cel' } },
      'dip: got 95 Cel; possible: 0 to 70 Cel',
    ],
    [
      'a name that is not there',
      { ...orderOf('short-leg-cast'), side: 'port' },
      'side: got "port"; possible: left, right',
    ],
    ['not JSON', '{', 'is not JSON'],
    ['no order in it', '{}', 'got no "order"'],
  ])('%s: exit code 2, and what was got and possible', (_, order, says) => {
    const { stderr, stdout, status } = swathe(['plan', broken(order)]);
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toContain(says);
    expect(stderr).not.toContain('    at ');
  });

  test.each([
    [[]],
    [['plan']],
    [['plan', 'nowhere.json']],
    [['run', 'no.formula', '-']],
    [['plan', '--colour']],
    [['plan', caseFile('short-leg-cast'), '--units', 'ells']],
  ])('%j: exit code 2 and no stack', (args) => {
    const { stderr, status } = swathe(args);
    expect(status).toBe(2);
    expect(stderr.trim()).not.toBe('');
    expect(stderr).not.toContain('    at ');
  });
});

test('swathe run: a formula over a table, other columns kept, what cannot be told in its row', () => {
  const rows = 'limb,girth [cm],advance [[in_i]],turns\nleft wrist,16.5,1.5,6\ndoll,1,1.5,6\n';
  const { stdout, status } = swathe(['run', 'coverage.strip-length', '-'], rows);
  expect(status).toBe(0);
  const [heading, wrist, doll] = stdout.split('\n');
  expect(heading).toBe('limb,girth [cm],advance [[in_i]],turns,value [mm],domain,cannot');
  const { value } = stripLength.fromJson({
    girth: { value: 16.5, unit: 'cm' },
    advance: { value: 1.5, unit: '[in_i]' },
    turns: 6,
  });
  expect(wrist).toBe(`left wrist,16.5,1.5,6,${value},exact,`);
  expect(doll).toContain('girth: got 1 cm; possible: 3 to 120 cm');
});

test('swathe schema: the wire form of a formula', () => {
  const schema = JSON.parse(swathe(['schema', 'coverage.helix']).stdout);
  expect(schema).toMatchObject({ type: 'object', required: ['girth', 'width', 'overlap'] });
});
