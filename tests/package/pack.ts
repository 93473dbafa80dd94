import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';

export const packages = join(import.meta.dirname, '../../packages');

/** Packs a package of the workspace as it stands, without building it. */
export async function packed(name: string, into: string): Promise<{ tarball: string; files: string[] }> {
  const pack = ['pack', '--json', '--config.ignore-scripts=true', '--pack-destination', into];
  // By npx, since pnpm may not be there otherwise.
  const { stdout } = await promisify(execFile)('npx', ['--yes', 'pnpm@12.21.0', ...pack], {
    cwd: join(packages, name),
  });
  const { filename, files } = JSON.parse(stdout.slice(stdout.indexOf('{'))) as {
    filename: string;
    files: { path: string }[];
  };
  return { tarball: filename, files: files.map(({ path }) => path).sort() };
}
