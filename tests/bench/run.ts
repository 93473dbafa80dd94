// Every benchmark beside its peer, as one table of ratios; `WRITE=1` keeps the table in references/benchmarks.json.
import { execFileSync } from 'node:child_process';
import { globSync, writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import type { Row } from './beside.ts';

interface Benches {
  readonly rows: readonly Row[];
  /** Peers that are not on this machine. */
  readonly missing?: readonly string[];
}

const [file] = process.argv.slice(2);
if (file) {
  const { rows, missing = [] } = (await import(file)) as Benches;
  console.log(JSON.stringify({ rows, missing }));
} else {
  const date = new Date().toISOString().slice(0, 10);
  const load = loadavg()[0] as number;
  const folder = import.meta.dirname;
  // A process each: what one has the compiler learn must not help or hinder another.
  const found = globSync('*.bench.ts', { cwd: folder })
    .sort()
    .map((name) => {
      console.log(`${name} …`);
      const args = [...process.execArgv, import.meta.filename, join(folder, name)];
      const said = execFileSync(process.execPath, args, {
        encoding: 'utf8',
        stdio: ['ignore', 'pipe', 'inherit'],
      });
      return JSON.parse(said) as Required<Benches>;
    });
  const rows = found.flatMap((of) => of.rows);
  const missing = found.flatMap((of) => of.missing);

  const shown = (n: number): string => String(Number(n.toPrecision(3)));
  const cells = rows.map((row) => [
    row.what,
    row.peer,
    shown(row.ratio),
    `${shown(row.ours)} ${row.unit}`,
    `${shown(row.theirs)} ${row.unit}`,
    row.note,
  ]);
  const table = [['what', 'peer', 'peer / ours', 'ours', 'peer', 'note'], ...cells];
  const widths = table[0]?.map((_, n) => Math.max(...table.map((line) => line[n]?.length ?? 0))) ?? [];
  for (const line of table)
    console.log(
      line
        .map((cell, n) => cell.padEnd(widths[n] ?? 0))
        .join('  ')
        .trimEnd(),
    );
  for (const peer of missing) console.log(`${peer} is not installed: nothing was measured beside it`);

  if (process.env['WRITE']) {
    const cpu = cpus();
    const kept = {
      date,
      node: process.versions.node,
      cpu: cpu[0]?.model ?? 'unknown',
      cores: cpu.length,
      load: Number(load.toFixed(2)),
      rows: rows.map((row) => ({
        ...row,
        ratio: Number(row.ratio.toPrecision(3)),
        ours: Number(row.ours.toPrecision(3)),
        theirs: Number(row.theirs.toPrecision(3)),
      })),
      missing,
    };
    writeFileSync(join(folder, '../../references/benchmarks.json'), `${JSON.stringify(kept, null, 2)}\n`);
  }
}
