#!/usr/bin/env node
import { existsSync } from 'node:fs';
import module from 'node:module';

// A published package holds only dist; in the workspace the sources run as they are, with no build.
if (!existsSync(new URL('../src/main.ts', import.meta.url))) {
  await import('../dist/main.js');
} else if (process.features.typescript && module.registerHooks) {
  // So that `swathe` is read from its sources too, however this file was started.
  module.registerHooks({
    resolve: (specifier, context, next) =>
      next(specifier, { ...context, conditions: [...context.conditions, 'source'] }),
  });
  await import('../src/main.ts');
} else {
  console.error(
    `This is Node ${process.versions.node}; running swathe from its sources needs Node 22.18 or newer. ` +
      'The workspace brings its own Node: run `npx --yes pnpm@12.21.0 install`, then `npx --yes pnpm@12.21.0 run demo`.',
  );
  process.exit(2);
}
