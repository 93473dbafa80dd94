import {
  type Answer,
  type Caution,
  type Choice,
  type layerMap,
  noTrigger,
  type Plan,
  type Published,
  type WrapPlan,
} from 'swathe';
import { layerMapFigure } from '../figures/layer-map.ts';
import type { In } from '../figures/svg.ts';
import { prefer, shown } from '../library/show.ts';
import { bandFigure } from './band-figure.ts';
import { drawn, h } from './dom.ts';
import { limbDrawing } from './limb-drawing.ts';
import { digits, durations, percent, placed, range, unique, type Writer } from './write.ts';

type Content = Parameters<typeof h>[2];
type Cite = (source: string | undefined) => Node;

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const wrapName = ({ layer, over }: WrapPlan): string => `${layer}, ${over.join(' and ')}`;

/** An answer's record tells its inputs as JSON does; a drawing takes them as they are held. */
export function held(told: unknown): unknown {
  if (Array.isArray(told)) return told.map(held);
  if (typeof told !== 'object' || told === null) return told;
  if ('value' in told && 'unit' in told) return told.value;
  return Object.fromEntries(Object.entries(told).map(([key, x]) => [key, held(x)]));
}

const part = (of: string, title: string, ...children: Content[]) =>
  h('section', { class: `part part-${of}` }, h('h3', {}, title), ...children.flat());

const lines = (all: readonly Content[], of = '') =>
  h('ul', { class: of || undefined }, ...all.map((one) => h('li', {}, ...[one].flat())));

function table(heads: readonly string[], rows: readonly (readonly Content[])[]) {
  return h(
    'div',
    { class: 'scroll' },
    h(
      'table',
      {},
      h('thead', {}, h('tr', {}, ...heads.map((head) => h('th', { scope: 'col' }, head)))),
      h(
        'tbody',
        {},
        ...rows.map((row) =>
          h(
            'tr',
            {},
            ...row.map((cell, n) =>
              n === 0 ? h('th', { scope: 'row' }, ...[cell].flat()) : h('td', {}, ...[cell].flat()),
            ),
          ),
        ),
      ),
    ),
  );
}

function cited(ids: readonly (string | undefined)[], cite: Cite, most = 3): Content[] {
  const all = unique(ids);
  if (all.length === 0) return [];
  const named = all.slice(0, most).flatMap((id, n) => (n === 0 ? [cite(id)] : ['; ', cite(id)]));
  const more = all.length > most ? ` and ${all.length - most} more` : '';
  return [h('span', { class: 'cites' }, ...named, more)];
}

/** What it is, how the limb is held, what stays free. */
function position({ order, type }: Plan, write: Writer) {
  const { from, to } = order.covers;
  const joints = Object.entries(type.joints).map(([joint, { used }]) => `${joint} ${range(used)}°`);
  return part(
    'position',
    'Position',
    h(
      'div',
      { class: 'pictured' },
      drawn(limbDrawing(type, order.side)),
      h(
        'dl',
        {},
        h('dt', {}, 'From'),
        h('dd', {}, placed(from.landmark, from.offset, write)),
        h('dt', {}, 'To'),
        h('dd', {}, placed(to.landmark, to.offset, write)),
        h('dt', {}, 'Way'),
        h('dd', {}, type.path),
        h('dt', {}, 'Held'),
        h('dd', {}, [...joints, ...unique(type.posture.map((p) => p.value))].join('; ') || 'as ordered'),
        h('dt', {}, 'Free'),
        h('dd', {}, unique(type.free.map((f) => f.value)).join('; ') || 'nothing read for this type'),
      ),
    ),
  );
}

function cuts({ slab, stockinette, wraps }: Plan, write: Writer, cite: Cite) {
  const named = (name: string, ...rule: Content[]): Content =>
    [name, h('span', { class: 'rule' }, ...rule.flat())] as Content;
  const ruled = (rule: Plan['stockinette'][number]['rule']): Content[] => [
    `${rule.name} `,
    ...cited(
      rule.published.map((p) => p.source),
      cite,
      2,
    ),
  ];
  const tubes = stockinette.map(({ what, width, cut, rule }): Content[] => [
    named(`Stockinette, ${what}`, ...ruled(rule)),
    '1',
    write.width(width),
    write.length(cut.value),
  ]);
  const plies: Content[][] = slab
    ? [
        [
          named(slab.made === 'layered' ? 'Slab, plies' : 'Slab', ...ruled(slab.rule)),
          digits(slab.plies.used),
          write.width(slab.width.used),
          write.length(slab.cut.value),
        ],
      ]
    : [];
  const wound = wraps.map((wrap): Content[] => {
    const eights = wrap.eights.length > 0 ? ', and figures of eight' : '';
    return [
      named(
        capital(wrapName(wrap)),
        `${digits(Number(wrap.map.value.turns.toFixed(1)))} turns off the roll${eights}`,
      ),
      'wrap',
      write.width(wrap.width),
      write.length(wrap.offRoll),
    ];
  });
  return part('cut', 'Cut', table(['What', 'Pieces', 'Width', 'Length'], [...tubes, ...plies, ...wound]));
}

