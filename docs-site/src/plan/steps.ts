import { type Choice, type Immobilisation, immobilisations, type Landmark, type WrapTemplate } from 'swathe';
import { finishes, stockinetteRules } from '../../../packages/core/src/plan/rules.ts';
import { drawn, h, on } from './dom.ts';
import { Asker, type Field } from './fields.ts';
import { limbDrawing, type Mark } from './limb-drawing.ts';
import { get, heldOf, listAt, type Part, type State, templateOf, typeOf } from './state.ts';
import { digits, percent, placed, range, textAt, unique, type Writer, writer } from './write.ts';

export const steps = ['Order', 'Limb', 'Materials', 'Technique', 'Plan'] as const;

/** What the steps need of the page they stand on. */
export interface Page {
  readonly state: () => State;
  readonly browse: { limb?: 'arm' | 'leg'; kind?: 'slab' | 'cast'; open: boolean };
  readonly change: (path: string, value: Part) => void;
  /** Changes that add or take away fields. */
  readonly rebuild: (path: string, value: Part, focus?: string) => void;
  readonly redraw: (focus?: string) => void;
  readonly confirm: (confirmed: boolean) => void;
  readonly register: (field: Field) => void;
  readonly cite: (source: string | undefined) => Node;
}

const askerFor = (page: Page, step: number): Asker =>
  new Asker({
    step,
    order: () => page.state().order,
    units: () => page.state().units,
    change: page.change,
    register: page.register,
  });

const section = (step: number, title: string, lead: string, ...children: Parameters<typeof h>[2][]) =>
  h(
    'section',
    { class: 'step', 'data-step': step, 'aria-labelledby': `step-${step}` },
    h('h2', { id: `step-${step}`, tabindex: -1 }, title),
    h('p', { class: 'hint lead-in' }, lead),
    ...children,
  );

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The types, by limb and by kind, each with a drawing. */
function picker(page: Page): HTMLElement {
  const { order } = page.state();
  const type = typeOf(order);
  const { browse } = page;
  if (type && !browse.open) {
    const again = h('button', { type: 'button', class: 'plain', 'data-path': 'again' }, 'Choose another');
    on(again, 'click', () => {
      browse.open = true;
      browse.limb = type.limb;
      browse.kind = type.kind;
      page.redraw(`pick-${type.id}`);
    });
    return h(
      'div',
      { class: 'chosen-type' },
      drawn(limbDrawing(type, textAt(order, 'side') === 'left' ? 'left' : 'right')),
      h('div', {}, h('p', { class: 'type-name' }, type.name), again),
    );
  }
  const filter = <T extends string>(key: 'limb' | 'kind', legend: string, of: readonly T[]) =>
    h(
      'fieldset',
      { class: 'choice' },
      h('legend', {}, legend),
      h(
        'div',
        { class: 'options' },
        of.map((value) => {
          const input = h('input', {
            type: 'radio',
            name: `browse-${key}`,
            id: `browse-${key}-${value}`,
            'data-path': `browse-${key}-${value}`,
          });
          input.checked = (browse[key] as string | undefined) === value;
          input.addEventListener('change', () => {
            (browse as Record<string, unknown>)[key] = value;
            page.redraw(`browse-${key}-${value}`);
          });
          return h('label', { class: 'option' }, input, h('span', {}, capital(value)));
        }),
      ),
    );
  const fault = h('p', { class: 'fault' });
  const shown = Object.values<Immobilisation>(immobilisations).filter(
    ({ limb, kind }) => limb === browse.limb && kind === browse.kind,
  );
  const cards = shown.map((one) => {
    const button = h(
      'button',
      {
        type: 'button',
        class: 'card',
        'aria-pressed': type?.id === one.id ? 'true' : 'false',
        'data-path': `pick-${one.id}`,
      },
      drawn(limbDrawing(one, textAt(order, 'side') === 'left' ? 'left' : 'right')),
      h('span', {}, one.name),
    );
    return on(button, 'click', () => {
      browse.open = false;
      page.rebuild('immobilisation', one.id, 'again');
    });
  });
  const first = filter('limb', 'Which limb', ['arm', 'leg']);
  page.register({
    path: 'immobilisation',
    label: 'Splint or cast that is ordered',
    step: 0,
    focus: first.querySelector('input') as HTMLElement,
    fault,
    refresh: () => undefined,
  });
  return h(
    'div',
    {},
    first,
    filter('kind', 'Slab or cast', ['slab', 'cast']),
    shown.length > 0
      ? h('div', { class: 'cards', role: 'group', 'aria-label': 'Splint or cast that is ordered' }, cards)
      : h('p', { class: 'hint lead-in' }, 'Choose limb and kind to see what can be planned.'),
    fault,
  );
}

