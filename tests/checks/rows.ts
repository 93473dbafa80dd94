import { type AnyFormula, codes, digits12, isCode, tell, type UnitCode } from 'swathe';

/** One value to check a formula against, as it stands in references/checks/<id>.json. */
export interface Row {
  readonly id: string;
  readonly kind: string;
  readonly source?: string;
  readonly at?: string;
  readonly status: string;
  readonly given: unknown;
  readonly note: string;
  readonly reread?: string;
  /** Why the formula does not reproduce this. */
  readonly deviates?: string;
  /** JSON pointer into the Answer. */
  readonly pointer?: string;
  readonly printed?: string;
  readonly unit?: string;
  readonly within?: 'exact' | 'half-last-digit' | number;
  readonly text?: string;
  readonly than?: unknown;
  readonly relation?: 'more' | 'less' | 'same';
  readonly caution?: string;
  readonly fires?: boolean;
  readonly size?: string;
}

export interface RowFile {
  readonly formula: string;
  readonly rows: readonly Row[];
}

/** How a row came out: `pass` where formula and row agree, or where a deviation that is told is still there. */
export interface Outcome {
  readonly pass: boolean;
  readonly got: string;
  readonly expected: string;
}

type Parts = Readonly<Record<string, unknown>>;
type Told = Pick<Outcome, 'got' | 'expected'> & { readonly agrees: boolean };

const stepsOf = (pointer: string): string[] => pointer.split('/').slice(1);
const into = (whole: unknown, keys: readonly string[]): unknown =>
  keys.reduce<unknown>((part, key) => (part as Parts | undefined)?.[key], whole);

/** The unit of what a pointer points to; a list has one for all its entries. */
function unitAt(answer: unknown, pointer: string): unknown {
  const [part, ...keys] = stepsOf(pointer);
  if (part === 'steps') return into(answer, ['steps', keys[0] as string, 'unit']);
  return into(
    (answer as Parts)['unit'],
    keys.filter((key) => !/^\d+$/.test(key)),
  );
}

/** A number in an Answer, told in another unit of the same dimension. */
function numberAt(answer: unknown, pointer: string, unit?: UnitCode): number {
  const value = into(answer, stepsOf(pointer));
  if (typeof value !== 'number') throw new Error(`no number at ${pointer}`);
  if (!unit) return value;
  const held = unitAt(answer, pointer);
  if (codes[unit].holds !== held) throw new Error(`${pointer} is in ${held}, not in ${unit}`);
  return tell(value, unit);
}

const brief = (value: number): string => String(Number(value.toPrecision(9)));
const word = (unit: string | undefined): string => (unit === undefined || unit === '1' ? '' : ` ${unit}`);

/** Half a unit in the last digit of a printed number, and a last-bit allowance for decimals in binary. */
function halfLastDigit(printed: string): number {
  const decimals = printed.split('.')[1]?.length ?? 0;
  return 0.5 * 10 ** -decimals + 1e-13 * Math.abs(Number(printed));
}

function compareNumber(row: Row, answer: unknown): Told {
  const { pointer = '', printed = '', unit, within } = row;
  if (!isCode(unit)) throw new Error(`no unit ${unit}`);
  const got = numberAt(answer, pointer, unit);
  const told = `${brief(got)}${word(unit)}`;
  const [first = '', last] = printed.split('–');
  if (last !== undefined) {
    const agrees = digits12(got) >= Number(first) && digits12(got) <= Number(last);
    return { agrees, got: told, expected: `printed ${printed}${word(unit)}` };
  }
  const off = Math.abs(got - Number(printed));
  const near = `within ${typeof within === 'number' ? `${within}${word(unit)}` : within}`;
  const expected = `printed ${printed}${word(unit)} ${within === 'exact' ? 'exactly' : near}`;
  if (within === 'exact') return { agrees: digits12(got) === Number(printed), got: told, expected };
  const allowed = typeof within === 'number' ? within : halfLastDigit(printed);
  return { agrees: off <= allowed, got: told, expected };
}

function compareOrder(row: Row, answer: unknown, formula: AnyFormula): Told {
  const { pointer = '', than, relation } = row;
  const one = digits12(numberAt(answer, pointer));
  const other = digits12(numberAt(formula.fromJson(than), pointer));
  const is = one > other ? 'more' : one < other ? 'less' : 'same';
  const words = relation === 'same' ? 'the same as' : `${relation} than`;
  return { agrees: is === relation, got: brief(one), expected: `${words} ${brief(other)} of the other case` };
}

function compare(row: Row, formula: AnyFormula): Told {
  const answer = formula.fromJson(row.given);
  if (row.relation !== undefined) return compareOrder(row, answer, formula);
  if (row.caution !== undefined) {
    const fires = answer.cautions.some(({ code }) => code === row.caution);
    const words = (is: boolean): string => `${row.caution} ${is ? 'told' : 'not told'}`;
    return { agrees: fires === row.fires, got: words(fires), expected: words(row.fires === true) };
  }
  const { pointer = '' } = row;
  if (row.size !== undefined) {
    const list = into(answer, stepsOf(pointer));
    if (!Array.isArray(list)) throw new Error(`no list at ${pointer}`);
    return {
      agrees: String(list.length) === row.size,
      got: `${list.length} entries`,
      expected: `${row.size} entries`,
    };
  }
  if (row.text !== undefined) {
    const got = String(into(answer, stepsOf(pointer)));
    return { agrees: got === row.text, got, expected: row.text };
  }
  return compareNumber(row, answer);
}

/** Runs the formula on what a row gives and compares. What cannot be run or read has failed, deviation or not. */
export function checkRow(row: Row, formula: AnyFormula): Outcome {
  try {
    const { agrees, got, expected } = compare(row, formula);
    const deviates = row.deviates !== undefined;
    return { pass: agrees !== deviates, got, expected: deviates ? `a deviation from ${expected}` : expected };
  } catch (error) {
    return { pass: false, got: (error as Error).message, expected: 'an answer' };
  }
}
