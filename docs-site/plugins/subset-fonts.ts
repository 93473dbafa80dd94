import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { AstroIntegration } from 'astro';
import subsetFont from 'subset-font';

const ascii = Array.from({ length: 95 }, (_, n) => String.fromCharCode(32 + n)).join('');

/** A letter alone in `<mi>` is set in italics, which in a font for mathematics are characters of their own. */
function italic(letter: string): string {
  const from = (first: string, to: number): string =>
    String.fromCodePoint(to + (letter.codePointAt(0) as number) - (first.codePointAt(0) as number));
  if (letter === 'h') return 'ℎ';
  if (/[A-Z]/.test(letter)) return from('A', 0x1d434);
  if (/[a-z]/.test(letter)) return from('a', 0x1d44e);
  if (/[Α-Ω]/.test(letter)) return from('Α', 0x1d6e2);
  if (/[α-ω]/.test(letter)) return from('α', 0x1d6fc);
  return letter;
}

const charactersOf = (text: string): string => [...new Set(text)].sort().join('');

/** The characters that are set as mathematics. */
function inMathematics(html: string): string {
  const math = [...html.matchAll(/<math[\s\S]*?<\/math>/g)].map(([all]) =>
    all.replace(/<annotation[\s\S]*?<\/annotation>/g, ''),
  );
  const letters = math.flatMap((all) => [...all.matchAll(/<mi>(.)<\/mi>/gu)].map(([, x]) => italic(x ?? '')));
  return charactersOf(`${math.join('').replace(/<[^>]*>/g, '')}${letters.join('')}0123456789`);
}

/** Leaves in each font the characters and the weights that the built pages use, and names it by what is left. */
export function subsetFonts(): AstroIntegration {
  return {
    name: 'subset-fonts',
    hooks: {
      'astro:build:done': async ({ dir }) => {
        const root = fileURLToPath(dir);
        const files = readdirSync(root, { recursive: true, encoding: 'utf8' }).map((file) =>
          join(root, file),
        );
        const texts = files.filter((file) => /\.(html|css|js)$/.test(file));
        const pages = texts
          .filter((file) => file.endsWith('.html'))
          .map((file) => readFileSync(file, 'utf8'))
          .join('');
        const [words, symbols] = [charactersOf(ascii + pages), inMathematics(pages)];
        const renamed = new Map<string, string>();
        for (const file of files.filter((name) => name.endsWith('.woff2')).sort()) {
          const isMath = file.includes('math');
          const kept = await subsetFont(readFileSync(file), isMath ? symbols : words, {
            targetFormat: 'woff2',
            // Kerning, figures of one width, accents; the many alternates that no style sheet asks for are left out.
            ...(!isMath && {
              keepFeatures: ['kern', 'tnum', 'liga', 'ccmp', 'mark'],
              variationAxes: { wght: file.includes('italic') ? 400 : { min: 400, max: 600, default: 400 } },
            }),
          });
          const hash = createHash('sha256').update(kept).digest('base64url').slice(0, 8);
          const name = file.replace(/\.[^.]+\.woff2$/, `.${hash}.woff2`);
          writeFileSync(file, kept);
          renameSync(file, name);
          renamed.set(file.split('/').at(-1) as string, name.split('/').at(-1) as string);
        }
        for (const file of texts) {
          const before = readFileSync(file, 'utf8');
          const after = [...renamed].reduce((text, [old, name]) => text.replaceAll(old, name), before);
          if (after !== before) writeFileSync(file, after);
        }
      },
    },
  };
}