export function orderStep(page: Page): HTMLElement {
  const ask = askerFor(page, 0);
  const type = typeOf(page.state().order);
  return section(
    0,
    'Order',
    'As the treating clinician wrote it. Nothing here chooses a treatment.',
    picker(page),
    ask.choice('side', 'Side', [
      ['left', 'Left'],
      ['right', 'Right'],
    ]),
    ask.choice('material', 'Material', [
      ['extra-fast plaster', 'Extra-fast plaster'],
      ['fast plaster', 'Fast plaster'],
      ['slow plaster', 'Slow plaster'],
      ['fibreglass', 'Fibreglass'],
    ]),
    type?.kind === 'slab' &&
      get(page.state().order, 'slab') !== undefined &&
      ask.choice('slab.made', 'The slab is', [
        ['layered', 'Layered off a roll'],
        ['prefabricated', 'Prefabricated'],
      ]),
    ask.choice('person.ageBand', 'Age', [
      ['infant', 'Infant'],
      ['child', 'Child'],
      ['adolescent', 'Adolescent'],
      ['adult', 'Adult'],
      ['older adult', 'Older adult'],
    ]),
    ask.choice('person.reducedSensation', 'Feels less, is anaesthetised, or cannot say what is felt', [
      [false, 'No'],
      [true, 'Yes'],
    ]),
    h(
      'details',
      {},
      h('summary', {}, 'To set girths beside what is usual (optional)'),
      ask.choice('person.sex', 'Sex, as surveys of sizes have it', [
        ['female', 'Female'],
        ['male', 'Male'],
      ]),
      ask.number('person.stature', 'Stature', 'length'),
      ask.number('person.weight', 'Weight', 'mass'),
    ),
  );
}

/** Signs for girths and lengths, and what each is called. */
function measured(page: Page) {
  const { order, units } = page.state();
  const write = writer(units);
  const template = templateOf(order);
  const marks: Mark[] = [];
  let girths = 0;
  let lengths = 0;
  const segments = listAt(order, 'limb').map((segment, n) => {
    const name = textAt(segment, 'name');
    const [from, to] = [textAt(segment, 'from') as Landmark, textAt(segment, 'to') as Landmark];
    const onThumb = name === 'thumb';
    const length = `limb.${n}.length`;
    const lengthSign = String.fromCharCode(97 + lengths++);
    marks.push({ sign: lengthSign, at: { landmark: from, offset: 0 }, to, onThumb, field: length });
    const own = template?.segments[n]?.name === name ? template.segments[n] : undefined;
    const stations = listAt(segment, 'stations').map((station, k) => {
      const path = `limb.${n}.stations.${k}`;
      const landmark = textAt(station, 'landmark') as Landmark;
      const spot = own?.girths[k];
      const fixed = spot !== undefined && 'offset' in spot && spot.landmark === landmark;
      const offset = heldOf(get(station, 'offset'));
      const span = heldOf(get(segment, 'length')) ?? 0;
      const sign = String(++girths);
      // A place part of the way is drawn part of the way, whatever the limb's own length.
      const usual = spot && 'share' in spot ? spot.share : 0.5;
      const told = span > 0 && offset !== undefined ? (landmark === to ? 1 : 0) + offset / span : usual;
      marks.push({
        sign,
        at: fixed ? { landmark, offset: offset ?? 0 } : { landmark: from, offset: 0 },
        ...(fixed ? {} : { to, share: told }),
        onThumb,
        field: `${path}.girth`,
      });
      return { path, landmark, offset, fixed, sign };
    });
    return { n, name, from, to, length, lengthSign, stations };
  });
  return { segments, marks, write };
}

