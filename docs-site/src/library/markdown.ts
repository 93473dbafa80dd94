import { unified } from '@astrojs/markdown-remark';
import { pipeline } from '../../plugins/pipeline.ts';

const renderer = unified(pipeline(import.meta.env.BASE_URL)).createRenderer({ syntaxHighlight: false });

/** Markdown as HTML, by the same rules as the pages'. */
export const markdown = async (text: string): Promise<string> => (await (await renderer).render(text)).code;

/** The text under one second-level heading. */
export const sectionOf = (body: string, heading: string): string | undefined =>
  body
    .split(/^## /m)
    .find((part) => part.startsWith(`${heading}\n`))
    ?.slice(heading.length)
    .trim();
