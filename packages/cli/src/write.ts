import { styleText } from 'node:util';
import { type Span, tell } from 'swathe';

export type Units = 'in' | 'cm' | 'both';

const number = (n: number, decimals: number): string => n.toFixed(decimals);

/** Words and numbers as a person reads them: rounded here, at the edge, and nowhere else. */
export interface Writer {
  length(mm: number): string;
  lengths(span: Span): string;
  temperature(celsius: number): string;
  temperatures(span: Span): string;
  duration(span: Span): string;
}

function inUnits(units: Units, metric: string, inches: string): string {
  if (units === 'both') return `${metric} (${inches})`;
  return units === 'cm' ? metric : inches;
}

const scales = [
  [86_400, 'd'],
  [3600, 'h'],
  [60, 'min'],
  [1, 's'],
] as const;

export const writer = (units: Units): Writer => ({
  length: (mm) => {
    if (mm < 2000) return inUnits(units, `${number(mm / 10, 1)} cm`, `${number(tell(mm, '[in_i]'), 1)} in`);
    return inUnits(units, `${number(mm / 1000, 2)} m`, `${number(tell(mm, '[yd_i]'), 2)} yd`);
  },
  lengths: ([from, to]) =>
    inUnits(
      units,
      `${number(from / 10, 1)}–${number(to / 10, 1)} cm`,
      `${number(tell(from, '[in_i]'), 1)}–${number(tell(to, '[in_i]'), 1)} in`,
    ),
  temperature: (celsius) =>
    inUnits(units, `${number(celsius, 0)} °C`, `${number(tell(celsius, '[degF]'), 0)} °F`),
  temperatures: ([from, to]) =>
    inUnits(
      units,
      `${number(from, 0)}–${number(to, 0)} °C`,
      `${number(tell(from, '[degF]'), 0)}–${number(tell(to, '[degF]'), 0)} °F`,
    ),
  duration: ([from, to]) => {
    const [per, unit] = scales.find(([per]) => to >= 2 * per) ?? scales[3];
    const [fromPer, fromUnit] =
      from % per === 0 ? [per, unit] : (scales.find(([p]) => from >= p) ?? scales[3]);
    const least = `${from / fromPer}${fromUnit === unit ? '' : ` ${fromUnit}`}`;
    return from === to ? `${to / per} ${unit}` : `${least}–${to / per} ${unit}`;
  },
});

/** Text without what would steer a terminal or break a line. */
export const plain = (text: string): string => text.replace(/[\p{Cc}\p{Cs}\p{Zl}\p{Zp}]/gu, '\ufffd');

export const bold = (text: string): string => styleText('bold', text, { stream: process.stdout });
export const warn = (text: string): string => styleText('yellow', text, { stream: process.stdout });
export const faint = (text: string): string => styleText('dim', text, { stream: process.stdout });

/** Rows as aligned columns; the last column is left as long as it is. */
export function columns(rows: readonly (readonly string[])[], right: readonly number[] = []): string[] {
  const widths = (rows[0] ?? []).map((_, n) => Math.max(...rows.map((row) => [...(row[n] ?? '')].length)));
  return rows.map((row) =>
    row
      .map((cell, n) => {
        if (right.includes(n)) return cell.padStart(widths[n] ?? 0);
        return n === row.length - 1 ? cell : cell.padEnd(widths[n] ?? 0);
      })
      .join('  ')
      .trimEnd(),
  );
}

/** Text broken at words, each line after the first indented. */
export function wrapped(text: string, indent: number, width = 112): string {
  const lines: string[] = [''];
  for (const word of text.split(' ')) {
    const line = lines.at(-1) as string;
    if (line !== '' && indent + line.length + 1 + word.length > width) lines.push(word);
    else lines[lines.length - 1] = line === '' ? word : `${line} ${word}`;
  }
  return lines.join(`\n${' '.repeat(indent)}`);
}

/** Source ids in brackets; nothing where it is common practice. */
export const list = (ids: readonly string[]): string => (ids.length > 0 ? `[${ids.join(', ')}]` : '');