export function limbStep(page: Page): HTMLElement {
  const { order } = page.state();
  const ask = askerFor(page, 1);
  const type = typeOf(order);
  if (!type || listAt(order, 'limb').length === 0)
    return section(
      1,
      'Limb',
      'What is measured depends on what is ordered and in which material: choose those first.',
    );
  const { segments, marks, write } = measured(page);
  const drawing = h(
    'div',
    { class: 'limb-figure' },
    drawn(limbDrawing(type, textAt(order, 'side') === 'left' ? 'left' : 'right', marks)),
  );
  drawing.setAttribute('aria-hidden', 'true');
  const parts = segments.map(({ n, name, from, to, length, lengthSign, stations }) => {
    const girths = stations.map(({ path, landmark, offset, fixed, sign }) => {
      const taken = fixed ? `Girth ${placed(landmark, offset ?? 0, write)}` : `Girth at place ${sign}`;
      const girth = ask.number(`${path}.girth`, taken, 'length', { sign, of: `${capital(name)}, ${sign}` });
      if (fixed) return girth;
      return h(
        'div',
        { class: 'two' },
        ask.number(`${path}.offset`, `Place ${sign}: from the ${landmark}`, 'length', { of: capital(name) }),
        girth,
      );
    });
    const add = h(
      'button',
      { type: 'button', class: 'plain small-button', 'data-path': `add-girth-${n}` },
      'Add a girth',
    );
    on(add, 'click', () =>
      page.rebuild(
        `limb.${n}.stations.${stations.length}`,
        { landmark: from },
        `limb.${n}.stations.${stations.length}.offset`,
      ),
    );
    const last = stations.at(-1);
    const remove =
      last && !last.fixed && stations.length > 1
        ? h('button', { type: 'button', class: 'plain small-button' }, 'Take the last away')
        : undefined;
    if (remove) on(remove, 'click', () => page.rebuild(last?.path ?? '', undefined, `add-girth-${n}`));
    return h(
      'fieldset',
      { class: 'group' },
      h('legend', {}, `${capital(name)}: ${from} to ${to}`),
      ask.number(length, `Length of the ${name}`, 'length', { sign: lengthSign }),
      ...girths,
      ask.part(`limb.${n}`, capital(name), add),
      h('div', { class: 'buttons' }, add, remove),
    );
  });
  return section(
    1,
    'Limb',
    'Measured with a tape. Nothing is filled in for you; the signs on the drawing are those at the fields.',
    drawing,
    ...parts,
    get(order, 'slab') !== undefined &&
      h(
        'fieldset',
        { class: 'group' },
        h('legend', {}, 'The slab'),
        ask.number('slab.path', 'Length along the way it will lie', 'length', { hint: capital(type.path) }),
        ask.part('slab', 'Slab', h('span')),
      ),
  );
}

const span = (published: readonly { readonly value: readonly [number, number] }[], write: Writer): string =>
  unique(
    published.map(({ value: [a, b] }) =>
      a === b ? write.width(a) : `${write.width(a)} to ${write.width(b)}`,
    ),
  ).join(', ');

