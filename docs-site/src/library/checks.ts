import { type AnyFormula, isCode } from 'swathe';
import { aboutOf, inside, partOf, type Schema } from 'swathe/definition';
import { checkRow, type Row, type RowFile } from '../../../tests/checks/rows.ts';
import { unitWord, wireShown } from './show.ts';

const files = import.meta.glob<RowFile>('../../../references/checks/*.json', {
  import: 'default',
  eager: true,
});

export const rowsOf = (id: string): readonly Row[] =>
  Object.values(files).find(({ formula }) => formula === id)?.rows ?? [];

/** What a pointer into an answer points to, in the definition's words. */
function pointed(formula: AnyFormula, { pointer = '', given }: Row): string {
  const [part, ...keys] = pointer.split('/').slice(1);
  if (part === 'steps') return formula.fromJson(given).steps[Number(keys[0])]?.says ?? pointer;
  let schema: Schema | undefined = formula.output;
  for (const key of keys) {
    const { options } = inside(schema ?? formula.output);
    const shapes: readonly (Schema | undefined)[] = options ?? [schema];
    schema = shapes.map((shape) => shape && partOf(shape, key, undefined)).find((found) => found);
  }
  const entry = keys.filter((key) => /^\d+$/.test(key)).map((key) => Number(key) + 1);
  const says = schema && aboutOf(schema)?.says;
  const named = says ?? keys.filter((key) => !/^\d+$/.test(key)).join(' ');
  return entry.length > 0 ? `${named} (entry ${entry.join(', ')})` : named;
}

/** The evaluator's words with units as people write them, kept on one line with their number. */
function readable(text: string, unit: string | undefined): string {
  if (!isCode(unit) || unit === '1') return text;
  return text.replaceAll(` ${unit}`, unit === 'deg' ? '°' : `\u00a0${unitWord(unit)}`);
}

export interface Judged {
  readonly row: Row;
  readonly what: string;
  readonly printed: string;
  /** How near it must come, in words. */
  readonly near: string;
  readonly computed: string;
  /** `deviates` where the formula does not reproduce a source and the row says why. */
  readonly state: 'agrees' | 'deviates' | 'fails';
}

const kept = new Map<string, readonly Judged[]>();

/** Every row of a formula, run as the tests run it. Some take a while, and several pages show them. */
export function judged(formula: AnyFormula): readonly Judged[] {
  const rows = kept.get(formula.id) ?? judge(formula);
  kept.set(formula.id, rows);
  return rows;
}

const judge = (formula: AnyFormula): readonly Judged[] =>
  rowsOf(formula.id).map((row) => {
    const { pass, got, expected } = checkRow(row, formula);
    const [, told = expected, near = ''] =
      /^(?:a deviation from )?(?:printed )?(.*?)(?: (within .*|exactly))?$/.exec(expected) ?? [];
    const other = row.than === undefined ? '' : `, against ${wireShown(row.than)}`;
    return {
      row,
      what: row.caution === undefined ? pointed(formula, row) + other : `caution ${row.caution}`,
      printed: readable(told, row.unit),
      near: near === 'within half-last-digit' ? 'to half its last digit' : readable(near, row.unit),
      computed: readable(got, row.unit),
      state: pass ? (row.deviates === undefined ? 'agrees' : 'deviates') : 'fails',
    };
  });
