import { codesFor, type UnitCode } from 'swathe';
import { type About, aboutOf, type Fields, inside, isRecord, type Schema } from 'swathe/definition';
import { isTold, type Units } from './units.ts';

/**
 * Inputs as they stand in an address, which no server sees: `#v1&girth=16.5cm&advance=1.5in&turns=6`. A value is a number
 * and its unit; a list, or a part made of others, has its values in the definition's order: `(0cm,17cm),(10cm,21cm)`.
 */
export interface State {
  readonly given: Readonly<Record<string, unknown>>;
  readonly units: Units;
}

export interface Read extends State {
  /** What could not be read, in words. */
  readonly unread: readonly string[];
}

const short: Partial<Record<UnitCode, string>> = {
  '[in_i]': 'in',
  '[ft_i]': 'ft',
  '[yd_i]': 'yd',
  Cel: 'C',
  '[degF]': 'F',
  'mm[Hg]': 'mmHg',
  '%': 'pct',
};
const word = (code: UnitCode): string => short[code] ?? code;

const encoded = (text: string): string =>
  encodeURIComponent(text)
    .replaceAll('(', '%28')
    .replaceAll(')', '%29')
    .replaceAll('%20', '+')
    .replaceAll('%2F', '/');
const decoded = (text: string): string => {
  try {
    return decodeURIComponent(text.replaceAll('+', ' '));
  } catch {
    return text;
  }
};

function leafText(told: unknown): string {
  if (told === undefined || told === '') return '';
  if (typeof told === 'boolean') return told ? 'yes' : 'no';
  if (!isTold(told)) return encoded(String(told));
  return told.value === ''
    ? ''
    : encoded(String(told.value)) + (told.unit === '1' ? '' : encoded(word(told.unit)));
}

/** The parts of a group, a union's kind before them. */
function partsOf(schema: Schema, data: unknown): [string, Schema][] {
  const { shape, options } = inside(schema);
  if (!options) return Object.entries(shape ?? {});
  const found = optionOf(options, isRecord(data) ? data['kind'] : undefined);
  return Object.entries(inside(found).shape ?? {});
}

export const kindOf = (option: Schema): string =>
  inside(inside(option).shape?.['kind'] ?? option).values?.[0] ?? '';
export const optionOf = (options: readonly Schema[], kind: unknown): Schema =>
  options.find((option) => kindOf(option) === kind) ?? (options[0] as Schema);

function textOf(schema: Schema, data: unknown, outermost = true): string {
  const { innerType, element } = inside(schema);
  if (innerType) return textOf(innerType, data, outermost);
  if (aboutOf(schema) || data === undefined) return leafText(data);
  const parts = element
    ? (Array.isArray(data) ? data : []).map((x) => textOf(element, x, false))
    : partsOf(schema, data).map(([name, part]) => {
        const x = isRecord(data) ? data[name] : undefined;
        return name === 'kind' ? leafText(x) : textOf(part, x, false);
      });
  const joined = parts.join(',');
  return outermost ? joined : `(${joined})`;
}

/** What stands in the address behind the `#`. */
export function fragmentOf(fields: Fields, { given, units }: State): string {
  const told = Object.entries(fields).flatMap(([name, schema]) =>
    given[name] === undefined ? [] : [`${name}=${textOf(schema, given[name])}`],
  );
  const chosen = Object.values(units).filter((unit) => unit !== undefined);
  return ['v1', ...told, ...(chosen.length > 0 ? [`units=${chosen.join(',')}`] : [])].join('&');
}

type Node = string | readonly Node[];

/** Values between commas, those in brackets kept together; nothing where the brackets do not close. */
function nodesOf(text: string): readonly Node[] | undefined {
  if (text === '') return [];
  const open: Node[][] = [[]];
  let word = '';
  let closed = false;
  const end = (): void => {
    if (!closed) open.at(-1)?.push(word);
    [word, closed] = ['', false];
  };
  for (const x of text) {
    if (x === '(' && word === '' && !closed) open.push([]);
    else if (x === ',') end();
    else if (x === ')') {
      end();
      const inner = open.pop() as Node[];
      if (open.length === 0) return undefined;
      // `()` holds nothing, not one empty value.
      open.at(-1)?.push(inner.length === 1 && inner[0] === '' ? [] : inner);
      closed = true;
    } else if (closed) return undefined;
    else word += x;
  }
  end();
  return open.length === 1 ? open[0] : undefined;
}

function leafFrom(about: About, text: string): unknown {
  if (text === '') return undefined;
  if (about.kind === 'flag') return text === 'yes' ? true : text === 'no' ? false : decoded(text);
  if (about.unit === null) return decoded(text);
  const [, number = '', unit = ''] = /^(-?[\d.]+(?:e[+-]?\d+)?)?(.*)$/i.exec(decoded(text)) ?? [];
  const code = unit === '' ? '1' : codesFor(about.unit).find((code) => word(code) === unit);
  if (number === '' || !Number.isFinite(Number(number))) return { value: decoded(text), unit: about.unit };
  // A unit that is none of this input's is left to the definition, which says which there are.
  if (unit === '' && about.unit === '1') return Number(number);
  return { value: Number(number), unit: code ?? unit };
}

const plain = (node: Node): string => (typeof node === 'string' ? node : node.map(plain).join(','));

function dataFrom(schema: Schema, node: Node): unknown {
  const { innerType, element, options } = inside(schema);
  if (innerType) return node === '' ? undefined : dataFrom(innerType, node);
  const about = aboutOf(schema);
  if (about) return leafFrom(about, plain(node));
  const nodes = typeof node === 'string' ? (node === '' ? [] : [node]) : node;
  if (element) return nodes.map((x) => dataFrom(element, x));
  const kind = options && decoded(plain(nodes[0] ?? ''));
  const parts = partsOf(schema, { kind });
  const read = parts.map(([name, part], n) => [
    name,
    name === 'kind' ? kind : dataFrom(part, nodes[n] ?? ''),
  ]);
  return Object.fromEntries(read.filter(([, x]) => x !== undefined));
}

/** Whether the text behind the `#` tells inputs, or only names a place on the page. */
export const tellsInputs = (fragment: string): boolean => fragment.includes('=');

/** What the text behind the `#` tells. A value that cannot be is left as it is, for the definition to refuse. */
export function stateOf(fields: Fields, fragment: string): Read {
  const given: Record<string, unknown> = {};
  const units: { -readonly [K in keyof Units]: Units[K] } = {};
  const unread: string[] = [];
  for (const part of fragment.split('&')) {
    if (part === '' || part === 'v1') continue;
    const [, name = '', text = ''] = /^([^=]*)=(.*)$/.exec(part) ?? [];
    const nodes = nodesOf(text);
    const schema = Object.hasOwn(fields, name) ? fields[name] : undefined;
    if (name === 'units')
      for (const unit of text.split(',')) {
        if (unit === 'cm' || unit === 'in') units.length = unit;
        else if (unit === 'C' || unit === 'F') units.temperature = unit;
        else unread.push(`units=${unit}`);
      }
    else if (schema && nodes) {
      const one =
        aboutOf(schema) || (inside(schema).innerType && aboutOf(inside(schema).innerType as Schema));
      const data = dataFrom(schema, one ? plain(nodes) : nodes);
      if (data !== undefined) given[name] = data;
    } else unread.push(part);
  }
  return { given, units, unread };
}