export function materialsStep(page: Page): HTMLElement {
  const { order, units } = page.state();
  const ask = askerFor(page, 2);
  const type = typeOf(order);
  const write = writer(units);
  if (!type || get(order, 'wraps') === undefined)
    return section(2, 'Materials', 'Which rolls are needed depends on what is ordered: choose that first.');
  const rolls = listAt(order, 'stock').map((roll, n) => {
    const material = textAt(roll, 'material');
    const widths =
      material === 'padding' ? type.padding.widths : /plaster|glass/.test(material) ? type.widths : [];
    const remove = h(
      'button',
      { type: 'button', class: 'plain small-button', 'aria-label': `Take away: ${material}, roll ${n + 1}` },
      'Take away',
    );
    on(remove, 'click', () => page.rebuild(`stock.${n}`, undefined, 'add-roll'));
    return h(
      'fieldset',
      { class: 'group roll' },
      h('legend', {}, capital(material)),
      h(
        'div',
        { class: 'three' },
        ask.number(`stock.${n}.width`, 'Width', 'width', { of: capital(material) }),
        ask.number(`stock.${n}.length`, 'On a roll', 'roll', { of: capital(material) }),
        ask.number(`stock.${n}.onHand`, 'Rolls', 'count', { of: capital(material) }),
      ),
      widths.length > 0
        ? h('p', { class: 'hint' }, `Widths published for this: ${span(widths, write)}.`)
        : undefined,
      ask.part(`stock.${n}`, capital(material), remove),
      h('div', { class: 'buttons' }, remove),
    );
  });
  const kinds = ['plaster', 'fibreglass', 'prefabricated slab', 'padding', 'stockinette', 'elastic'];
  const kind = h(
    'select',
    { 'aria-label': 'Material of the roll to add', 'data-path': 'add-roll' },
    kinds.map((one) => h('option', { value: one }, capital(one))),
  );
  const add = h('button', { type: 'button', class: 'plain' }, 'Add a roll');
  on(add, 'click', () => {
    const n = listAt(page.state().order, 'stock').length;
    page.rebuild(`stock.${n}`, { material: kind.value }, `stock.${n}.width`);
  });
  return section(
    2,
    'Materials',
    'What is on the trolley. A roll left without length and number counts as not there.',
    ...rolls,
    h('div', { class: 'add' }, kind, add),
    h(
      'fieldset',
      { class: 'group' },
      h('legend', {}, 'Water and room'),
      h(
        'div',
        { class: 'two' },
        ask.number('dip', 'Dip water', 'temperature'),
        ask.number('room', 'Room', 'temperature'),
      ),
    ),
    h(
      'details',
      {},
      h('summary', {}, 'What lies over or under it while it sets (optional)'),
      ask.choice('cover', 'While it sets', [
        ['bare', 'Bare'],
        ['elastic', 'Elastic wrap'],
        ['blanket', 'Blanket'],
        ['pillow', 'On a pillow'],
      ]),
    ),
  );
}

type Numbered = 'width' | 'beyond' | 'overlap' | 'passes' | 'startTurns' | 'endTurns' | 'extra' | 'stretch';

const names: Readonly<Record<Numbered, string>> = {
  width: 'Width',
  beyond: 'Past each end',
  overlap: 'Overlap',
  passes: 'Passes',
  startTurns: 'Turns at the start',
  endTurns: 'Turns at the end',
  extra: 'Extra turns',
  stretch: 'Stretch',
};

/** Where the starting points of a wrap are from. */
function bases(wrap: WrapTemplate, write: Writer, cite: Page['cite']): HTMLElement {
  const told = (key: Numbered, value: unknown): string => {
    if (key === 'extra')
      return Array.isArray(value) && value.length === 0
        ? 'none'
        : `${(value as { turns: number }[])[0]?.turns}`;
    const n = value as number;
    if (key === 'width') return write.width(n);
    if (key === 'beyond') return write.length(n);
    return key === 'overlap' || key === 'stretch' ? percent(n) : digits(n);
  };
  const rows = (Object.keys(names) as Numbered[]).map((key) => {
    const { used, because, published } = wrap[key] as Choice<unknown, unknown>;
    const cited = unique(published.map((p) => p.source)).slice(0, 4);
    const links = cited.flatMap((source, n) => [n === 0 ? ' (' : ', ', cite(source)]);
    return h('li', {}, `${names[key]} ${told(key, used)}: ${because}`, links, links.length > 0 ? ').' : '.');
  });
  return h(
    'details',
    {},
    h('summary', {}, 'Where these numbers are from'),
    h('ul', { class: 'bases' }, rows),
  );
}

