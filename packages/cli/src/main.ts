import { readFileSync } from 'node:fs';
import { command } from './command.ts';

// Whoever reads may stop before the end, as `head` does.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

const { code, out, err } = command(process.argv.slice(2), (path) =>
  readFileSync(path === '-' ? 0 : path, 'utf8'),
);
process.stdout.write(out);
process.stderr.write(err);
process.exitCode = code;
