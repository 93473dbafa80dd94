// Runs the report of all numbers on every runtime that the registry gives, and says whether each gives the same bytes.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromiumPath, noChromium } from '../chromium.ts';
import { browser, type Host, hardened, script, versionOf, worker } from './hosts.ts';
import { bundle, kept } from './report.ts';

const folder = mkdtempSync(join(tmpdir(), 'runtimes-'));

/** Installs a package by itself, outside the workspace and without its scripts, and gives the path of a file in it. */
function installed(name: string, file: string): string | undefined {
  const into = join(folder, name.replaceAll(/\W/g, '-'));
  mkdirSync(into);
  writeFileSync(join(into, 'package.json'), '{}');
  try {
    const args = ['install', '--ignore-scripts', '--no-audit', '--no-fund', '--no-package-lock', name];
    execFileSync('npm', args, { cwd: into, stdio: ['ignore', 'ignore', 'pipe'] });
  } catch {
    return undefined;
  }
  const path = join(into, 'node_modules', file);
  return existsSync(path) ? path : undefined;
}

const arch = process.arch;
const workerd = `@cloudflare/workerd-linux-${arch === 'x64' ? '64' : arch}`;
const node = (major: number) =>
  [`Node ${major}`, `node-linux-${arch}@${major}`, `node-linux-${arch}/bin/node`, script] as const;
const bun = arch === 'x64' ? 'x64' : 'aarch64';
const runtimes: readonly (readonly [string, string, string, (command: string) => Host])[] = [
  ...[20, 22, 24, 26].map(node),
  ['Deno', `@deno/linux-${arch}-glibc`, `@deno/linux-${arch}-glibc/deno`, (path) => script(path, 'run')],
  ['Bun', `@oven/bun-linux-${bun}`, `@oven/bun-linux-${bun}/bin/bun`, (path) => script(path, 'run')],
  ['workerd', workerd, `${workerd}/bin/workerd`, (path) => worker(path)],
];

const program = await bundle();
const expected = kept();
let others = 0;

async function compare(name: string, host: Host): Promise<void> {
  try {
    const got = (await host(program, folder)).split('\n');
    const lines = expected.split('\n');
    const first = lines.findIndex((line, n) => line !== got[n]);
    const same = first < 0 && got.length === lines.length;
    if (!same) others += 1;
    console.log(`${name}: ${same ? 'the same bytes' : `OTHER from line ${first + 1} on`}`);
    if (first >= 0) console.log(`  kept ${lines[first]}\n  here ${got[first]}`);
  } catch (error) {
    others += 1;
    console.log(`${name}: FAILED, ${(error as Error).message}`);
  }
}

try {
  if (process.platform !== 'linux') console.log('Other runtimes NOT RUN: their packages are for Linux');
  else
    for (const [name, from, file, host] of runtimes) {
      const command = installed(from, file);
      const version = command && versionOf(command);
      if (command && version) await compare(`${name} (${version})`, host(command));
      else console.log(`${name}: NOT RUN, ${command ? 'it does not start' : `${from} was not to be had`}`);
    }
  const ses = fileURLToPath(import.meta.resolve('ses'));
  await compare(`ses lockdown (Node ${process.version})`, hardened(process.execPath, ses));
  const strict = script(process.execPath, '--disallow-code-generation-from-strings');
  await compare(`no code from strings (Node ${process.version})`, strict);
  if (chromiumPath) await compare(versionOf(chromiumPath) ?? 'Chromium', browser(chromiumPath));
  else console.log(noChromium);
} finally {
  rmSync(folder, { recursive: true });
}
process.exitCode = others > 0 ? 1 : 0;
