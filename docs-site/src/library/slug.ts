/** A text as the end of an address. */
export const slugOf = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll('’', '')
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '');
