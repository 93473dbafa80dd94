import { load } from 'virtual:formulas';
import type { Answer, AnyFormula, Fault } from 'swathe';
import { aboutOf, type Fields, inside, partOf, type Schema } from 'swathe/definition';
import { figureOf } from '../figures/index.ts';
import type { Figure } from '../figures/svg.ts';
import { prefer, told } from '../library/show.ts';
import { answerHtml, inBrief } from './answer.ts';
import { asking } from './ask.ts';
import { asCode, asCsv, csvOf } from './copy.ts';
import { valueAt, withAt } from './data.ts';
import { asShown, blankOf, formOf, idOf, pruned } from './form.ts';
import { fragmentOf, kindOf, stateOf, tellsInputs } from './fragment.ts';
import { escaped } from './html.ts';
import { sliderOf } from './slider.ts';
import { isTold, sentence, typed, type Units } from './units.ts';
import type { Answered } from './worker.ts';

type Given = Readonly<Record<string, unknown>>;

/** The schema at a path of data. */
function schemaAt(root: Schema, data: unknown, path: string): Schema | undefined {
  let schema: Schema | undefined = root;
  let at = data;
  for (const key of path.split('.')) {
    schema = schema && partOf(schema, key, at);
    at = valueAt(at, key);
  }
  return schema;
}

/** A name for a file. */
const fileOf = (id: string, ending: string): string => `${id.replace('.', '-')}.${ending}`;

