import type { AnyFormula } from 'swathe';
import citation from '../../../CITATION.cff?raw';

const field = (name: string): string => {
  const value = new RegExp(`^\\s*-?\\s*${name}: (.+)$`, 'm').exec(citation)?.[1];
  if (!value) throw new Error(`CITATION.cff has no ${name}`);
  return value;
};

/** What is cited: a page, or a formula on its page. */
interface Cited {
  /** Distinguishes it among others of this site. */
  readonly key: string;
  readonly title: string;
  /** Within the site. */
  readonly path: string;
  /** Whole address; none where the site is built for none. */
  readonly address: string | undefined;
}

/** A page of this site as BibTeX and CSL-JSON, dated by the release. */
export function citePage({ key, title, path, address }: Cited) {
  const [author, version, year] = [field('name'), field('version'), field('date-released').slice(0, 4)];
  const at = `swathe ${version}, ${path}`;
  const bibtex = [
    `@misc{swathe-${key.replaceAll('.', '-')},`,
    `  author       = {{${author}}},`,
    `  title        = {${title}},`,
    `  year         = {${year}},`,
    `  howpublished = {${at}},`,
    ...(address ? [`  url          = {${address}},`] : []),
    '}',
  ].join('\n');
  const csl = {
    id: `swathe-${key}`,
    type: 'webpage',
    title,
    author: [{ literal: author }],
    issued: { 'date-parts': [[Number(year)]] },
    'container-title': 'swathe',
    version,
    ...(address ? { URL: address } : { note: at }),
  };
  return { bibtex, csl: JSON.stringify([csl], null, 2) };
}

/** A formula at its revision. */
export const cite = ({ id, revision }: AnyFormula, title: string, address: string | undefined) =>
  citePage({ key: id, title: `${title} (${id}, revision ${revision})`, path: `/f/${id}/`, address });