function rolls({ takeOff }: Plan, write: Writer) {
  const { lines: all, left } = takeOff.value;
  const rows = all.map((line): Content[] => {
    if (line.kind === 'cannot') {
      const tell = line.reason === 'no such width' ? write.width : write.length;
      const there = line.available > 0 ? `, there is ${tell(line.available)}` : '';
      return [
        capital(line.what),
        h('strong', {}, 'cannot'),
        `${line.reason}: wanted ${tell(line.wanted)}${there}`,
      ];
    }
    const opened = line.opened.map((o) => `${o.rolls} × ${write.length(o.length)}`).join(' + ') || 'none';
    const open = line.fromOpen > 0 ? `, ${write.length(line.fromOpen)} from a roll already open` : '';
    return [capital(line.what), opened, `${write.width(line.width)} wide${open}`];
  });
  const rest = new Map<string, string[]>();
  for (const o of left) {
    const roll = `${o.material} ${write.width(o.width)}`;
    rest.set(roll, [...(rest.get(roll) ?? []), o.left > 0 ? write.length(o.left) : 'used up']);
  }
  const told = [...rest].map(([roll, lengths]) => `${roll}: ${lengths.join(', ')}`).join('; ');
  return part(
    'rolls',
    'Rolls to open',
    table(['For', 'Open', 'Rolls'], rows),
    told ? h('p', { class: 'hint' }, `Left on the rolls: ${told}.`) : '',
  );
}

function layer(wrap: WrapPlan, write: Writer) {
  const { map, wanted, thick } = wrap;
  const start = map.value.bands[0]?.from ?? 0;
  const zone = (z: { from: number; to: number }): string => write.lengths([z.from - start, z.to - start]);
  const figure = layerMapFigure(held(map.from) as In<typeof layerMap>, map.value);
  const svg = drawn(figure.svg);
  const name = capital(wrapName(wrap));
  svg.setAttribute('aria-label', `${name}: layers along the limb, from the distal end`);
  return h(
    'figure',
    { class: 'drawing' },
    h(
      'figcaption',
      {},
      h('strong', {}, name),
      ` from ${placed(wrap.from.landmark, wrap.from.offset, write).replace(/^at /, '')} to ${placed(wrap.to.landmark, wrap.to.offset, write).replace(/^at /, '')}. Wanted ${range(wanted.used)}, there are ${range([map.value.least, map.value.most])}.`,
      ...map.value.thin.map((z) =>
        h(
          'span',
          { class: 'zone thin' },
          ` Thin at ${zone(z)}: ${z.least} where ${wanted.used[0]} are wanted.`,
        ),
      ),
      ...thick.map((z) =>
        h(
          'span',
          { class: 'zone' },
          ` ${z.ordered ? 'Extra turns, as ordered,' : 'Thick'} at ${zone(z)}: up to ${z.most}.`,
        ),
      ),
    ),
    svg,
    h('details', {}, h('summary', {}, 'The same in words'), h('p', {}, figure.words)),
  );
}

const stages = {
  dip: 'Dip',
  work: 'Work it',
  set: 'Hold until set',
  firm: 'Firm',
  load: 'Load or weight',
} as const;

function water({ water: dip, timeline, order }: Plan, write: Writer, cite: Cite, clock: Node) {
  const { least, most, place } = dip.value;
  const from = dip.value.published.map((name) => dip.constants[name]?.source);
  const rows = timeline.value.map((w): Content[] => {
    if (w.kind === 'unstated') return [stages[w.stage], w.because, ''];
    const sources = w.published.map(({ constant }) => timeline.constants[constant]?.source);
    return [stages[w.stage], durations([w.least, w.most]), cited(sources, cite) as Content];
  });
  const each = timeline.value.flatMap((w) =>
    w.kind === 'unstated'
      ? []
      : w.published.map(({ constant, least: a, most: b }) => {
          const row = timeline.constants[constant];
          return h('li', {}, `${stages[w.stage]}: ${durations([a, b])}, `, cite(row?.source));
        }),
  );
  return part(
    'time',
    'Water and time',
    h(
      'p',
      {},
      `Water at ${write.temperature(order.dip)}, ${place} the ${write.temperatures([least, most])} published. Room at ${write.temperature(order.room)}. `,
      ...cited(from, cite, 2),
    ),
    clock,
    table(['From dipping', 'Published window', 'Sources'], rows),
    h('details', {}, h('summary', {}, 'Every published window'), h('ul', {}, ...each)),
  );
}

