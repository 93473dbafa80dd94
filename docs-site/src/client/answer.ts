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
/** A leaf, or a list of them, which stands in one line. */
const isFlat = (tree: Tree): boolean =>
  isLeaf(tree) || (tree.kind === 'list' && tree.parts.length > 0 && tree.parts.every(isLeaf));
const partsOf = (tree: Tree): readonly Tree[] => (isLeaf(tree) ? [tree] : tree.parts);

/** What stands in one line, the middle of a long list left out. */
function lineOf(tree: Tree): string {
  const all = partsOf(tree)
    .filter(isLeaf)
    .map(({ text }) => text);
  return all.length > 12 ? `${all.length} values: ${all[0]} … ${all.at(-1)}` : all.join('; ');
}

/** Leaves one under the other, a list of them in one line. */
function leavesHtml(leaves: readonly Tree[], label: string, names: Names): string {
  const rows = leaves.map((leaf) => {
    const about = partsOf(leaf).find(isLeaf)?.about;
    const symbol = about?.symbol === undefined ? '' : names.symbol(about.symbol);
    return `<tr><td class="symbol">${symbol}</td><th scope="row">${escaped(about?.says ?? '')}</th><td class="value">${escaped(lineOf(leaf))}</td></tr>`;
  });
  return scroll(label, `<table class="values"><tbody>${rows.join('')}</tbody></table>`);
}

/** A table's heading and its rows. */
interface Table {
  readonly names: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** The entries of a list as rows where each has the same values; or lists of one length as columns beside each other. */
function tableOf(tree: Tree): Table | undefined {
  if (isLeaf(tree) || tree.parts.length === 0) return undefined;
  const inner = tree.parts.map(partsOf);
  if (tree.kind === 'list') {
    const heads = new Set(inner.map((row) => row.map(({ name }) => name).join()));
    if (heads.size > 1 || tree.parts.some(isLeaf) || !inner.every((row) => row.every(isFlat)))
      return undefined;
    return { names: inner[0]?.map(({ name }) => name) ?? [], rows: inner.map((row) => row.map(lineOf)) };
  }
  const long = inner[0]?.length ?? 0;
  if (long < 4 || tree.parts.some(isLeaf) || !tree.parts.every(isFlat)) return undefined;
  if (inner.some((column) => column.length !== long)) return undefined;
  const rows = Array.from({ length: long }, (_, n) => inner.map((column) => lineOf(column[n] as Tree)));
  return { names: tree.parts.map(({ name }) => name), rows };
}

/** A table longer than a screen is thinned, since what is left out is drawn, copied and saved all the same. */
const long = 40;

function tableHtml({ names, rows: all }: Table, label: string): string {
  const every = Math.ceil(all.length / long);
  const rows = all.filter((_, n) => n % every === 0);
  const note = every === 1 ? '' : `<p class="small">One row in ${every} of ${all.length} is shown.</p>`;
  const head = names.map((name) => `<th scope="col">${escaped(inWords(name))}</th>`).join('');
  const body = rows.map((row) => `<tr>${row.map((text) => `<td>${escaped(text)}</td>`).join('')}</tr>`);
  return (
    scroll(
      label,
      `<table><thead><tr>${head}</tr></thead><tbody>${body.join('')}</tbody></table>`,
      rows.length > 12 ? 'wide tall' : 'wide',
    ) + note
  );
}

const leavesIn = (tree: Tree): readonly Leaf[] => (isLeaf(tree) ? [tree] : tree.parts.flatMap(leavesIn));

/** Lines on the page; a long table scrolls after a dozen. */
function linesOf(tree: Tree): number {
  if (isFlat(tree)) return 1;
  const table = tableOf(tree);
  return table
    ? Math.min(12, table.rows.length)
    : partsOf(tree).reduce((sum, part) => sum + linesOf(part), 0);
}

function treeHtml(tree: Tree, label: string, names: Names, folded = false): string {
  if (tree.kind === 'list')
    return `<ol class="entries">${tree.parts
      .map((part) => `<li>${treeHtml(part, `${label}, ${part.name}`, names)}</li>`)
      .join('')}</ol>`;
  const parts = partsOf(tree);
  const leaves = parts.filter(isFlat);
  const others = parts
    .filter((part) => !isFlat(part))
    .map((part, n) => {
      const says = inWords(part.name);
      const name = `<strong>${escaped(capital(says))}</strong>`;
      if (part.kind === 'list' && part.parts.length === 0) return `<p class="entry">${name}: none</p>`;
      const table = tableOf(part);
      const under = `${label}: ${says}`;
      const inner = table ? tableHtml(table, under) : treeHtml(part, under, names);
      return folded
        ? `<details class="fold entry"${n === 0 ? ' open' : ''}><summary>${escaped(capital(says))}</summary>${inner}</details>`
        : `<div class="entry"><p>${name}</p>${inner}</div>`;
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
  const result = treeOf(formula.output, answer.value);
  // More than a screen of it is opened part by part.
  const folded = linesOf(result) > 40;
  return [
    `<h3>Result</h3>${treeHtml(result, 'Result', names, folded)}`,
    steps.length === 0 ? '' : `<h3>Steps</h3>${leavesHtml(steps, 'Steps', names)}`,
    `<h3>Domain</h3>${domainHtml(formula, answer)}`,
    `<h3>Cautions</h3>${cautionsHtml(answer, names)}`,
    `<p class="small">It rests on ${answer.sources.map((id) => sourceLink(id, names)).join(', ')}.</p>`,
  ].join('');
}

/** The first few values of an answer in one line, to be read out. */
export function inBrief(formula: AnyFormula, answer: Answer): string {
  return leavesIn(treeOf(formula.output, answer.value))
    .slice(0, 4)
    .map(({ about, text }) => `${about.says}: ${text}`)
    .join('; ');
}
