import rehypeKatex from 'rehype-katex';
import remarkMath from 'remark-math';
import { rehypeBaseLinks } from './rehype-base-links.ts';
import { rehypeReachable } from './rehype-reachable.ts';
import { rehypeStrictMath } from './rehype-strict-math.ts';

/** How Markdown becomes a page, wherever it stands. */
export const pipeline = (base: string) => ({
  remarkPlugins: [remarkMath],
  rehypePlugins: [
    [rehypeKatex, { output: 'mathml', strict: 'error', trust: false, throwOnError: true }] as [
      typeof rehypeKatex,
      object,
    ],
    rehypeStrictMath,
    rehypeReachable,
    [rehypeBaseLinks, { base }] as [typeof rehypeBaseLinks, { base: string }],
  ],
});
