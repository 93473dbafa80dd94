import { getCollection, render } from 'astro:content';
import { catalog } from 'swathe/catalog';
import { types } from '../library/catalogue.ts';
import { judged } from '../library/checks.ts';
import { docstringOf, leavesOf } from '../library/definition.ts';
import { formulaHref, href, sourceHref } from '../library/href.ts';
import { described } from '../library/immobilisations.ts';
import { evidence, guides } from '../library/site-map.ts';
import { slugOf } from '../library/slug.ts';
import { peopleOf, placeOf, shortOf, sourceOf, sources, yearOf } from '../library/sources.ts';
import { tables } from '../library/tables.ts';
import { parts } from '../library/words.ts';
import type { Found } from './entry.ts';

const joined = (...texts: readonly (string | undefined)[]): string => texts.filter(Boolean).join(' ');

/** Everything that can be looked for, formulas first. */
export async function entries(): Promise<readonly Found[]> {
  const pages = await getCollection('formulas');
  const titleOf = (id: string): string => pages.find((page) => page.id === id)?.data.title ?? id;
  const api = await Promise.all(
    (await getCollection('api')).map(async (entry) => ({
      id: entry.id,
      headings: (await render(entry)).headings,
    })),
  );
  const own = new Set(catalog.map(({ id }) => docstringOf(id).exported));
  const named = (text: string): string => text.replace(/\(\)$/, '');
  return [
    ...catalog.map((formula) => ({
      kind: 'formula',
      title: titleOf(formula.id),
      text: joined(
        docstringOf(formula.id).lead,
        docstringOf(formula.id).exported,
        formula.id,
        ...leavesOf(formula.input, formula.basis).map(({ about }) => about.says),
      ),
      to: formulaHref(formula.id),
    })),
    ...types.map((type) => ({
      kind: 'splint or cast',
      title: type.name,
      text: described(type),
      to: href(`/immobilisations/${type.id}/`),
    })),
    ...guides.map(({ path, title, says }) => ({ kind: 'guide', title, text: says, to: href(path) })),
    ...evidence.map(({ path, title, says }) => ({ kind: 'evidence', title, text: says, to: href(path) })),
    ...parts.flatMap(({ words }) =>
      words.map(({ word, says, also = [] }) => ({
        kind: 'word',
        title: word,
        text: joined(says, ...also),
        to: href(`/words/#${slugOf(word)}`),
      })),
    ),
    ...tables.map(({ name, companion }) => ({
      kind: 'table',
      title: name.replaceAll('-', ' '),
      text: companion?.says ?? 'an independent answer to check against',
      to: href(`/tables/#${name}`),
    })),
    ...api.flatMap(({ id, headings }) =>
      headings
        .filter(({ depth, text }) => depth === 3 && !own.has(named(text)))
        .map(({ slug, text }) => ({
          kind: 'API',
          title: text,
          text: id === 'swathe' ? 'swathe' : `swathe/${id}`,
          to: href(`/api/${id}/#${slug}`),
        })),
    ),
    ...sources.map((source) => ({
      kind: 'source',
      title: source.title,
      text: joined(peopleOf(source), yearOf(source), placeOf(source), source.id),
      to: sourceHref(source.id),
    })),
    ...catalog.flatMap((formula) =>
      judged(formula).map(({ row, what, printed, state }) => ({
        kind: 'check',
        title: `${titleOf(formula.id)}, row ${row.id}`,
        text: joined(what, printed, state, row.source && shortOf(sourceOf(row.source))),
        to: `${formulaHref(formula.id)}#${row.id}`,
      })),
    ),
  ];
}
