import { defaultClientConditions, defaultServerConditions } from 'vite';
import { defineConfig } from 'vitest/config';
import { chromiumPath, noChromium } from './chromium.ts';
import { SummaryReporter } from './summary-reporter.ts';

export default defineConfig({
  resolve: { conditions: ['source', ...defaultClientConditions] },
  ssr: { resolve: { conditions: ['source', ...defaultServerConditions] } },
  test: {
    reporters: ['default', new SummaryReporter(chromiumPath ? [] : [noChromium])],
    projects: [
      {
        extends: true,
        test: { name: 'laws', include: ['{laws,checks,properties,plan}/**/*.test.ts'], testTimeout: 60_000 },
      },
      { extends: true, test: { name: 'package', include: ['package/**/*.test.ts'], testTimeout: 60_000 } },
      ...(chromiumPath
        ? [
            {
              extends: true as const,
              test: {
                name: 'site',
                include: ['site/**/*.test.ts'],
                testTimeout: 60_000,
                // A state is waited for as long as a busy machine may need; no test waits for time to pass.
                expect: { poll: { timeout: 20_000 } },
                fileParallelism: false,
                // Pages at a time: a browser keeps two cores busy.
                maxConcurrency: 2,
              },
            },
          ]
        : []),
    ],
  },
});