function heat({ heat: of }: Plan, write: Writer) {
  const { class: is, bound } = of.caution.value;
  const verdict = h('p', { class: 'class' }, 'Caution class: ', h('strong', {}, is), '.');
  if (!of.band) {
    const most =
      bound.kind === 'no heat lost'
        ? ` If it lost no heat at all it would reach ${write.temperature(bound.temperature)}.`
        : '';
    return part(
      'heat',
      'Heat of setting',
      verdict,
      h('p', {}, `No temperature is computed for ${of.without}.${most}`),
    );
  }
  const { interface: under, skin } = of.band.value;
  const peak = ({ peak: p }: typeof under): string => write.temperatures([p.least, p.most]);
  const rows = of.lower.map((l): Content[] => [
    capital(l.change),
    write.temperatures([...l.interface] as [number, number]),
    write.temperatures([...l.skin] as [number, number]),
    l.caution.value.class,
  ]);
  return part(
    'heat',
    'Heat of setting',
    verdict,
    table(
      ['Hottest', 'Under the plaster', 'On the skin', 'Class'],
      [['As planned', peak(under), peak(skin), is], ...rows],
    ),
    h(
      'p',
      { class: 'hint' },
      `Nine in ten computed courses peak within these, ${durations([
        Math.round(under.at.least / 60) * 60,
        Math.round(under.at.most / 60) * 60,
      ])} after laying on. The hottest published casts came out up to 8 K hotter than computed. No time to a burn is given.`,
    ),
    h('figure', { class: 'drawing band-figure' }, drawn(bandFigure(of.band.value.curve, write.units))),
  );
}

function caution({ level, says, because, sources }: Caution, cite: Cite) {
  return h(
    'li',
    { class: level },
    h('strong', {}, level === 'warning' ? 'Warning. ' : 'Good to know. '),
    says,
    h(
      'span',
      { class: 'because' },
      ` ${capital(because)}. `,
      ...(sources.length > 0 ? cited(sources, cite, 2) : ['Common practice.']),
    ),
  );
}

const kinds = [
  ['before', 'Before'],
  ['whileSetting', 'While it sets'],
  ['after', 'After'],
  ['call', 'Call the treating clinician at once for'],
  ['tell', 'Tell the person'],
] as const;

function checks({ checks: all }: Plan, cite: Cite) {
  return part(
    'checks',
    'Check',
    h(
      'div',
      { class: 'kinds' },
      ...kinds.map(([key, title]) =>
        h(
          'div',
          {},
          h('h4', {}, title),
          h(
            'ul',
            { class: 'ticks' },
            ...unique(all[key].map((c) => c.value)).map((value) => h('li', {}, value)),
          ),
        ),
      ),
    ),
    h(
      'details',
      {},
      h('summary', {}, 'Where the checks are from'),
      h(
        'ul',
        {},
        ...kinds.flatMap(([key]) => all[key].map((c) => h('li', {}, `${c.value}: `, cite(c.source)))),
      ),
    ),
  );
}

function usual({ expected }: Plan, write: Writer) {
  const told = expected.flatMap(({ landmark, girth, measure, answer: { value } }) => {
    if (value.kind === 'unsurveyed') return [];
    const stands = value.among.map(({ who, percentile = 0 }) => `${percent(percentile)} of ${who}`);
    return [
      `${capital(measure)}, ${write.length(girth)} at the ${landmark}: more than in ${stands.join(', ')}; nine of ten have ${write.lengths([value.least, value.most])}, by ${value.model}.`,
    ];
  });
  return told.length > 0 ? part('usual', 'Beside what is usual', lines(told)) : undefined;
}

