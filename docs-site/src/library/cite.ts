import type { AnyFormula } from 'swathe';
import citation from '../../../CITATION.cff?raw';

const field = (name: string): string => {
  const value = new RegExp(`^\\s*-?\\s*${name}: (.+)$`, 'm').exec(citation)?.[1];
  if (!value) throw new Error(`CITATION.cff has no ${name}`);
  return value;
};

/** A formula's page, to be cited; without an address where the site is built for none. */
export function cite(formula: AnyFormula, title: string, address: string | undefined) {
  const [author, version, year] = [field('name'), field('version'), field('date-released').slice(0, 4)];
  const full = `${title} (${formula.id}, revision ${formula.revision})`;
  const at = `swathe ${version}, /f/${formula.id}/`;
  const bibtex = [
    `@misc{swathe-${formula.id.replace('.', '-')},`,
    `  author       = {{${author}}},`,
    `  title        = {${full}},`,
    `  year         = {${year}},`,
    `  howpublished = {${at}},`,
    ...(address ? [`  url          = {${address}},`] : []),
    '}',
  ].join('\n');
  const csl = {
    id: `swathe-${formula.id}`,
    type: 'webpage',
    title: full,
    author: [{ literal: author }],
    issued: { 'date-parts': [[Number(year)]] },
    'container-title': 'swathe',
    version,
    ...(address ? { URL: address } : { note: at }),
  };
  return { bibtex, csl: JSON.stringify([csl], null, 2) };
}
