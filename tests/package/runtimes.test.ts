import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { chromiumPath } from '../chromium.ts';
import { browser, type Host, hardened, script, versionOf } from '../runtimes/hosts.ts';
import { bundle, kept } from '../runtimes/report.ts';

const folder = mkdtempSync(join(tmpdir(), 'runtimes-'));
afterAll(() => rmSync(folder, { recursive: true }));

const strict = '--disallow-code-generation-from-strings';
const system = '/usr/bin/node';
const hosts: readonly (readonly [string, Host])[] = [
  [`Node ${process.version}`, script(process.execPath)],
  ['Node without code from strings', script(process.execPath, strict)],
  ['ses lockdown', hardened(process.execPath, fileURLToPath(import.meta.resolve('ses')))],
  ...(versionOf(system) ? [[`the system's Node ${versionOf(system)}`, script(system)] as const] : []),
  ...(chromiumPath ? [['Chromium', browser(chromiumPath)] as const] : []),
];

// As the package is published: built, not from the sources.
let program = '';
beforeAll(async () => {
  program = await bundle({ conditions: [] });
}, 120_000);

test.each(hosts)(
  '%s gives every number as it stands in the report, byte for byte',
  async (_, host) => {
    const lines = (text: string): string[] => text.trimEnd().split('\n');
    const [got, expected] = [lines(await host(program, folder)), lines(kept())];
    expect(got.filter((line, n) => line !== expected[n]).slice(0, 5)).toEqual([]);
    expect(got).toHaveLength(expected.length);
  },
  300_000,
);
