import { read } from '../runtimes/report.ts';

/** A number, or a word, that is told otherwise than it was for the same inputs. */
export interface Move {
  /** Formula and revision, or `plan`. */
  readonly by: string;
  readonly point: string;
  readonly inputs: string;
  readonly path: string;
  readonly was: string;
  readonly is: string;
}

const nothing = 'nothing';
const ofNumber = (told: string): number => Number(told.split('±')[0]);
const widthOf = (told: string): number => Number(told.split('±')[1] ?? 0);

/** A number told with its width has not moved where it lies within, be the other rounded to its twelfth digit. */
function same(was: string, is: string): boolean {
  const width = widthOf(was) + widthOf(is);
  const apart = Math.abs(ofNumber(was) - ofNumber(is));
  return was === is || (width > 0 && apart <= width + 5e-12 * Math.abs(ofNumber(is)));
}

/** What moved from one report to another. A point that is new, gone or has other inputs has not moved. */
export function movesOf(before: string, now: string): Move[] {
  const earlier = read(before);
  return [...read(now)].flatMap(([key, { by, inputs, values }]) => {
    const old = earlier.get(key);
    if (!old || old.inputs !== inputs) return [];
    const point = key.slice(key.indexOf(' ') + 1);
    return [...new Set([...old.values.keys(), ...values.keys()])].flatMap((path) => {
      const [was, is] = [old.values.get(path) ?? nothing, values.get(path) ?? nothing];
      return same(was, is) ? [] : [{ by, point, inputs, path, was, is }];
    });
  });
}

const share = ({ was, is }: Move): number =>
  Math.abs(ofNumber(was) - ofNumber(is)) / Math.max(Math.abs(ofNumber(was)), Math.abs(ofNumber(is))) ||
  Number.POSITIVE_INFINITY;

/** Lines for the changelog, one a formula: the number that moved most, and how many others did. */
export function linesOf(moves: readonly Move[]): string[] {
  return [...Map.groupBy(moves, ({ by, point }) => (by === 'plan' ? `plan ${point}` : by))].map(
    ([name, of]) => {
      const most = of.reduce((a, b) => (share(b) > share(a) ? b : a));
      const inputs = most.inputs === '' ? '' : ` of \`${most.inputs}\``;
      const more = of.length > 1 ? `, and ${of.length - 1} more` : '';
      return `- **numbers**: \`${name}\`${inputs}: ${most.path} was ${most.was}, is ${most.is}${more}. Reason: `;
    },
  );
}

/**
 * Formulas whose numbers moved and that do not say so: with a revision above the first, and a line of kind *numbers* under
 * Unreleased that names it and one of the new numbers. Before the first release nobody holds a number that could move.
 */
export function untold(moves: readonly Move[], changelog: string): string[] {
  const [unreleased = '', ...released] = changelog.split(/^## /m).slice(1);
  if (released.length === 0) return [];
  const lines = unreleased.split(/^- /m).filter((line) => line.startsWith('**numbers**'));
  return [...Map.groupBy(moves, ({ by, point }) => (by === 'plan' ? `plan ${point}` : by))].flatMap(
    ([name, of]) => {
      const isTold = lines.some(
        (line) => line.includes(`\`${name}\``) && of.some(({ is }) => line.includes(is)),
      );
      return isTold && !name.endsWith('@1') ? [] : [name];
    },
  );
}
