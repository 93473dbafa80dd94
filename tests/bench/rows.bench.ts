import { execFileSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cm, mm, stripLength } from 'swathe';
import { beside, row, timed } from './beside.ts';

const many = 1_000_000;
const girthOf = (n: number): number => 10 + (n % 2000) / 50;
const advanceOf = (n: number): number => 20 + (n % 71);

const limbs = Array.from({ length: many }, (_, n) => ({
  girth: cm(girthOf(n)),
  advance: mm(advanceOf(n)),
  turns: 6,
}));
const { compute } = stripLength;
const byHand = ({ girth, advance, turns }: (typeof limbs)[number]): number =>
  turns * Math.sqrt(girth * girth + advance * advance);
// A loop each: one that both went through would be compiled for neither.
function computed(): number {
  let sum = 0;
  for (const limb of limbs) sum += compute(limb);
  return sum;
}
function looped(): number {
  let sum = 0;
  for (const limb of limbs) sum += byHand(limb);
  return sum;
}

const folder = mkdtempSync(join(tmpdir(), 'rows-'));
const csv = join(folder, 'rows.csv');
const lines = limbs.map((_, n) => `${girthOf(n)},${advanceOf(n)},6`);
writeFileSync(csv, `girth [cm],advance [mm],turns\n${lines.join('\n')}\n`);

/** Runs a program over the table, from its start to its end. */
function ran(program: string, args: readonly string[], into: string): string {
  const out = openSync(join(folder, into), 'w');
  execFileSync(process.execPath, [program, ...args, csv], { stdio: ['ignore', out, 'inherit'] });
  closeSync(out);
  return into;
}
const lengths = (of: string): string[] =>
  readFileSync(join(folder, of), 'utf8')
    .trimEnd()
    .split('\n')
    .slice(1)
    .map((line) => line.split(',')[3] ?? '');

const swathe = fileURLToPath(import.meta.resolve('../../packages/cli/bin/swathe.mjs'));
const plain = fileURLToPath(import.meta.resolve('./plain-rows.mjs'));
const throughRun = timed(() => ran(swathe, ['run', stripLength.id], 'ours.csv'), 1);
const throughPlain = timed(() => ran(plain, [], 'plain.csv'), 3);
const [ours, theirs] = [lengths('ours.csv'), lengths('plain.csv')];
rmSync(folder, { recursive: true });
if (
  ours.length !== many ||
  ours.some((length, n) => Math.abs(Number(length) / Number(theirs[n]) - 1) > 1e-12)
)
  throw new Error('the two programs do not give the same lengths');

export const rows = [
  row('a million rows by compute', 'plain loop', beside(computed, looped), 'the same arithmetic written out'),
  row(
    'a million rows by swathe run',
    'unchecked script',
    [[throughRun, throughPlain]],
    'd3-dsv and the bare arithmetic: no check of what is read, no unit; ours once, the script by its median',
  ),
];
