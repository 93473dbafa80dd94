import type * as z from 'zod/v4/core';
import { type About, inside, isRecord, partOf, sized, walk } from './measure.ts';
import { codesFor, hold, isCode, tell, type UnitCode } from './quantity.ts';

/** What is wrong with an input. */
export type FaultCode =
  | 'missing'
  | 'unknown'
  | 'type'
  | 'unit'
  | 'not-finite'
  | 'not-whole'
  | 'below'
  | 'above'
  | 'too-few'
  | 'too-many'
  | 'choice'
  | 'joint';

/** One thing that is wrong with what was given. */
export interface Fault {
  /** Path of the input, such as `stations.2.girth`. */
  readonly input: string;
  readonly fault: FaultCode;
  readonly got: string;
  readonly possible: string;
}

const clip = (text: string, most: number): string => (text.length > most ? `${text.slice(0, most)}…` : text);
/** Without what would steer a terminal or break a line. */
const plain = (text: string): string => text.replace(/[\p{Cc}\p{Cs}\p{Zl}\p{Zp}]/gu, '\ufffd');

/** What was given cannot be: every fault at once, each told in the unit it was given in; the message is never longer than a screen. */
export class InputError extends Error {
  override readonly name = 'InputError';
  readonly by: string;
  readonly faults: readonly Fault[];

  constructor(by: string, faults: readonly Fault[], options?: ErrorOptions) {
    const told = faults.map((f) => ({
      ...f,
      input: plain(f.input),
      got: plain(f.got),
      possible: plain(f.possible),
    }));
    const lines = told
      .slice(0, 8)
      .map(({ input, got, possible }) =>
        clip(`  ${input || 'input'}: got ${got}; possible: ${possible}`, 800),
      );
    while (lines.join('').length > 1800) lines.pop();
    const more = told.length > lines.length ? [`  and ${told.length - lines.length} more`] : [];
    super([`${by} cannot use this input`, ...lines, ...more].join('\n'), options);
    this.by = by;
    this.faults = told;
  }
}

const brief = (value: number): string => String(Number(value.toPrecision(6)));
const unitWord = (code: UnitCode): string => (code === '1' ? '' : ` ${code}`);
const inUnit = (value: number, code: UnitCode): string => brief(tell(value, code)) + unitWord(code);

/** What was given, in a few words. */
export function described(data: unknown): string {
  if (data === undefined) return 'nothing';
  if (typeof data === 'string') return `"${clip(data, 40)}"`;
  if (Array.isArray(data)) return `a list of ${data.length}`;
  return data === null || /number|boolean/.test(typeof data) ? String(data) : `an ${typeof data}`;
}

/** What would have been possible, in words, in the caller's unit. */
function possibleOf(schema: z.$ZodType | undefined, code: UnitCode | undefined): string {
  if (!schema) return 'no such input';
  const { innerType, about, words = 'something else' } = inside(schema);
  if (innerType) return possibleOf(innerType, code);
  if (!about?.unit) return words;
  const unit = code ?? about.unit;
  if (!about.possible) return `${words}any finite number${unitWord(unit)}`;
  return `${words}${brief(tell(about.possible[0], unit))} to ${inUnit(about.possible[1], unit)}`;
}

function codeOf(issue: z.$ZodRawIssue, got: unknown): FaultCode {
  if (got === undefined) return 'missing';
  if (typeof got === 'number' && !Number.isFinite(got)) return 'not-finite';
  const ofNumber = typeof got === 'number';
  switch (issue.code) {
    case 'too_small':
      return ofNumber ? 'below' : 'too-few';
    case 'too_big':
      return ofNumber ? 'above' : 'too-many';
    case 'invalid_value':
    case 'invalid_union':
      return 'choice';
    case 'not_multiple_of':
      return 'not-whole';
    default:
      return 'type';
  }
}

/** The part of data at a key, if there is any. */
const at = (data: unknown, key: PropertyKey): unknown =>
  data === undefined || data === null ? undefined : (data as Record<PropertyKey, unknown>)[key];