/** Figures of eight of a wrap, and a button for each joint that it crosses without one. */
function eightsOf(page: Page, ask: Asker, path: string, wrap: string): readonly HTMLElement[] {
  const { order, units } = page.state();
  const write = writer(units);
  const all = `${path}.eights`;
  const eights = listAt(order, all);
  const groups = eights.map((eight, n) => {
    const at = `${all}.${n}`;
    const joint = textAt(eight, 'landmark');
    const where = placed(joint, heldOf(get(eight, 'offset')) ?? 0, write);
    const of = `${wrap}, figures of eight ${where}`;
    const rise = (side: string) =>
      ask.number(`${at}.rise${side}`, `Rise at the back, ${side.toLowerCase()}`, 'length', { of });
    const remove = h(
      'button',
      { type: 'button', class: 'plain small-button', 'aria-label': `Take away: figures of eight ${where}` },
      'Take away',
    );
    const left = eights.filter((_, k) => k !== n);
    on(remove, 'click', () => page.rebuild(all, left.length > 0 ? left : undefined, `${all}-${joint}`));
    return h(
      'fieldset',
      { class: 'group' },
      h('legend', {}, `Figures of eight ${where}`),
      h('p', { class: 'hint' }, 'Rise: how far from the crossing the bandage lies at the back of the limb.'),
      ask.number(`${at}.figures`, 'Figures', 'count', { of }),
      h('div', { class: 'two' }, rise('Distal'), rise('Proximal')),
      ask.part(at, of, remove),
      h('div', { class: 'buttons' }, remove),
    );
  });
  const over = listAt(order, `${path}.over`);
  const joints = listAt(order, 'limb')
    .filter((segment) => over.includes(get(segment, 'name') as string))
    .slice(1)
    .map((segment) => textAt(segment, 'from'))
    .filter((joint) => !eights.some((eight) => get(eight, 'landmark') === joint));
  const buttons = joints.map((joint) => {
    const add = h(
      'button',
      { type: 'button', class: 'plain small-button', 'data-path': `${all}-${joint}` },
      `Add figures of eight at the ${joint}`,
    );
    const begun = { landmark: joint, offset: { value: 0, unit: units === 'cm' ? 'cm' : '[in_i]' } };
    return on(add, 'click', () => page.rebuild(all, [...eights, begun], `${all}.${eights.length}.figures`));
  });
  return [...groups, ...(buttons.length > 0 ? [h('div', { class: 'buttons' }, buttons)] : [])];
}