function save(name: string, text: string, type: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** The rules by which the site draws figures, for a file that leaves the site: in the light colours, as for print. */
function figureRules(): string {
  const rules = [...document.styleSheets].flatMap((sheet) => [...sheet.cssRules]);
  const first = rules.find((rule) => rule instanceof CSSStyleRule && rule.selectorText === ':root');
  const ours = rules.filter((rule) => rule instanceof CSSStyleRule && rule.selectorText.includes('.drawing'));
  return [first, ...ours].map((rule) => rule?.cssText ?? '').join('\n');
}

/**
 * The shipped function in the page. The worked example is there without it; with it the inputs can be moved, the answer
 * and the figure follow, and the address tells the inputs.
 */
class TryFormula extends HTMLElement {
  #formula!: AnyFormula;
  #given: Given = {};
  #units: Units = {};
  #answer: Answer | undefined;
  #figure: Figure | undefined;
  /** Inputs as the library reads them: what was asked last, and what the answer in sight is of. */
  #asked: Given = {};
  #wire: Given = {};
  /** Whether anything is other than in the example that the page shows. */
  #touched = false;
  #aging: ReturnType<typeof setTimeout> | undefined;
  #saying: ReturnType<typeof setTimeout> | undefined;

  readonly #work = asking((answered) => void this.#answered(answered));

  async connectedCallback(): Promise<void> {
    const id = this.getAttribute('formula') ?? '';
    this.#formula = (await load[id]?.())?.formula as AnyFormula;
    if (!this.#formula) return;
    this.#given = this.#example;
    this.addEventListener('input', this.#typed);
    this.addEventListener('change', this.#chosen);
    this.addEventListener('click', this.#clicked);
    this.addEventListener('submit', (event) => event.preventDefault());
    addEventListener('hashchange', this.#read);
    this.#part('fieldset').disabled = false;
    if (tellsInputs(location.hash)) this.#read();
    else this.#ask();
  }

  disconnectedCallback(): void {
    removeEventListener('hashchange', this.#read);
  }

  get #example(): Given {
    return JSON.parse(this.getAttribute('example') ?? '{}') as Given;
  }

  #part<E extends HTMLElement = HTMLFieldSetElement>(selector: string): E {
    return this.querySelector<E>(selector) as E;
  }

  /** Takes the inputs from the address. */
  #read = (): void => {
    const fragment = location.hash.slice(1);
    if (!tellsInputs(fragment)) return;
    const { given, units, unread } = stateOf(this.#formula.inputs as Fields, fragment);
    [this.#given, this.#units] = [given, units];
    const version = /^v(\d+)/.exec(fragment)?.[1] ?? '1';
    const because = version === '1' ? 'names no input here' : 'was made by another version of this page';
    this.#part<HTMLElement>('.unread').textContent =
      unread.length === 0
        ? ''
        : `Part of the address ${because} and was left out: ${unread.join(' and ')}. What it does not give is left empty.`;
    this.#draw();
    this.#changed();
  };

  /** The controls anew, the focus where it was. */
  #draw(focus = document.activeElement?.id): void {
    this.#part<HTMLElement>('.fields').innerHTML = formOf(this.#formula.inputs as Fields, this.#given, {
      units: this.#units,
      symbol: this.#symbol,
    });
    const { length, temperature } = this.#units;
    for (const box of this.querySelectorAll<HTMLInputElement>('.units input')) {
      if (box.name === 'length' && length !== undefined) box.checked = box.value === length;
      if (box.name === 'temperature' && temperature !== undefined) box.checked = box.value === temperature;
    }
    // A field that holds nothing has a unit all the same, in which its limits are told.
    for (const { name, dataset } of this.querySelectorAll<HTMLInputElement>('input[data-unit]')) {
      const unit = dataset['unit'];
      if (unit !== '1' && valueAt(this.#given, name) === undefined) this.#put(name, { value: '', unit });
    }
    prefer(this.#units);
    if (focus) document.getElementById(focus)?.focus();
  }

  #symbol = (tex: string): string =>
    document.querySelector(`[data-tex="${CSS.escape(tex)}"]`)?.innerHTML.trim() ?? '';

  #source = (id: string): string =>
    document.querySelector<HTMLElement>(`[data-source="${CSS.escape(id)}"]`)?.dataset['short'] ?? id;

  #typed = ({ target }: Event): void => {
    if (!(target instanceof HTMLInputElement)) return;
    const path = target.dataset['for'] ?? target.name;
    if (target.type === 'range') this.#slid(target, path);
    if (target.type !== 'text') return;
    const unit = target.dataset['unit'];
    this.#put(
      path,
      unit === undefined ? target.value.trim() || undefined : this.#told(target.value, unit, path),
    );
    const slider = this.querySelector<HTMLInputElement>(`[data-for="${CSS.escape(path)}"]`);
    if (slider) this.#follow(slider, typed(target.value), unit as never);
    this.#changed();
  };

  /** As a form holds it; a pure number that was given bare stays bare. */
  #told(text: string, unit: string, path: string): unknown {
    const before = valueAt(this.#given, path);
    const value = typed(text);
    if (value === '') return isTold(before) ? { value, unit } : undefined;
    return unit === '1' && !isTold(before) ? value : { value, unit };
  }

  #slid(slider: HTMLInputElement, path: string): void {
    const entry = this.querySelector<HTMLInputElement>(`#${CSS.escape(idOf(path))}`);
    const about = this.#aboutAt(path);
    const unit = (entry?.dataset['unit'] ?? '1') as never;
    const value = about && sliderOf(about, unit)?.valueAt(slider.valueAsNumber);
    if (!entry || value === undefined) return;
    entry.value = String(value);
    slider.setAttribute('aria-valuetext', told(value, unit));
    this.#put(path, this.#told(entry.value, unit, path));
    this.#changed();
  }

  #follow(slider: HTMLInputElement, value: number | string, unit: never): void {
    const about = this.#aboutAt(slider.dataset['for'] ?? '');
    if (typeof value !== 'number' || !about) return;
    slider.value = String(sliderOf(about, unit)?.placeOf(value));
    slider.setAttribute('aria-valuetext', told(value, unit));
  }

  #aboutAt(path: string) {
    const schema = schemaAt(this.#formula.input, this.#given, path);
    return schema && (aboutOf(schema) ?? aboutOf(inside(schema).innerType ?? schema));
  }

  #put(path: string, value: unknown): void {
    this.#given = withAt(this.#given, path, value);
  }

  #chosen = ({ target }: Event): void => {
    if (target instanceof HTMLSelectElement) this.#select(target.name, target.value || undefined);
    else if (target instanceof HTMLInputElement && target.dataset['optional'] !== undefined) {
      const path = target.dataset['optional'];
      const schema = schemaAt(this.#formula.input, this.#given, path);
      this.#put(
        path,
        target.checked && schema ? blankOf(inside(schema).innerType ?? schema, undefined) : undefined,
      );
      this.#draw();
    } else if (target instanceof HTMLInputElement && target.type === 'radio') {
      this.#units = { ...this.#units, [target.name]: target.value };
      this.#draw();
    } else if (target instanceof HTMLInputElement && target.type === 'checkbox')
      this.#put(target.name, target.checked);
    else return;
    this.#changed();
  };

  /** A choice; where it is which of several shapes, with the fields of that shape. */
  #select(path: string, value: string | undefined): void {
    const [, parent] = /^(.*)\.kind$/.exec(path) ?? [];
    const schema = parent && schemaAt(this.#formula.input, this.#given, parent);
    const option = schema && inside(schema).options?.find((one) => kindOf(one) === value);
    if (!parent || !option) {
      this.#put(path, value);
      return;
    }
    const blank = blankOf(option, valueAt(this.#given, parent)) as object;
    this.#put(parent, { ...blank, kind: value });
    this.#draw();
  }

  #clicked = ({ target }: Event): void => {
    const button = target instanceof Element ? target.closest('button') : null;
    if (!button) return;
    const { add, remove, copy, save } = button.dataset;
    if (add !== undefined) this.#add(add);
    else if (remove !== undefined) this.#remove(remove);
    else if (copy !== undefined) void this.#copy(copy, button.textContent ?? '');
    else if (save !== undefined) this.#save(save);
  };

  #add(path: string): void {
    const entries = (valueAt(this.#given, path) ?? []) as readonly unknown[];
    const schema = schemaAt(this.#formula.input, this.#given, path);
    const element = schema && (inside(schema).element ?? inside(inside(schema).innerType ?? schema).element);
    if (!element) return;
    this.#put(path, [...entries, blankOf(element, entries.at(-1)) ?? '']);
    this.#draw();
    const row = this.querySelector(`[data-path="${CSS.escape(`${path}.${entries.length}`)}"]`);
    row?.querySelector<HTMLElement>('input, select')?.focus();
    this.#changed();
  }

  #remove(path: string): void {
    const list = path.replace(/\.\d+$/, '');
    this.#put(path, undefined);
    this.#draw();
    this.querySelector<HTMLElement>(`[data-add="${CSS.escape(list)}"]`)?.focus();
    this.#changed();
  }

  #changed(): void {
    this.#touched = true;
    this.#ask();
  }

  #ask(): void {
    this.#asked = pruned(this.#given) as Given;
    delete this.dataset['value'];
    // What takes a while leaves the old answer in sight, and plainly old.
    clearTimeout(this.#aging);
    this.#aging = setTimeout(() => this.classList.toggle('stale', this.#touched), 150);
    const shown = asShown(this.#formula.input, this.#given, this.#units);
    this.#work({ id: this.#formula.id, input: this.#asked, shown });
  }

  #answered = async ({ answer, faults = [], failed = false }: Answered): Promise<void> => {
    clearTimeout(this.#aging);
    [this.#answer, this.#wire] = [answer as Answer | undefined, this.#asked];
    this.#explain(faults);
    this.classList.toggle('stale', !this.#answer);
    for (const button of this.querySelectorAll<HTMLButtonElement>('.copy button'))
      button.disabled = !this.#answer;
    const [asked, current] = [this.#wire, this.#answer];
    if (failed) this.#say('The answer could not be worked out. Load the page again.', true);
    else if (!current) {
      const n = this.querySelectorAll('.fault:not(:empty)').length;
      this.#say(`No answer: ${n === 1 ? 'one input' : `${n} inputs`} cannot be.`, true);
    } else {
      const figure = await figureOf(this.#formula, current, this.#source);
      // Something else was asked meanwhile.
      if (this.#asked !== asked) return;
      this.#figure = figure;
      if (this.#touched) this.#show(current);
      this.dataset['value'] = JSON.stringify(current.value);
    }
    this.dataset['ready'] = '';
  };

  #show(current: Answer): void {
    const answer = this.#part<HTMLElement>('.answer');
    const open = [...answer.querySelectorAll('details[open] > summary')].map((says) => says.textContent);
    answer.innerHTML = answerHtml(this.#formula, current, { symbol: this.#symbol, source: this.#source });
    for (const part of answer.querySelectorAll('details'))
      part.open = open.includes(part.querySelector('summary')?.textContent ?? '');
    if (this.#figure && this.querySelector('.drawing')) {
      this.#part<HTMLElement>('.drawing .sheet').innerHTML = this.#figure.svg;
      this.#part<HTMLElement>('.drawing figcaption').textContent = this.#figure.words;
    }
    const told = { given: this.#wire, units: this.#units };
    history.replaceState(null, '', `#${fragmentOf(this.#formula.inputs as Fields, told)}`);
    this.#say(inBrief(this.#formula, current));
  }

  /** Each fault beside the field it belongs to, or at the nearest part that holds it. */
  #explain(faults: readonly Fault[]): void {
    for (const shown of this.querySelectorAll('.fault')) shown.textContent = '';
    for (const odd of this.querySelectorAll('[aria-invalid]')) odd.removeAttribute('aria-invalid');
    for (const fault of faults) {
      let path = fault.input;
      const find = (): Element | null => document.getElementById(`${idOf(path)}-fault`);
      while (path !== '' && !find()) path = path.includes('.') ? path.slice(0, path.lastIndexOf('.')) : '';
      const place = path === '' ? this.querySelector('.form-fault') : find();
      if (place) place.textContent = `${place.textContent ?? ''} ${sentence(fault)}`.trim();
      for (const control of this.querySelectorAll(
        `#${CSS.escape(idOf(path))}, [data-for="${CSS.escape(path)}"]`,
      ))
        if (control.matches('input, select')) control.setAttribute('aria-invalid', 'true');
    }
  }

  /** Read out a moment after the last change, so that a slider does not chatter. */
  #say(text: string, plainly = false): void {
    const status = this.#part<HTMLElement>('.said');
    status.classList.toggle('seen', plainly);
    clearTimeout(this.#saying);
    if (plainly) status.textContent = text;
    else {
      status.textContent = '';
      this.#saying = setTimeout(() => {
        status.textContent = text;
      }, 700);
    }
  }

  async #copy(what: string, says: string): Promise<void> {
    const [wire, answer] = [this.#wire, this.#answer];
    if (!answer) return;
    const texts: Readonly<Record<string, () => string>> = {
      code: () => asCode(this.#formula, this.getAttribute('exported') ?? '', wire),
      json: () => JSON.stringify(wire, null, 2),
      record: () => JSON.stringify(answer, null, 2),
      csv: () => asCsv(wire, answer),
    };
    try {
      await navigator.clipboard.writeText(texts[what]?.() ?? location.href);
      this.#say(`Copied: ${says.trim()}.`, true);
    } catch {
      this.#say('The browser did not allow copying.', true);
    }
  }

  #save(what: string): void {
    if (!this.#figure) return;
    if (what === 'csv') {
      const { columns, rows } = this.#figure.data;
      save(fileOf(this.#formula.id, 'csv'), csvOf([columns, ...rows]), 'text/csv');
      return;
    }
    const { svg, words } = this.#figure;
    const inside = `<desc>${escaped(words)}</desc><style>${figureRules()}</style>`;
    const text = svg
      .replace('<svg ', '<svg xmlns="http://www.w3.org/2000/svg" class="drawing" ')
      .replace('>', `>${inside}`);
    save(fileOf(this.#formula.id, 'svg'), text, 'image/svg+xml');
  }
}

customElements.define('try-formula', TryFormula);
