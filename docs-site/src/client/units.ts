import { type Fault, hold, isCode, tell, type UnitCode } from 'swathe';
import { type About, isRecord } from 'swathe/definition';
import { unitWord } from '../library/show.ts';

/** Units that a reader asked for; where none was, each value keeps the unit in which it was given. */
export interface Units {
  readonly length?: 'cm' | 'in' | undefined;
  readonly temperature?: 'C' | 'F' | undefined;
}

/** A value as a form holds it: `{ value, unit }`, the value a text where it is no number, empty where there is none. */
export interface Told {
  readonly value: number | string;
  readonly unit: UnitCode;
}

export const isTold = (x: unknown): x is Told => isRecord(x) && 'value' in x && 'unit' in x;

const imperial: readonly UnitCode[] = ['[in_i]', '[ft_i]', '[yd_i]'];

/** The unit in which a value is usually told where nobody said. */
function usual({ unit, possible }: About): UnitCode {
  const most = possible?.[1] ?? 0;
  if (unit === 'mm') return most <= 60 ? 'mm' : most <= 5000 ? 'cm' : 'm';
  if (unit === 's') return most > 1e8 ? 'a' : most > 600 ? 'min' : 's';
  return unit ?? '1';
}

/** The unit in which a value is shown. */
export function codeFor(about: About, told: unknown, units: Units): UnitCode {
  const given = isTold(told) ? told.unit : usual(about);
  if (about.unit === 'mm' && units.length === 'in') return '[in_i]';
  if (about.unit === 'mm' && units.length === 'cm' && imperial.includes(given)) return usual(about);
  if (about.unit === 'Cel' && units.temperature !== undefined)
    return units.temperature === 'F' ? '[degF]' : 'Cel';
  return given;
}

/** What stands in a field: what was typed, or that told in another unit, of which six digits are enough to read. */
export function entryText(told: unknown, code: UnitCode | undefined): string {
  if (told === undefined) return '';
  if (!isTold(told)) return String(told);
  if (typeof told.value !== 'number' || told.unit === code || code === undefined || !isCode(told.unit))
    return String(told.value);
  return String(Number(tell(hold(told.value, told.unit), code).toPrecision(6)));
}

/** What a person typed: a number, with a comma or a minus sign of any kind, or the text where it is none. */
export function typed(text: string): number | string {
  const plain = text
    .trim()
    .replace(/[−–]/, '-')
    .replace(/^([^.,]*),([^.,]*)$/, '$1.$2');
  return plain !== '' && Number.isFinite(Number(plain)) ? Number(plain) : text.trim();
}

/** Units as people write them, each on one line with its number. */
const readable = (text: string): string =>
  text.replace(/(?<=\d) ([^\s,;]+)/g, (all, code: string) => {
    if (!isCode(code)) return all;
    const word = unitWord(code);
    return word === '°' ? word : `\u00a0${word}`;
  });

/** What is wrong with an input. */
export const sentence = ({ fault, got, possible }: Fault): string =>
  `${fault === 'missing' ? 'Nothing is given' : `Got ${readable(got)}`}; possible: ${readable(possible)}.`;
