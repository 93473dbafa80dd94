import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const site = join(import.meta.dirname, '../../docs-site');

/** Every file of a folder with what it holds, told by its digest. */
const filesOf = (folder: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((file) => statSync(join(folder, file)).isFile())
      .sort()
      .map((file) => [
        file,
        createHash('sha256')
          .update(readFileSync(join(folder, file)))
          .digest('hex'),
      ]),
  );

test('the site built again is the same, file by file', () => {
  const again = mkdtempSync(join(tmpdir(), 'site-'));
  try {
    execFileSync(join(site, 'node_modules/.bin/astro'), ['build', '--outDir', again], {
      cwd: site,
      // Of the tests' own surroundings nothing: what they set for themselves would be built in.
      env: {
        PATH: process.env['PATH'],
        HOME: process.env['HOME'],
        ASTRO_TELEMETRY_DISABLED: '1',
        SITE_BASE: process.env['SITE_BASE'],
        SITE_URL: process.env['SITE_URL'],
      },
      stdio: 'pipe',
    });
    const [first, second] = [filesOf(join(site, 'dist')), filesOf(again)];
    expect(Object.keys(first).length).toBeGreaterThan(100);
    expect(second).toEqual(first);
  } finally {
    rmSync(again, { recursive: true });
  }
}, 300_000);
