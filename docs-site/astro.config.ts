import { unified } from '@astrojs/markdown-remark';
import mdx from '@astrojs/mdx';
import { defineConfig } from 'astro/config';
import { defaultClientConditions, defaultServerConditions } from 'vite';
import { formulaModules } from './plugins/formula-modules.ts';
import { offline } from './plugins/offline.ts';
import { pipeline } from './plugins/pipeline.ts';
import { subsetFonts } from './plugins/subset-fonts.ts';

// Reads the library from its sources: no build of it needed first.
const fromSource = { noExternal: ['swathe'], conditions: ['source', ...defaultServerConditions] };
const base = process.env['SITE_BASE'] ?? '/';
const site = process.env['SITE_URL'];

export default defineConfig({
  ...(site ? { site } : {}),
  base,
  trailingSlash: 'always',
  build: { format: 'directory', inlineStylesheets: 'never' },
  image: { service: { entrypoint: 'astro/assets/services/noop' } },
  markdown: {
    syntaxHighlight: false,
    processor: unified(pipeline(base)),
  },
  integrations: [mdx(), subsetFonts(), offline(base)],
  vite: {
    // The content security policy takes fonts from files only, so none may be inlined.
    build: { assetsInlineLimit: 0 },
    plugins: [formulaModules()],
    worker: { format: 'es', plugins: () => [formulaModules()] },
    environments: {
      client: { resolve: { conditions: ['source', ...defaultClientConditions] } },
      ssr: { resolve: fromSource },
      prerender: { resolve: fromSource },
    },
  },
});
