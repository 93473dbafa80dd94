import { defers, type Fault, type Plan } from 'swathe';
import { asking } from '../client/ask.ts';
import { withAt } from '../client/data.ts';
import { sentence } from '../client/units.ts';
import type { Answered } from '../client/worker.ts';
import { clock } from './clock.ts';
import { h, on } from './dom.ts';
import type { Field } from './fields.ts';
import { sheet } from './sheet.ts';
import {
  decode,
  empty,
  encode,
  follow,
  followRoll,
  get,
  judged,
  listAt,
  type Part,
  remade,
  restarts,
  type State,
  startFrom,
  type Units,
} from './state.ts';
import { limbStep, materialsStep, orderStep, type Page, steps, techniqueStep } from './steps.ts';
import { writer } from './write.ts';

/** Faults of which a person has not been asked yet are no faults: they are what is still needed. */
const isMissing = ({ fault }: Fault): boolean => fault === 'missing';

class SwathePlan extends HTMLElement {
  #state: State = empty;
  #step = 0;
  #bad = '';
  #fields = new Map<string, Field>();
  #browse: Page['browse'] = { open: false };
  #plan: Plan | undefined;
  #faults: readonly Fault[] = [];
  #written = '';
  #before: State['order'] | undefined;
  readonly #clock = clock();
  readonly #work = asking((answered) => this.#answered(answered));
  readonly #form = h('form', { novalidate: true, 'aria-label': 'Order, limb, materials and technique' });
  readonly #tabs = steps.map((name, n) => {
    const open = h('span', { class: 'open' });
    const button = h('button', { type: 'button', class: 'plain', 'data-path': `step-${n}` }, name, open);
    return { open, button: on(button, 'click', () => this.#go(n)) };
  });
  readonly #status = h('p', { class: 'status', role: 'status' });
  readonly #sheet = h('section', { class: 'sheet', 'aria-labelledby': 'sheet-title' });
  readonly #alert = h('div', { role: 'alert' });
  readonly #units = h('div', { class: 'units' });
  readonly #back = h('button', { type: 'button', class: 'plain' }, 'Back');
  readonly #next = h('button', { type: 'button' }, 'Next');
  readonly #job = h('div', { class: 'job' });

