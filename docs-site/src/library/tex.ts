import katex from 'katex';

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;');

/** TeX as MathML, which needs no style attribute; one that cannot be set fails the build. */
export function mathml(tex: string, { display = false, spoken = '' } = {}): string {
  const html = katex.renderToString(tex, {
    output: 'mathml',
    displayMode: display,
    strict: 'error',
    throwOnError: true,
    trust: false,
  });
  return spoken === '' ? html : html.replace('<math ', `<math aria-label="${escaped(spoken)}" `);
}
