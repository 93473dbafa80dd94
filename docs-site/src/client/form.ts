import { tell, type UnitCode } from 'swathe';
import { type About, aboutOf, type Fields, inside, isRecord, type Schema, walk } from 'swathe/definition';
import { digits, told, unitWord } from '../library/show.ts';
import { kindOf, optionOf } from './fragment.ts';
import { attributes, capital, escaped, inWords } from './html.ts';
import { sliderOf } from './slider.ts';
import { codeFor, entryText, isTold, typed, type Units } from './units.ts';

/** A form for any input that a definition describes: the one place that makes controls of schemas. */
export interface Look {
  readonly units: Units;
  /** A symbol as HTML, from its TeX. */
  symbol(tex: string): string;
}

interface Place {
  readonly path: string;
  /** The last part of the path. */
  readonly name: string;
  readonly optional?: boolean;
  /** Whether it stands in a row among others, where there is room for a name and a value. */
  readonly narrow?: boolean;
}

export const idOf = (path: string): string => `in-${path.replaceAll('.', '-')}`;

const limitsOf = ({ kind, possible }: About, code: UnitCode): string => {
  const whole = kind === 'count' ? 'whole number' : '';
  if (!possible) return whole;
  const [least, most] = possible.map((x) => tell(x, code)) as [number, number];
  return `${whole === '' ? '' : 'whole, '}${digits(least, 4)} to ${told(most, code, 4)}`;
};

/** What is said under a field. */
function hintOf(about: About, code: UnitCode, optional = false): string {
  const [least, most] = about.tested ?? [];
  const tested =
    least === undefined || most === undefined || about.tested?.join() === about.possible?.join()
      ? ''
      : `tested ${digits(tell(least, code), 4)} to ${told(tell(most, code), code, 4)}`;
  return [limitsOf(about, code), tested, optional ? 'may be left empty' : ''].filter(Boolean).join('; ');
}

const fault = (path: string): string => `<p${attributes({ class: 'fault', id: `${idOf(path)}-fault` })}></p>`;

const option = (value: string, says: string, selected: boolean): string =>
  `<option${attributes({ value, selected })}>${escaped(says)}</option>`;

function select(
  path: string,
  entries: readonly string[],
  data: unknown,
  label: string,
  empty: string | undefined,
) {
  const known = typeof data === 'string' && entries.includes(data);
  const odd = typeof data === 'string' && !known ? [option(data, data, true)] : [];
  return `<select${attributes({ id: idOf(path), name: path, 'aria-label': label || undefined, 'aria-describedby': `${idOf(path)}-fault` })}>${[
    ...(empty === undefined && known ? [] : [option('', empty ?? 'choose', data === undefined)]),
    ...odd,
    ...entries.map((entry) => option(entry, entry, data === entry)),
  ].join('')}</select>`;
}

function field(about: About, entries: readonly string[], data: unknown, place: Place, look: Look): string {
  const { path, name, narrow = false, optional = false } = place;
  const id = idOf(path);
  const words = narrow ? capital(inWords(name)) : capital(about.says);
  const symbol = about.symbol === undefined || narrow ? '' : `${look.symbol(about.symbol)} `;
  const label = `<label for="${id}" id="${id}-label">${symbol}${escaped(words)}</label>`;
  const wrap = (of: string, inner: string): string => `<div class="field ${of}">${inner}${fault(path)}</div>`;
  const described = `${id}-fault`;

  if (about.kind === 'flag') {
    const box = attributes({
      type: 'checkbox',
      id,
      name: path,
      checked: data === true,
      'aria-describedby': described,
    });
    return wrap('flag', `<input${box}>${label}`);
  }
  if (about.kind === 'choice')
    return wrap('choice', label + select(path, entries, data, '', optional ? 'not given' : undefined));
  if (about.kind === 'text')
    return wrap(
      'text',
      `${label}<input${attributes({ type: 'text', id, name: path, value: entryText(data, '1'), 'aria-describedby': described })}>`,
    );

  const code = codeFor(about, data ?? (about.unit === '1' ? undefined : data), look.units);
  const hint = narrow ? '' : hintOf(about, code, optional);
  const value = entryText(data, code);
  const entry = attributes({
    type: 'text',
    id,
    name: path,
    value,
    inputmode: 'decimal',
    spellcheck: 'false',
    'data-unit': code,
    'aria-labelledby': `${id}-label ${id}-unit`,
    'aria-describedby': hint ? `${id}-hint ${described}` : described,
  });
  const unit = unitWord(code);
  return wrap(
    'number',
    `${label}<span class="typed"><input${entry}><span class="unit" id="${id}-unit">${unit}</span></span>` +
      (narrow ? '' : slide(about, code, value, path, optional)) +
      (hint ? `<p class="hint" id="${id}-hint">${escaped(hint)}</p>` : ''),
  );
}

