import katex from 'katex';

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;');

/** TeX as MathML, which needs no style attribute; one that cannot be set fails the build. A formula keeps its TeX. */
export function mathml(tex: string, { display = false, spoken = '' } = {}): string {
  const html = katex.renderToString(tex, {
    output: 'mathml',
    displayMode: display,
    strict: 'error',
    throwOnError: true,
    trust: false,
  });
  // A browser sets no space between a function's name and its argument.
  const plain = display ? html : html.replace(/<annotation[\s\S]*?<\/annotation>/, '');
  const spaced = plain.replaceAll(/<mo>\u2061<\/mo>(?=<mi)/g, '<mo>\u2061</mo><mspace width="0.1667em"/>');
  return spoken === '' ? spaced : spaced.replace('<math ', `<math aria-label="${escaped(spoken)}" `);
}