  connectedCallback(): void {
    const items = this.#tabs.map(({ button }) => h('li', {}, button));
    const nav = h(
      'nav',
      { class: 'steps', 'aria-label': 'Steps, and how much each still needs' },
      h('ol', {}, items),
    );
    const bar = h('div', { class: 'bar' }, this.#back, this.#status, this.#next);
    on(this.#back, 'click', () => this.#go(this.#step - 1));
    on(this.#next, 'click', () => this.#go(this.#step + 1));
    this.#form.addEventListener('submit', (event) => event.preventDefault());
    // A roll that is told differently is another roll once it is left, not at every key.
    this.#form.addEventListener('focusin', () => {
      this.#before = this.#state.order;
    });
    this.#form.addEventListener('change', (event) => this.#settle(event));
    this.#form.addEventListener('focusout', () => queueMicrotask(() => this.#tellFaults()));
    this.#form.addEventListener('focusin', () => this.#highlight());
    const entry = h('div', { class: 'entry' }, nav, this.#units, this.#alert, this.#form, bar);
    this.#job.append(entry, this.#sheet);
    this.replaceChildren(this.#job);
    window.addEventListener('hashchange', () => {
      if (window.location.hash.replace('#', '') !== this.#written) this.#read();
    });
    this.#read();
  }

  get #base(): string {
    return this.dataset['base'] ?? '/';
  }

  /** Takes over what the address holds. */
  #read(): void {
    const read = decode(window.location.hash);
    this.#bad = 'why' in read ? read.why : '';
    this.#state = 'why' in read ? empty : read;
    this.#browse = { open: false };
    this.#plan = undefined;
    this.#build();
    const ready = Object.keys(this.#state.order).length > 0 && this.#state.confirmed;
    this.#show(ready ? 4 : 0);
    this.#ask();
  }

  /** Puts what was entered into the address, where no server sees it. */
  #write(): void {
    this.#written = encode(this.#state);
    this.#bad = '';
    this.#alert.replaceChildren();
    const { pathname, search } = window.location;
    window.history.replaceState(null, '', this.#written ? `#${this.#written}` : pathname + search);
  }

  #page(): Page {
    return {
      state: () => this.#state,
      browse: this.#browse,
      change: (path, value) => this.#change(path, value),
      rebuild: (path, value, focus) => this.#change(path, value, true, focus),
      redraw: (focus) => this.#build(focus),
      confirm: (confirmed) => {
        this.#state = { ...this.#state, confirmed };
        this.#write();
        this.#ask();
      },
      register: (field) => this.#fields.set(field.path, field),
      cite: (source) => this.#cite(source),
    };
  }

  #change(path: string, value: Part, rebuild = false, focus?: string): void {
    const before = this.#state.order;
    const order = follow(before, withAt(before, path, value));
    if (path === 'slab.made') this.#state = { ...this.#state, order: remade(order) };
    else if ((path === 'immobilisation' || path === 'material') && restarts(before, order))
      this.#state = startFrom(this.#state, order);
    else this.#state = { ...this.#state, order };
    this.#write();
    if (rebuild || /^(immobilisation|material|side|slab\.made)$/.test(path))
      this.#build(focus ?? `${path}=${value}`);
    else for (const field of this.#fields.values()) field.refresh();
    this.#ask();
  }

  #settle({ target }: Event): void {
    const path =
      (target as HTMLElement).dataset['path'] ??
      (target as HTMLElement).closest('.field')?.querySelector<HTMLElement>('[data-path]')?.dataset['path'];
    const [, n] = /^stock\.(\d+)\.width$/.exec(path ?? '') ?? [];
    if (n === undefined || !this.#before) return;
    const order = followRoll(this.#before, this.#state.order, Number(n));
    this.#before = order;
    if (order === this.#state.order) return;
    this.#state = { ...this.#state, order };
    this.#write();
    for (const field of this.#fields.values()) field.refresh();
    this.#ask();
  }

  #cite(source: string | undefined): Node {
    if (source === undefined) return document.createTextNode('common practice');
    const known = document.querySelector<HTMLTemplateElement>('#source-names')?.content;
    const name = known?.querySelector(`[data-id="${source}"]`)?.textContent ?? source;
    return h('a', { href: `${this.#base}sources/#${source}` }, name);
  }

  #unitsToggle(): HTMLElement {
    const of = (value: Units, label: string) => {
      const input = h('input', {
        type: 'radio',
        name: 'units',
        id: `units-${value}`,
        'data-path': `units-${value}`,
      });
      input.checked = this.#state.units === value;
      input.addEventListener('change', () => {
        this.#state = { ...this.#state, units: value };
        if (Object.keys(this.#state.order).length > 0) this.#write();
        this.#build(`units-${value}`);
        this.#render();
      });
      return h('label', { class: 'option' }, input, h('span', {}, label));
    };
    return h(
      'fieldset',
      { class: 'choice' },
      h('legend', { class: 'visually-hidden' }, 'Units'),
      h('div', { class: 'options' }, of('cm', 'cm, °C'), of('in', 'in, °F')),
    );
  }

  /** Makes the fields anew, and returns the focus to where it was or is wanted. */
  #build(focus?: string): void {
    const active = document.activeElement;
    const wanted = focus ?? (active instanceof HTMLElement ? active.dataset['path'] : undefined);
    const open = [...this.#form.querySelectorAll('details')].map((details) => details.open);
    this.#fields.clear();
    const page = this.#page();
    this.#form.replaceChildren(orderStep(page), limbStep(page), materialsStep(page), techniqueStep(page));
    for (const [n, details] of [...this.#form.querySelectorAll('details')].entries())
      if (focus === undefined && open[n]) details.open = true;
    this.#units.replaceChildren(this.#unitsToggle());
    this.#alert.replaceChildren(
      this.#bad === ''
        ? ''
        : h(
            'p',
            { class: 'bad-link' },
            h('strong', {}, 'This link cannot be read: '),
            `${this.#bad}. Nothing was taken from it; start anew below.`,
          ),
    );
    this.#show(this.#step);
    this.#tellFaults();
    if (wanted === undefined) return;
    const found = this.querySelector<HTMLElement>(`[data-path="${CSS.escape(wanted)}"]`);
    if (!found || document.activeElement === found) return;
    unfold(found);
    found.focus({ preventScroll: focus === undefined });
  }

  #show(step: number): void {
    this.#step = Math.min(steps.length - 1, Math.max(0, step));
    this.#job.dataset['step'] = String(this.#step);
    // Beside a wide plan the last of the fields stay.
    const fields = Math.min(this.#step, 3);
    for (const part of this.#form.children)
      (part as HTMLElement).hidden = (part as HTMLElement).dataset['step'] !== String(fields);
    this.#back.disabled = this.#step === 0;
    this.#next.hidden = this.#step === steps.length - 1;
    this.#next.textContent = this.#step === 3 ? 'Plan' : 'Next';
    this.#tellSteps();
  }

  /** Changed in place: a button that is made anew under a finger is not pressed. */
  #tellSteps(): void {
    const needed = this.#needed();
    for (const [n, { button, open }] of this.#tabs.entries()) {
      const count = n < 4 ? needed.filter((field) => field.step === n).length : 0;
      if (n === this.#step) button.setAttribute('aria-current', 'step');
      else button.removeAttribute('aria-current');
      const said = count > 0 ? ` ${count}` : '';
      if (open.textContent !== said) open.textContent = said;
    }
  }

  #go(step: number): void {
    this.#show(step);
    const heading = this.querySelector<HTMLElement>(
      this.#step === 4 ? '#sheet-title' : `#step-${this.#step}`,
    );
    heading?.focus({ preventScroll: true });
    heading?.scrollIntoView({ block: 'start' });
  }

  #fieldOf(path: string): Field | undefined {
    for (let at = path; at !== ''; at = at.includes('.') ? at.slice(0, at.lastIndexOf('.')) : '') {
      const field = this.#fields.get(at);
      if (field) return field;
    }
    return undefined;
  }

  /** What is still to be entered, in the order of the steps. */
  #needed(): readonly Field[] {
    const faults = [...this.#faults].filter(isMissing);
    const fields = new Set(faults.map(({ input }) => this.#fieldOf(input)));
    const confirm = this.#fields.get('confirmed');
    if (confirm && !this.#state.confirmed) fields.add(confirm);
    // What follows from a length that is still missing is not asked for beside it.
    const lengths = listAt(this.#state.order, 'limb').every((part) => get(part, 'length') !== undefined);
    const follows = ({ path }: Field): boolean =>
      !lengths && /^(stockinette\.\d+\.path|limb\..*\.offset)$/.test(path);
    const all = [...this.#fields.values()].filter((field) => !follows(field));
    return all.filter((field) => fields.has(field)).sort((a, b) => a.step - b.step);
  }

  #ask(): void {
    this.#sheet.setAttribute('aria-busy', 'true');
    this.#work({ id: 'plan', input: judged(this.#state.order) });
  }

  #answered({ answer, faults = [], failed = false }: Answered): void {
    if (failed) {
      // What stands may be of an earlier order, and stays marked as such.
      this.#status.textContent = 'The plan could not be worked out. Load the page again.';
      return;
    }
    this.#sheet.removeAttribute('aria-busy');
    this.#plan = answer as Plan | undefined;
    this.#faults = this.#inForm(faults);
    this.#tellFaults();
    this.#render();
  }

  /** Faults told of the rolls that count, as faults of the rolls that are shown. */
  #inForm(faults: readonly Fault[]): readonly Fault[] {
    const told = listAt(this.#state.order, 'stock').flatMap((roll, n) =>
      get(roll, 'length') !== undefined || get(roll, 'onHand') !== undefined ? [n] : [],
    );
    return faults.map((fault) => ({
      ...fault,
      input: fault.input.replace(/^stock\.(\d+)/, (_, n) => `stock.${told[Number(n)]}`),
    }));
  }

  /** Says at each field what is wrong with it, but not while it is being typed in. */
  #tellFaults(): void {
    const wrong = new Map<Field, string[]>();
    for (const fault of this.#faults) {
      if (isMissing(fault)) continue;
      const field = this.#fieldOf(fault.input);
      if (field) wrong.set(field, [...(wrong.get(field) ?? []), sentence(fault)]);
    }
    for (const field of this.#fields.values()) {
      const said = field.focus === document.activeElement ? undefined : wrong.get(field);
      const text = said ? unique(said) : '';
      if (field.fault.textContent !== text) field.fault.textContent = text;
      if (field.focus instanceof HTMLInputElement && field.focus.type === 'text')
        field.focus.setAttribute('aria-invalid', said ? 'true' : 'false');
    }
    this.#tellSteps();
  }

  #highlight(): void {
    const path = (document.activeElement as HTMLElement | null)?.dataset['path'] ?? '';
    for (const mark of this.#form.querySelectorAll('.mark'))
      mark.classList.toggle(
        'active',
        mark.getAttribute('data-for') === path ||
          (mark.getAttribute('data-for') ?? '-').replace(/girth$/, 'offset') === path,
      );
  }

  #goTo(field: Field): void {
    this.#show(field.step);
    unfold(field.focus);
    field.focus.focus();
    field.focus.scrollIntoView({ block: 'center' });
  }

  #actions(plan: Plan): HTMLElement {
    const done = h('p', { class: 'hint', role: 'status' });
    const print = on(h('button', { type: 'button', class: 'plain' }, 'Print on one sheet'), 'click', () =>
      window.print(),
    );
    const copy = on(h('button', { type: 'button', class: 'plain' }, 'Copy link'), 'click', async () => {
      try {
        await navigator.clipboard.writeText(window.location.href);
        done.textContent = 'Copied. The link holds everything entered: send it only where that may go.';
      } catch {
        const link = h('input', { type: 'text', readonly: true, 'aria-label': 'Link to this plan' });
        link.value = window.location.href;
        done.replaceChildren('Copy it from here: ', link);
        link.select();
      }
    });
    const save = on(h('button', { type: 'button', class: 'plain' }, 'Download plan as JSON'), 'click', () => {
      const file = new Blob([JSON.stringify(plan, null, 1)], { type: 'application/json' });
      const link = h('a', { href: URL.createObjectURL(file), download: `${plan.type.id}-plan.json` });
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
    });
    const another = on(
      h('button', { type: 'button', class: 'plain' }, 'New order, same trolley'),
      'click',
      () => {
        const { stock, room, dip } = this.#state.order;
        const kept = Object.entries({ stock, room, dip }).filter(([, x]) => x !== undefined);
        this.#state = { ...this.#state, order: Object.fromEntries(kept) as State['order'], confirmed: false };
        this.#browse = { open: false };
        this.#plan = undefined;
        this.#write();
        this.#build();
        this.#go(0);
        this.#ask();
      },
    );
    return h('div', { class: 'actions' }, print, copy, save, another, done);
  }

  #render(): void {
    const needed = this.#needed();
    const wrong = this.#faults.filter((fault) => !isMissing(fault));
    const title = h('h2', { id: 'sheet-title', tabindex: -1 }, 'Plan');
    const focused = document.activeElement?.id === 'sheet-title';
    const ready = this.#plan !== undefined && this.#state.confirmed;
    const status = ready
      ? 'Plan ready'
      : wrong.length > 0
        ? `${wrong.length} to put right`
        : `${needed.length} still needed`;
    if (this.#status.textContent !== status) this.#status.textContent = status;
    if (ready && this.#plan) {
      const shown = sheet(
        this.#plan,
        writer(this.#state.units),
        (source) => this.#cite(source),
        this.#base,
        this.#clock,
      );
      this.#sheet.replaceChildren(title, this.#actions(this.#plan), shown);
    } else {
      const links = needed.map((field) => {
        const go = h('button', { type: 'button', class: 'link' }, field.label);
        return h(
          'li',
          {},
          on(go, 'click', () => this.#goTo(field)),
        );
      });
      const faults = wrong.map((fault) => {
        const field = this.#fieldOf(fault.input);
        const said = sentence(fault);
        if (!field) return h('li', {}, `${fault.input}: ${said}`);
        const go = h('button', { type: 'button', class: 'link' }, field.label);
        return h(
          'li',
          {},
          on(go, 'click', () => this.#goTo(field)),
          ` ${said}`,
        );
      });
      this.#sheet.replaceChildren(
        title,
        h('p', { class: 'defers-print' }, defers),
        faults.length > 0
          ? h('div', {}, h('h3', {}, 'To put right'), h('ul', { class: 'needed' }, ...faults))
          : '',
        links.length > 0
          ? h(
              'div',
              {},
              h('h3', {}, 'Still needed'),
              h('p', { class: 'hint' }, 'The plan appears here as soon as these are in.'),
              h('ul', { class: 'needed' }, ...links),
            )
          : '',
      );
    }
    if (focused) title.focus({ preventScroll: true });
  }
}

/** Opens what an element is folded away in. */
function unfold(element: HTMLElement): void {
  for (let at: Element | null = element; at; at = at.parentElement?.closest('details') ?? null)
    if (at instanceof HTMLDetailsElement) at.open = true;
}

const unique = (all: readonly string[]): string => [...new Set(all)].join(' ');

customElements.define('swathe-plan', SwathePlan);