function slide(about: About, code: UnitCode, value: string, path: string, optional: boolean): string {
  const slider = optional ? undefined : sliderOf(about, code);
  if (!slider) return '';
  const at = typed(value);
  const number = typeof at === 'number' ? at : slider.valueAt(slider.first);
  return `<input${attributes({
    type: 'range',
    'data-for': path,
    'aria-label': about.says,
    'aria-valuetext': told(number, code),
    min: slider.first,
    max: slider.last,
    step: 1,
    value: Math.min(slider.last, Math.max(slider.first, slider.placeOf(number))),
  })}>`;
}

/** What the short names of a row's fields stand for. */
function legendOf(schema: Schema): string {
  const { shape = {} } = inside(schema);
  const says = Object.entries(shape).flatMap(([name, part]) => {
    const about = aboutOf(inside(part).innerType ?? part);
    return about && inWords(name) !== about.says ? [`${inWords(name)}: ${about.says}`] : [];
  });
  return says.join('; ');
}

const singular = (name: string): string => (/[^s]s$/.test(name) ? name.slice(0, -1) : name);

function rows(
  element: Schema,
  size: readonly [number, number] | undefined,
  data: unknown,
  place: Place,
  look: Look,
) {
  const { path, name } = place;
  const entries = Array.isArray(data) ? data : [];
  const [least, most] = size ?? [0, 1000];
  const one = singular(inWords(name));
  const isLeaf = aboutOf(element) !== undefined;
  const items = entries.map((entry, n) => {
    const at = { path: `${path}.${n}`, name: isLeaf ? one : String(n + 1), narrow: true };
    const remove = `<button${attributes({
      type: 'button',
      'data-remove': at.path,
      'aria-label': `Remove ${one} ${n + 1}`,
      disabled: entries.length <= least,
    })}>Remove</button>`;
    const inner = isLeaf
      ? part(element, entry, at, look)
      : partsOf(element, entry, at, look) + fault(at.path);
    return `<li><div${attributes({ class: 'one', role: 'group', 'aria-label': `${one} ${n + 1}`, 'data-path': at.path })}>${inner}${remove}</div></li>`;
  });
  const says = [legendOf(element), `${least} to ${most} of them`].filter(Boolean).join('. ');
  return group(
    place,
    `<p class="hint">${escaped(capital(says))}</p><ol class="many">${items.join('')}</ol>` +
      `<button${attributes({ type: 'button', 'data-add': path, disabled: entries.length >= most })}>Add ${escaped(one)}</button>`,
  );
}

const group = ({ path, name }: Place, inner: string): string =>
  `<fieldset${attributes({ class: 'group', id: idOf(path), 'data-path': path })}><legend>${escaped(capital(inWords(name)))}</legend>${inner}${fault(path)}</fieldset>`;

/** The fields of a group, or of the shape that a union's `kind` says. */
function partsOf(schema: Schema, data: unknown, { path, narrow = false }: Place, look: Look): string {
  const { shape, options } = inside(schema);
  const record = isRecord(data) ? data : {};
  const under = path === '' ? '' : `${path}.`;
  const chosen = options ? optionOf(options, record['kind']) : undefined;
  const kinds = options?.map(kindOf) ?? [];
  const at = `${under}kind`;
  const choose = chosen
    ? `<div class="field choice"><label for="${idOf(at)}">Which</label>${select(at, kinds, record['kind'], '', undefined)}${fault(at)}</div>`
    : '';
  const known = !chosen || kinds.includes(String(record['kind']));
  const parts = known ? Object.entries((chosen ? inside(chosen).shape : shape) ?? {}) : [];
  return (
    choose +
    parts
      .filter(([name]) => !chosen || name !== 'kind')
      .map(([name, schema]) => part(schema, record[name], { path: under + name, name, narrow }, look))
      .join('')
  );
}