export function techniqueStep(page: Page): HTMLElement {
  const { order, units, confirmed } = page.state();
  const ask = askerFor(page, 3);
  const write = writer(units);
  const template = templateOf(order);
  if (!template || get(order, 'wraps') === undefined)
    return section(3, 'Technique', 'How it is wrapped depends on what is ordered: choose that first.');
  const wraps = listAt(order, 'wraps').map((wrap, n) => {
    const layer = textAt(wrap, 'layer');
    const over = listAt(wrap, 'over').join(' and ');
    const path = `wraps.${n}`;
    const own = template.wraps[n];
    const extra = listAt(wrap, 'extra').map((one, k) =>
      ask.number(`${path}.extra.${k}.turns`, `Extra turns at the ${textAt(one, 'landmark')}`, 'count'),
    );
    const name = `${capital(layer)}, ${over}`;
    const summary = h('summary', {}, '');
    const say = (): void => {
      const now = page.state().order;
      const width = heldOf(get(now, `${path}.width`));
      const share = heldOf(get(now, `${path}.overlap`));
      const turns = [get(now, `${path}.startTurns`), get(now, `${path}.endTurns`)] as [number, number];
      const passes = get(now, `${path}.passes`);
      summary.replaceChildren(
        h('strong', {}, name),
        h(
          'span',
          { class: 'hint' },
          `${width === undefined ? 'width missing' : `${write.width(width)} wide`}, ${
            share === undefined ? 'overlap missing' : `${percent(share)} over`
          }, ${passes ?? 'no'} ${passes === 1 ? 'pass' : 'passes'}, ${range(turns)} ${turns[0] === 1 && turns[1] === 1 ? 'turn' : 'turns'} at the ends${listAt(now, `${path}.eights`).length > 0 ? ', and figures of eight' : ''}`,
        ),
      );
    };
    say();
    const fault = ask.part(path, name, summary, say);
    const card = h(
      'details',
      { class: 'wrap' },
      summary,
      h(
        'div',
        { class: 'two' },
        ask.number(`${path}.width`, 'Width', 'width'),
        ask.number(`${path}.overlap`, 'Overlap', 'percent'),
        ask.number(`${path}.passes`, 'Passes, up or down', 'count'),
        ask.number(`${path}.beyond`, 'Past each end (negative: short of it)', 'length'),
        ask.number(`${path}.startTurns`, 'Turns at the start', 'count'),
        ask.number(`${path}.endTurns`, 'Turns at the end', 'count'),
        ...extra,
        layer !== 'padding' && ask.number(`${path}.stretch`, 'Stretch as it is laid', 'percent'),
      ),
      ...eightsOf(page, ask, path, name),
      own ? bases(own, write, page.cite) : undefined,
    );
    return h('div', {}, card, fault);
  });
  const tubes = listAt(order, 'stockinette').map((tube, n) => {
    const what = textAt(tube, 'what');
    const of = `Stockinette, ${what}`;
    return h(
      'fieldset',
      { class: 'group' },
      h('legend', {}, of),
      h(
        'div',
        { class: 'two' },
        ask.number(`stockinette.${n}.width`, 'Width of the tube, flat', 'width', { of }),
        ask.number(`stockinette.${n}.path`, 'Length along the limb', 'length', { of }),
      ),
      ask.pick(
        `stockinette.${n}.rule`,
        'Cut',
        Object.keys(stockinetteRules),
        'Sources disagree; each rule is one of theirs.',
      ),
    );
  });
  const box = h('input', { type: 'checkbox', id: 'confirmed', 'data-path': 'confirmed' });
  box.checked = confirmed;
  box.addEventListener('change', () => page.confirm(box.checked));
  const fault = h('p', { class: 'fault' });
  page.register({
    path: 'confirmed',
    label: 'Confirm the starting points',
    step: 3,
    focus: box,
    fault,
    refresh: () => {
      box.checked = page.state().confirmed;
    },
  });
  const slab = get(order, 'slab') !== undefined;
  return section(
    3,
    'Technique',
    'Starting points from the literature, not advice. Open one to change it; the order and local protocol come first.',
    slab &&
      h(
        'fieldset',
        { class: 'group' },
        h('legend', {}, 'The slab'),
        ask.pick('slab.finish', 'Its edges', Object.keys(finishes)),
        get(order, 'slab.made') === 'layered' &&
          h(
            'div',
            { class: 'two' },
            ask.number('slab.plies', 'Plies, if ordered', 'count'),
            ask.number('slab.width', 'Width, if ordered', 'width'),
          ),
      ),
    ...wraps,
    ...tubes,
    h(
      'div',
      { class: 'confirm' },
      h(
        'label',
        { class: 'option' },
        box,
        h('span', {}, 'I have looked at these starting points and will work by them'),
      ),
      fault,
    ),
  );
}