/** The faults that the schema finds in data held in our units, which came from what was `given`. */
function faultsIn(
  issues: readonly z.$ZodRawIssue[],
  root: z.$ZodType,
  data: unknown,
  given: unknown,
  units: ReadonlyMap<string, UnitCode>,
): Fault[] {
  return issues.flatMap((issue) => {
    const { path: whole = [] } = issue;
    const paths = issue.code === 'unrecognized_keys' ? issue.keys.map((k) => [...whole, k]) : [whole];
    return paths.map((path): Fault => {
      let schema: z.$ZodType | undefined = root;
      let [got, told] = [data, given];
      for (const step of path) {
        schema = schema && partOf(schema, String(step), got);
        [got, told] = [at(got, step), at(told, step)];
      }
      const input = path.join('.');
      const code = units.get(input);
      const fault = schema ? codeOf(issue, got) : 'unknown';
      // A list too long to be walked to its end is told as long as it was.
      const words =
        typeof got === 'number' && Number.isFinite(got) && code
          ? inUnit(got, code)
          : described(Array.isArray(got) ? told : got);
      return { input: clip(input, 80), fault, got: words, possible: possibleOf(schema, code) };
    });
  });
}

interface Leaf {
  readonly value: unknown;
  readonly code?: UnitCode | null;
}

/** What was given, each leaf in the unit held as `leafOf` reads it, checked. */
function read<T>(
  by: string,
  schema: z.$ZodType<T>,
  given: unknown,
  leafOf: (about: About, told: unknown) => Leaf | string,
): T {
  const root = schema as z.$ZodType;
  const units = new Map<string, UnitCode>();
  let faults: Fault[] = [];
  let why: ErrorOptions | undefined;
  try {
    const data = walk(root, given, (about, told, path) => {
      const leaf = leafOf(about, told);
      if (typeof leaf === 'string') {
        const got = isRecord(told) && 'unit' in told ? `unit ${described(told['unit'])}` : described(told);
        faults.push({ input: path, fault: 'unit', got, possible: leaf });
        return Number.NaN;
      }
      if (leaf.code) units.set(path, leaf.code);
      return leaf.value;
    });
    const { issues, value } = schema._zod.run({ value: data, issues: [] }, {}) as z.ParsePayload<T>;
    if (issues.length === 0) return value;
    faults = faults.concat(faultsIn(issues, root, data, given, units));
  } catch (cause) {
    // Data may throw when it is looked at, as a getter can.
    why = { cause };
    faults.push({ input: '', fault: 'type', got: 'what throws when it is read', possible: 'plain data' });
  }
  // Of several faults of one input the first says enough.
  const seen = new Set<string>();
  throw new InputError(
    by,
    faults.filter(({ input }) => !seen.has(input) && seen.add(input)),
    why,
  );
}

/** Without the sign of a zero, which JSON does not keep: an answer must come back from its record as it was. */
const unsigned = (x: unknown): unknown => (x === 0 ? 0 : x);

/** Data whose every value is in the unit held, checked. @throws InputError */
export const checked = <T>(by: string, schema: z.$ZodType<T>, data: unknown): T =>
  read(by, schema, data, ({ unit }, x) => ({ value: sized(unsigned(x)), code: unit }));

/** A leaf as it is told in JSON, `{ value, unit }`, in the unit held; or what is wrong with it. */
function leafOf(about: About, told: unknown): Leaf | string {
  if (about.unit === null || told === undefined) return { value: sized(told) };
  if (about.unit === '1' && typeof told === 'number') return { value: unsigned(told), code: '1' };
  const possible = codesFor(about.unit);
  if (!isRecord(told) || !('value' in told)) return `{ value, unit } with a unit of ${possible.join(', ')}`;
  const { value, unit, ...rest } = told;
  if (!isCode(unit) || !possible.includes(unit)) return `a unit of ${possible.join(', ')}`;
  if (Object.keys(rest).length > 0) return 'value and unit and nothing else';
  return { value: typeof value === 'number' ? unsigned(hold(value, unit)) : value, code: unit };
}

/** JSON as it comes from outside, `{ value, unit }` in UCUM for all that has a dimension, checked. @throws InputError */
export const readJson = <T>(by: string, schema: z.$ZodType<T>, json: unknown): T =>
  read(by, schema, json, leafOf);
