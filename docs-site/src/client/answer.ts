import { type Answer, type AnyFormula, noTrigger } from 'swathe';
import { type About, aboutOf, inside, isRecord, partOf, type Schema } from 'swathe/definition';
import { sourceHref } from '../library/href.ts';
import { shown, spanShown, wireShown } from '../library/show.ts';
import { aboutsOf } from './form.ts';
import { capital, escaped, inWords, scroll } from './html.ts';

/** How symbols and sources look, which a page knows at build and a browser reads off the page. */
export interface Names {
  symbol(tex: string): string;
  source(id: string): string;
}

/** Data laid out for a page. */
type Tree =
  | { readonly kind: 'leaf'; readonly name: string; readonly about: About; readonly text: string }
  | { readonly kind: 'group' | 'list'; readonly name: string; readonly parts: readonly Tree[] };
type Leaf = Extract<Tree, { kind: 'leaf' }>;

function textOf(about: About, data: unknown): string {
  if (typeof data === 'boolean') return data ? 'yes' : 'no';
  if (typeof data === 'number' && about.unit) return shown(data, about.unit);
  return wireShown(data);
}

/** What a schema and data that it describes say. */
function treeOf(schema: Schema, data: unknown, name = ''): Tree {
  const about = aboutOf(schema);
  if (about) return { kind: 'leaf', name, about, text: textOf(about, data) };
  const { innerType } = inside(schema);
  if (innerType) return treeOf(innerType, data, name);
  if (Array.isArray(data)) {
    const parts = data.map((x, n) => treeOf(partOf(schema, String(n), data) ?? schema, x, String(n + 1)));
    return { kind: 'list', name, parts };
  }
  const parts = Object.entries(isRecord(data) ? data : {}).flatMap(([key, x]) => {
    const part = key === 'kind' ? undefined : partOf(schema, key, data);
    return part && x !== undefined ? [treeOf(part, x, key)] : [];
  });
  return { kind: 'group', name, parts };
}

const isLeaf = (tree: Tree): tree is Leaf => tree.kind === 'leaf';
const partsOf = (tree: Tree): readonly Tree[] => (isLeaf(tree) ? [tree] : tree.parts);

/** Leaves one under the other, a list of them in one line. */
function leavesHtml(leaves: readonly Tree[], label: string, names: Names): string {
  const rows = leaves.map((leaf) => {
    const inner = partsOf(leaf).filter(isLeaf);
    const about = inner[0]?.about;
    const symbol = about?.symbol === undefined ? '' : names.symbol(about.symbol);
    const text = inner.map(({ text }) => text).join('; ');
    return `<tr><td class="symbol">${symbol}</td><th scope="row">${escaped(about?.says ?? '')}</th><td class="value">${escaped(text)}</td></tr>`;
  });
  return scroll(label, `<table class="values"><tbody>${rows.join('')}</tbody></table>`);
}

/** The entries of a list as rows, where each has the same plain values. */
function rowsOf(parts: readonly Tree[]): readonly (readonly Leaf[])[] | undefined {
  const rows = parts.map((part) =>
    part.kind === 'group' && part.parts.every(isLeaf) ? part.parts : undefined,
  );
  const heads = new Set(rows.map((row) => row?.map(({ name }) => name).join()));
  return heads.size === 1 && rows[0] ? (rows as readonly (readonly Leaf[])[]) : undefined;
}

function tableHtml(rows: readonly (readonly Leaf[])[], label: string): string {
  const head = rows[0]?.map(({ name }) => `<th scope="col">${escaped(inWords(name))}</th>`).join('');
  const body = rows
    .map((row) => `<tr>${row.map(({ text }) => `<td>${escaped(text)}</td>`).join('')}</tr>`)
    .join('');
  return scroll(
    label,
    `<table><thead><tr>${head}</tr></thead><tbody>${body}</tbody></table>`,
    rows.length > 12 ? 'wide tall' : 'wide',
  );
}

