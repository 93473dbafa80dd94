import type { AnyFormula } from 'swathe';
import { catalog } from 'swathe/catalog';
import entries from '../../../references/sources.json';
import { rowsOf } from './checks.ts';

interface Person {
  readonly family?: string;
  readonly given?: string;
  readonly literal?: string;
}

/** A source as CSL-JSON has it, with what was read of it. */
export interface Source {
  readonly id: string;
  readonly type: string;
  readonly title: string;
  readonly author?: readonly Person[];
  readonly editor?: readonly Person[];
  readonly issued?: { readonly 'date-parts': readonly (readonly number[])[] };
  readonly 'container-title'?: string;
  readonly publisher?: string;
  readonly volume?: string;
  readonly issue?: string;
  readonly page?: string;
  readonly URL?: string;
  readonly DOI?: string;
  readonly PMID?: string;
  readonly PMCID?: string;
  readonly custom: {
    readonly evidence: string;
    readonly read: string;
    readonly notRead: string;
    /** What kind of text it is; a derivation has none. */
    readonly grade?: keyof typeof grades;
  };
}

export const grades = {
  A: 'peer-reviewed, a standard, or a consensus of a society',
  B: 'a textbook, a manual of a government or a hospital, or an open guideline',
  C: 'an open wiki, a page of the trade, slides or a blog',
} as const;

export const sources = entries as unknown as readonly Source[];

export function sourceOf(id: string): Source {
  const found = sources.find((source) => source.id === id);
  if (!found) throw new Error(`references/sources.json has no ${id}`);
  return found;
}

const person = ({ family, given, literal }: Person): string =>
  literal ?? [family, given].filter(Boolean).join(', ');

/** Authors, or editors, in one line. */
export function peopleOf({ author, editor }: Source): string {
  const people = author ?? editor ?? [];
  return people.map(person).join('; ') + (author || people.length === 0 ? '' : ' (ed.)');
}

export const yearOf = ({ issued }: Source): string => String(issued?.['date-parts'][0]?.[0] ?? '');

/** A short name for tables: first author and year, or the title. */
export function shortOf(source: Source): string {
  const [first, ...others] = source.author ?? source.editor ?? [];
  if (!first)
    return source.title.length > 40 ? `${source.title.slice(0, 38).replace(/\W+\w*$/, '')} …` : source.title;
  const year = yearOf(source);
  return `${first.family ?? first.literal}${others.length > 0 ? ' et al.' : ''}${year && ` ${year}`}`;
}

/** Where it appeared, in one line. */
export function placeOf(s: Source): string {
  const volume = s.volume ? s.volume + (s.issue ? `(${s.issue})` : '') : s.issue ? `no. ${s.issue}` : '';
  return [s['container-title'], s.publisher, [volume, s.page?.replace('-', '–')].filter(Boolean).join(': ')]
    .filter((part, n, all) => part && all.indexOf(part) === n)
    .join(', ');
}

/** Where it can be looked up. */
export function linksOf({
  DOI,
  PMCID,
  PMID,
  URL,
}: Source): readonly { readonly name: string; readonly href: string }[] {
  return [
    ...(DOI ? [{ name: `doi:${DOI}`, href: `https://doi.org/${DOI}` }] : []),
    ...(PMCID ? [{ name: PMCID, href: `https://www.ncbi.nlm.nih.gov/pmc/articles/${PMCID}/` }] : []),
    ...(PMID ? [{ name: `PMID ${PMID}`, href: `https://pubmed.ncbi.nlm.nih.gov/${PMID}/` }] : []),
    ...(URL ? [{ name: URL.replace(/^https?:\/\/(www\.)?/, ''), href: URL }] : []),
  ];
}

/** Ids of every source that a formula's definition, its constants or its check rows name. */
export function usedBy(formula: AnyFormula): readonly string[] {
  const constants = Object.values((formula.constants ?? {}) as Record<string, { source?: string }>);
  const named = [
    ...formula.sources,
    ...constants.map(({ source }) => source),
    ...rowsOf(formula.id).map(({ source }) => source),
  ];
  return [...new Set(named.filter((id): id is string => id !== undefined))];
}

/** The formulas that rest on a source. */
export const usersOf = (id: string): readonly AnyFormula[] =>
  catalog.filter((formula) => usedBy(formula).includes(id));

/** What each status says, in plain words. */
export const statuses: Readonly<Record<string, string>> = {
  read: 'the passage was read in the source itself',
  'abstract-only': 'only the abstract, or an opening page, was read',
  'read-secondary': 'read as another text quotes it; the source itself was not read',
  derived: 'follows by reasoning that is written out, so that anyone can redo it',
  'computed-from-data': 'computed from open data',
  assumed: 'chosen by this project, with its reason',
  'calibrated-on': 'fitted to the data named, so agreement with that data proves nothing',
  'from-memory': 'from memory; nothing was at hand to check it against',
  'common-practice': 'a habit of the trade, with no source behind it',
};
