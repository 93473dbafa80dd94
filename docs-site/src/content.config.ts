import { defineCollection } from 'astro:content';
import { glob } from 'astro/loaders';
import { z } from 'astro/zod';

/** One page a formula. What its definition says (units, limits, symbols, sources, constants) is not said again here. */
const formulas = defineCollection({
  loader: glob({
    base: './src/content/formulas',
    pattern: '*.mdx',
    generateId: ({ entry }) => entry.replace(/\.mdx$/, ''),
  }),
  schema: z.strictObject({
    title: z.string(),
    /** The displayed formula. */
    tex: z.string(),
    /** The same, as one would say it. */
    spoken: z.string(),
    /** Input of the worked example, as `fromJson` reads it. */
    example: z.record(z.string(), z.unknown()),
    /** Constants whose last digit no check row feels. */
    unpinned: z.array(z.string()).default([]),
  }),
});

/** Written by TypeDoc from the library's comments. */
const api = defineCollection({ loader: glob({ base: './src/content/api', pattern: '*.md' }) });

const guides = defineCollection({
  loader: glob({ base: './src/content/guides', pattern: '*.mdx' }),
  schema: z.strictObject({ title: z.string(), lead: z.string() }),
});

export const collections = { formulas, api, guides };
