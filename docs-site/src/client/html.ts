/** Text that stands in HTML, in an attribute or out of one. */
export const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;');

/** Attributes, of which those that are `false` or `undefined` are left out. */
export const attributes = (of: Readonly<Record<string, string | number | boolean | undefined>>): string =>
  Object.entries(of)
    .map(([name, value]) =>
      value === undefined || value === false
        ? ''
        : value === true
          ? ` ${name}`
          : ` ${name}="${escaped(String(value))}"`,
    )
    .join('');

/** A name in a definition as words: `onHand` is on hand. */
export const inWords = (name: string): string => name.replace(/([A-Z])/g, ' $1').toLowerCase();

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** What may scroll, within reach of a keyboard. */
export const scroll = (label: string, inside: string, of = 'wide'): string =>
  `<section${attributes({ class: of, 'aria-label': label, tabindex: 0 })}>${inside}</section>`;