function part(schema: Schema, data: unknown, place: Place, look: Look): string {
  const { innerType, element, entries = {}, size } = inside(schema);
  const about = aboutOf(schema);
  if (about) return field(about, Object.keys(entries), data, place, look);
  if (innerType && aboutOf(innerType)) return part(innerType, data, { ...place, optional: true }, look);
  if (innerType) {
    const box = attributes({ type: 'checkbox', 'data-optional': place.path, checked: data !== undefined });
    const id = `${idOf(place.path)}-given`;
    const words = `with ${inWords(place.name)}`;
    return (
      `<div class="field flag"><input id="${id}"${box}><label for="${id}">${capital(words)}</label></div>` +
      (data === undefined ? '' : part(innerType, data, place, look))
    );
  }
  if (element) return rows(element, size, data, place, look);
  return group(place, partsOf(schema, data, place, look));
}

/** Every leaf that a schema describes. */
export function aboutsOf(schema: Schema): readonly About[] {
  const about = aboutOf(schema);
  if (about) return [about];
  const { innerType, element, shape, options } = inside(schema);
  return [innerType, element, ...Object.values(shape ?? {}), ...(options ?? [])].flatMap((x) =>
    x ? aboutsOf(x) : [],
  );
}

/** Which units there is a choice of. */
export const choicesOfUnits = (abouts: readonly About[]): { length: boolean; temperature: boolean } => ({
  length: abouts.some(({ unit }) => unit === 'mm'),
  temperature: abouts.some(({ unit }) => unit === 'Cel'),
});

/** The controls for all inputs, holding what is given. */
export const formOf = (fields: Fields, given: Readonly<Record<string, unknown>>, look: Look): string =>
  Object.entries(fields)
    .map(([name, schema]) => part(schema, given[name], { path: name, name }, look))
    .join('');

/** An entry with nothing filled in, its units as in the one before. */
export function blankOf(schema: Schema, like: unknown): unknown {
  const about = aboutOf(schema);
  if (about) {
    if (about.kind === 'flag') return false;
    if (about.unit === null || !isTold(like)) return undefined;
    return { value: '', unit: like.unit };
  }
  const { element, shape, options, innerType } = inside(schema);
  if (innerType) return undefined;
  if (element) return [];
  if (options) {
    const kind = isRecord(like) ? like['kind'] : kindOf(options[0] as Schema);
    return { ...(blankOf(optionOf(options, kind), like) as object), kind };
  }
  const before = isRecord(like) ? like : {};
  return Object.fromEntries(
    Object.entries(shape ?? {})
      .map(([name, part]) => [name, name === 'kind' ? undefined : blankOf(part, before[name])])
      .filter(([, x]) => x !== undefined),
  );
}

/** What is given in the units shown, for the definition to refuse in those: a field left empty keeps its unit. */
export const asShown = (schema: Schema, given: unknown, units: Units): unknown =>
  walk(schema, given, (about, data) => {
    if (!isTold(data)) return data;
    const unit = codeFor(about, data, units);
    const value = data.value === '' ? undefined : typed(entryText(data, unit));
    return { value, unit };
  });

/** What is given, without what was left empty: as `fromJson` reads it. */
export function pruned(data: unknown): unknown {
  if (data === '' || (isTold(data) && data.value === '')) return undefined;
  if (Array.isArray(data)) return data.map(pruned);
  if (!isRecord(data) || isTold(data)) return data;
  return Object.fromEntries(
    Object.entries(data)
      .map(([name, x]) => [name, pruned(x)])
      .filter(([, x]) => x !== undefined),
  );
}
