import type { UnitCode } from 'swathe';
import { entryText, typed } from '../client/units.ts';
import { unitWord } from '../library/show.ts';
import { h } from './dom.ts';
import { get, isTold, type Part, type Units } from './state.ts';

/** What a field holds: a quantity in a unit, a bare number, or a quantity that keeps the unit it was told in. */
export type Kind = 'length' | 'temperature' | 'mass' | 'percent' | 'count' | 'width' | 'roll';

export const codeOf = (kind: Kind, told: Part, units: Units, beside?: Part): UnitCode | undefined => {
  const metric = units === 'cm';
  switch (kind) {
    case 'length':
      return metric ? 'cm' : '[in_i]';
    case 'temperature':
      return metric ? 'Cel' : '[degF]';
    case 'mass':
      return 'kg';
    case 'percent':
      return '%';
    case 'count':
      return undefined;
    case 'width':
      return isTold(told) ? told.unit : metric ? 'cm' : '[in_i]';
    case 'roll':
      if (isTold(told)) return told.unit;
      return (isTold(beside) ? beside.unit === '[in_i]' : !metric) ? '[yd_i]' : 'm';
  }
};

export const told = (text: string, code: UnitCode | undefined): Part => {
  const value = typed(text);
  if (value === '') return undefined;
  return code === undefined ? value : { value, unit: code };
};

/** One thing that is asked: where it stands in the order, what it is called, and how to reach and refresh it. */
export interface Field {
  readonly path: string;
  readonly label: string;
  readonly step: number;
  readonly focus: HTMLElement;
  readonly fault: HTMLElement;
  refresh(): void;
}

export const idOf = (path: string): string => `f-${path.replaceAll('.', '-')}`;

const faultOf = (path: string): HTMLElement => h('p', { class: 'fault', id: `${idOf(path)}-fault` });

interface Asking {
  readonly step: number;
  readonly order: () => Part;
  readonly units: () => Units;
  readonly change: (path: string, value: Part) => void;
  readonly register: (field: Field) => void;
}

/** Builds the fields of one step. */
export class Asker {
  readonly #of: Asking;
  constructor(of: Asking) {
    this.#of = of;
  }

  /** A number with its unit. */
  number(path: string, label: string, kind: Kind, more: { sign?: string; hint?: string; of?: string } = {}) {
    const { order, units, change, register, step } = this.#of;
    const id = idOf(path);
    const beside = (): Part => (kind === 'roll' ? get(order(), path.replace(/length$/, 'width')) : undefined);
    const code = (): UnitCode | undefined => codeOf(kind, get(order(), path), units(), beside());
    const input = h('input', {
      id,
      type: 'text',
      inputmode: 'decimal',
      autocomplete: 'off',
      'data-path': path,
      'aria-labelledby': `${id}-label ${id}-unit`,
      'aria-describedby': `${more.hint ? `${id}-hint ` : ''}${id}-fault`,
    });
    const unit = h('span', { class: 'unit', id: `${id}-unit` });
    const fault = faultOf(path);
    let picker: HTMLSelectElement | undefined;
    if (kind === 'width') {
      picker = h(
        'select',
        { 'aria-label': `Unit of ${label.toLowerCase()}`, id: `${id}-unit`, class: 'unit' },
        h('option', { value: 'cm' }, 'cm'),
        h('option', { value: '[in_i]' }, 'in'),
      );
      picker.addEventListener('change', () => {
        const value = told(input.value, picker?.value as UnitCode);
        change(path, value);
      });
    }
    const refresh = (): void => {
      const c = code();
      if (document.activeElement !== input) input.value = entryText(get(order(), path), c);
      unit.textContent = c === undefined ? '' : unitWord(c);
      if (picker && document.activeElement !== picker && isTold(get(order(), path)))
        picker.value = c as string;
    };
    if (picker) picker.value = code() as string;
    input.addEventListener('input', () =>
      change(path, told(input.value, picker ? (picker.value as UnitCode) : code())),
    );
    refresh();
    register({
      path,
      label: more.of ? `${more.of}: ${label.toLowerCase()}` : label,
      step,
      focus: input,
      fault,
      refresh,
    });
    return h(
      'div',
      { class: 'field' },
      h(
        'label',
        { for: id },
        more.sign ? h('span', { class: 'sign-inline', 'aria-hidden': 'true' }, more.sign) : '',
        h('span', { id: `${id}-label` }, label),
      ),
      h('div', { class: 'with-unit' }, input, picker ?? unit),
      more.hint ? h('p', { class: 'hint', id: `${id}-hint` }, more.hint) : undefined,
      fault,
    );
  }

  /** One of a few, as large buttons. */
  choice(
    path: string,
    legend: string,
    options: readonly (readonly [value: string | boolean, label: string])[],
    hint?: string,
  ) {
    const { order, change, register, step } = this.#of;
    const id = idOf(path);
    const fault = faultOf(path);
    const inputs = options.map(([value]) => {
      const input = h('input', {
        type: 'radio',
        name: id,
        id: `${id}-${String(value).replaceAll(' ', '-')}`,
        'data-path': `${path}=${value}`,
      });
      input.addEventListener('change', () => change(path, value));
      return input;
    });
    const refresh = (): void => {
      for (const [n, [value]] of options.entries())
        (inputs[n] as HTMLInputElement).checked = get(order(), path) === value;
    };
    refresh();
    register({ path, label: legend, step, focus: inputs[0] as HTMLElement, fault, refresh });
    return h(
      'fieldset',
      { class: 'choice', 'aria-describedby': `${id}-fault` },
      h('legend', {}, legend),
      hint ? h('p', { class: 'hint' }, hint) : undefined,
      h(
        'div',
        { class: 'options' },
        options.map(([, label], n) =>
          h('label', { class: 'option' }, inputs[n] as HTMLInputElement, h('span', {}, label)),
        ),
      ),
      fault,
    );
  }

  /** One of many, from a list. */
  pick(path: string, label: string, options: readonly string[], hint?: string) {
    const { order, change, register, step } = this.#of;
    const id = idOf(path);
    const fault = faultOf(path);
    const select = h(
      'select',
      { id, 'data-path': path, 'aria-describedby': `${hint ? `${id}-hint ` : ''}${id}-fault` },
      options.map((option) => h('option', { value: option }, option)),
    );
    select.addEventListener('change', () => change(path, select.value));
    const refresh = (): void => {
      select.value = String(get(order(), path) ?? '');
    };
    refresh();
    register({ path, label, step, focus: select, fault, refresh });
    return h(
      'div',
      { class: 'field' },
      h('label', { for: id }, label),
      select,
      hint ? h('p', { class: 'hint', id: `${id}-hint` }, hint) : undefined,
      fault,
    );
  }

  /** A place to show what is wrong with a part as a whole. */
  part(path: string, label: string, focus: HTMLElement, refresh: () => void = () => undefined) {
    const fault = faultOf(path);
    this.#of.register({ path, label, step: this.#of.step, focus, fault, refresh });
    return fault;
  }
}