function chosen({ slab, wraps }: Plan, write: Writer, cite: Cite) {
  const choice = <U, P>(what: string, c: Choice<U, P>, told: (value: P) => string) => {
    const published = c.published.map((p: Published<P>, n) =>
      h('span', {}, n === 0 ? '' : '; ', `${told(p.value)} `, cite(p.source)),
    );
    return h(
      'li',
      {},
      `${what}: ${c.because}. Published: `,
      ...(published.length > 0 ? published : ['nothing']),
      '.',
    );
  };
  const shares = ([a, b]: readonly [number, number]): string =>
    a === b ? percent(a) : `${percent(a)} to ${percent(b)}`;
  const share = slab?.share.value;
  return h(
    'details',
    { class: 'chosen' },
    h('summary', {}, 'What was chosen, and where sources disagree'),
    h(
      'ul',
      {},
      slab && slab.made === 'layered' ? choice(`Plies ${slab.plies.used}`, slab.plies, range) : '',
      slab && share
        ? choice(
            `Slab width ${write.width(slab.width.used)}, ${percent(share.mean)} of the mean girth and ${percent(share.atNarrowest)} where it is thinnest`,
            slab.width,
            shares,
          )
        : '',
      ...wraps
        .filter((w, n) => wraps.findIndex((other) => other.layer === w.layer) === n)
        .map((w) => choice(`Layers of ${w.layer} ${range(w.wanted.used)}`, w.wanted, range)),
    ),
  );
}

/** Every answer in the plan, with what it is of. */
function answersOf(plan: Plan): readonly (readonly [string, Answer])[] {
  const { slab, stockinette, wraps, takeOff, water: dip, timeline, heat: of } = plan;
  return [
    ...(slab
      ? ([
          ['Length of the slab', slab.cut],
          ['Share of the girth', slab.share],
        ] as const)
      : []),
    ...stockinette.map((tube) => [`Length of stockinette, ${tube.what}`, tube.cut] as const),
    ...wraps.flatMap((w) => [
      [`Layers of ${wrapName(w)}`, w.map] as const,
      ...w.eights.map((eight) => [`Figures of eight, ${wrapName(w)}`, eight] as const),
      ...(w.builtUp ? [[`Thickness of ${wrapName(w)}`, w.builtUp] as const] : []),
      ...(w.pressure ? [[`Pressure under ${wrapName(w)}`, w.pressure] as const] : []),
    ]),
    ['Rolls', takeOff],
    ['Water', dip],
    ['Times', timeline],
    ['Heat of setting', of.caution],
    ...(of.band ? [['Temperatures', of.band] as const] : []),
    ...plan.expected.map((e) => [`Usual ${e.measure}`, e.answer] as const),
  ];
}

function basis(plan: Plan, base: string) {
  const rows = answersOf(plan).map(([what, { by, steps }]) => {
    const [id] = by.split('@');
    return h(
      'li',
      {},
      `${what}: `,
      h('a', { href: `${base}f/${id}/` }, by),
      steps.length > 0
        ? h('ul', {}, ...steps.map(({ says, value, unit }) => h('li', {}, `${says}: ${shown(value, unit)}`)))
        : '',
    );
  });
  return h(
    'details',
    { class: 'basis' },
    h('summary', {}, 'Basis: each number’s formula, and the steps on the way'),
    h('ul', {}, ...rows),
  );
}

/** The plan as a technologist works from it, top to bottom. */
export function sheet(plan: Plan, write: Writer, cite: Cite, base: string, clock: Node): HTMLElement {
  prefer(write.units === 'in' ? { length: 'in', temperature: 'F' } : {});
  const { order, type } = plan;
  const cautions =
    plan.cautions.length === 0
      ? h('p', {}, noTrigger)
      : h('ul', { class: 'cautions' }, ...plan.cautions.map((one) => caution(one, cite)));
  return h(
    'div',
    { class: 'plan-sheet' },
    h(
      'p',
      { class: 'what' },
      h('strong', {}, type.name),
      ` ${order.side}, ${order.person.ageBand}, ${order.material}`,
      order.person.reducedSensation ? ', feels less or cannot say' : '',
    ),
    h('p', { class: 'defers-print' }, plan.defers),
    h(
      'div',
      { class: 'flow' },
      part('warnings', 'Cautions', cautions),
      position(plan, write),
      cuts(plan, write, cite),
      rolls(plan, write),
      part('maps', 'Layers', h('div', { class: 'figures' }, ...plan.wraps.map((w) => layer(w, write)))),
      water(plan, write, cite, clock),
      heat(plan, write),
      usual(plan, write),
    ),
    checks(plan, cite),
    chosen(plan, write, cite),
    basis(plan, base),
  );
}