function treeHtml(tree: Tree, label: string, names: Names): string {
  if (tree.kind === 'list')
    return `<ol class="entries">${tree.parts
      .map((part) => `<li>${treeHtml(part, `${label}, ${part.name}`, names)}</li>`)
      .join('')}</ol>`;
  const parts = partsOf(tree);
  const flat = (part: Tree): boolean =>
    isLeaf(part) || (part.kind === 'list' && part.parts.length > 0 && part.parts.every(isLeaf));
  const leaves = parts.filter(flat);
  const others = parts
    .filter((part) => !flat(part))
    .map((part) => {
      const says = inWords(part.name);
      const name = `<strong>${escaped(capital(says))}</strong>`;
      if (part.kind === 'list' && part.parts.length === 0) return `<p class="entry">${name}: none</p>`;
      const rows = part.kind === 'list' ? rowsOf(part.parts) : undefined;
      const inner = rows ? tableHtml(rows, `${label}: ${says}`) : treeHtml(part, `${label}: ${says}`, names);
      return `<div class="entry"><p>${name}</p>${inner}</div>`;
    });
  return (leaves.length > 0 ? leavesHtml(leaves, label, names) : '') + others.join('');
}

const domains = {
  exact: 'Exact: this follows from geometry alone, so there is no tested range to leave.',
  tested: 'Within the limits in which the sources tested it.',
  beyond: 'Outside the limits in which the sources tested it:',
  unstated: 'Not stated: no source says within which limits this holds.',
};

function domainHtml(formula: AnyFormula, { domain, beyond }: Answer): string {
  const measured = aboutsOf(formula.input).some(({ kind }) => kind === 'measure');
  const left = beyond.map(
    ({ input, got, tested, unit }) => `${input} ${shown(got, unit)}, tested ${spanShown(tested, unit)}`,
  );
  const says = measured ? domains[domain] : 'Nothing is measured here, so there is no tested range to leave.';
  return `<p>${escaped([says, left.join('; ')].filter(Boolean).join(' '))}</p>`;
}

const sourceLink = (id: string, names: Names): string =>
  `<a href="${escaped(sourceHref(id))}">${escaped(names.source(id))}</a>`;

function cautionsHtml({ cautions }: Answer, names: Names): string {
  if (cautions.length === 0)
    return `<p>For these inputs: ${noTrigger}. That is not a statement that nothing can go wrong.</p>`;
  return cautions
    .map(
      ({ code, level, says, because, sources }) =>
        `<div class="caution"><p><strong class="level">${capital(level)}</strong> ${escaped(says)}</p>` +
        `<p class="small">Because: ${escaped(because)}. <code>${escaped(code)}</code> ${sources
          .map((id) => sourceLink(id, names))
          .join(' ')}</p></div>`,
    )
    .join('');
}

/** An answer as it is shown: result, steps, domain, cautions, sources. */
export function answerHtml(formula: AnyFormula, answer: Answer, names: Names): string {
  const steps = answer.steps.map(({ name, value }) =>
    treeOf((formula.steps as Readonly<Record<string, Schema>>)[name] as Schema, value, name),
  );
  return [
    `<h3>Result</h3>${treeHtml(treeOf(formula.output, answer.value), 'Result', names)}`,
    steps.length === 0 ? '' : `<h3>Steps</h3>${leavesHtml(steps, 'Steps', names)}`,
    `<h3>Domain</h3>${domainHtml(formula, answer)}`,
    `<h3>Cautions</h3>${cautionsHtml(answer, names)}`,
    `<p class="small">It rests on ${answer.sources.map((id) => sourceLink(id, names)).join(', ')}.</p>`,
  ].join('');
}

/** The first few values of an answer in one line, to be read out. */
export function inBrief(formula: AnyFormula, answer: Answer): string {
  const tree = treeOf(formula.output, answer.value);
  const leaves = partsOf(tree).filter(isLeaf);
  return leaves
    .slice(0, 4)
    .map(({ about, text }) => `${about.says}: ${text}`)
    .join('; ');
}
