import { type Choice, noTrigger, type Plan, type Published, type Span, type WrapPlan } from 'swathe';
import { bold, columns, faint, list, type Writer, warn, wrapped } from './write.ts';

type Place = WrapPlan['from'];
type Sourced = Pick<Published<unknown>, 'source'>;

const unique = <T>(things: readonly T[]): T[] => [...new Set(things)];

function sources(published: readonly Sourced[], most = 2): string {
  const ids = unique(published.map(({ source }) => source ?? 'common practice'));
  const more = ids.length > most ? ` and ${ids.length - most} more` : '';
  return `[${ids.slice(0, most).join(', ')}${more}]`;
}

const range = ([least, most]: Span): string => (least === most ? `${least}` : `${least}–${most}`);
const percent = (share: number): string => `${(share * 100).toFixed(0)} %`;
const wrapName = ({ layer, over }: WrapPlan): string => `${layer}, ${over.join(' and ')}`;

function placed({ landmark, offset }: Place, write: Writer): string {
  if (offset === 0) return `the ${landmark}`;
  return `${write.length(Math.abs(offset))} ${offset > 0 ? 'proximal' : 'distal'} to the ${landmark}`;
}

function position({ order, type }: Plan, write: Writer): string[] {
  const joints = Object.entries(type.joints).map(([joint, { used }]) => `${joint} ${range(used)}°`);
  return [
    `from ${placed(order.covers.from, write)} to ${placed(order.covers.to, write)}, ${type.path}`,
    [...joints, ...unique(type.posture.map((p) => p.value))].join('; '),
    `free: ${unique(type.free.map((f) => f.value)).join('; ')}`,
  ];
}

/** Girths beside what is usual for such a person, where a survey knows them. */
function usual({ expected }: Plan, write: Writer): string[] {
  return expected.flatMap(({ landmark, girth, measure, answer: { value } }) => {
    if (value.kind === 'unsurveyed') return [];
    const stands = value.among.map(({ who, percentile = 0 }) => `${percent(percentile)} of ${who}`);
    const limits = write.lengths([value.least, value.most]);
    return [
      `${measure}, ${write.length(girth)} at the ${landmark}: more than in ${stands.join(', ')}; nine of ten have ${limits}, by ${value.model}`,
    ];
  });
}

function grouped<T>(things: readonly T[], by: (thing: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const thing of things) groups.set(by(thing), [...(groups.get(by(thing)) ?? []), thing]);
  return groups;
}

type Line = Plan['takeOff']['value']['lines'][number];

/** The rolls that a line opens, or why it cannot be had. */
function rollsOf(line: Line, write: Writer): string {
  if (line.kind === 'cannot') {
    const lengths = `wanted ${write.length(line.wanted)}, there is ${write.length(line.available)}`;
    return warn(`cannot, ${line.reason}: ${lengths}`);
  }
  const opened = line.opened.map((o) => `${o.rolls} × ${write.length(o.length)}`);
  const open = line.fromOpen > 0 ? [`${write.length(line.fromOpen)} from a roll already open`] : [];
  return [...opened, ...open].join(' + ');
}

function cuts({ slab, stockinette, wraps, takeOff }: Plan, write: Writer): string[] {
  const pieces = [
    ...stockinette.map(({ what, width, cut, rule }) => ({
      what: `stockinette, ${what}`,
      pieces: '1',
      size: [width, cut.value],
      rule: `${rule.name} ${sources(rule.published)}`,
    })),
    ...(slab
      ? [
          {
            what: slab.made === 'layered' ? 'slab, plies' : 'slab',
            pieces: String(slab.plies.used),
            size: [slab.width.used, slab.cut.value],
            rule: `${slab.rule.name} ${sources(slab.rule.published)}`,
          },
        ]
      : []),
    ...wraps.map((wrap) => ({
      what: wrapName(wrap),
      pieces: `${wrap.map.value.turns.toFixed(1)} turns`,
      size: [wrap.width, wrap.offRoll],
      rule: '',
    })),
  ];
  const { lines, left } = takeOff.value;
  const rows = pieces.map(({ what, pieces, size }, n) => [
    what,
    pieces,
    ...size.map((length) => write.length(length)),
    rollsOf(lines[n] as Line, write),
  ]);
  const leftOver = grouped(left, ({ material, width }) => `${material} ${write.length(width)}`);
  const rest = [...leftOver].map(
    ([roll, of]) => `${roll}: ${of.map((o) => (o.left > 0 ? write.length(o.left) : 'used up')).join(', ')}`,
  );
  const rules = pieces.filter(({ rule }) => rule !== '').map(({ what, rule }) => `${what}: ${rule}`);
  return [
    ...columns([['what', 'pieces', 'width', 'length', 'rolls to open'], ...rows], [1]),
    faint(wrapped(`cut by: ${rules.join('; ')}`, 4)),
    faint(wrapped(`left on the rolls: ${rest.join('; ')}`, 4)),
  ];
}

/** The fewest layers, one figure a centimetre, distal end first. */
function strip({ map }: WrapPlan): string {
  const { bands } = map.value;
  const [from, to] = [bands[0]?.from ?? 0, bands.at(-1)?.to ?? 0];
  const centimetres = Array.from({ length: Math.floor((to - from) / 10) }, (_, n) => from + 10 * n + 5);
  const layers = centimetres.map((x) => bands.find((b) => x < b.to)?.least ?? 0);
  return layers.map((n) => (n > 9 ? '+' : String(n))).join('');
}

/** Marks every tenth centimetre. */
const ruler = (length: number): string =>
  Array.from({ length: Math.ceil(length / 10) }, (_, n) => String(n * 10).padEnd(10, '·'))
    .join('')
    .slice(0, length);

function layers(wrap: WrapPlan, write: Writer): string[] {
  const { map, wanted, thick } = wrap;
  const start = map.value.bands[0]?.from ?? 0;
  const zone = (z: { from: number; to: number }) => write.lengths([z.from - start, z.to - start]);
  return [
    `${wrapName(wrap)}: from ${placed(wrap.from, write)}, wanted ${range(wanted.used)}, there are ${range([map.value.least, map.value.most])}`,
    bold(`  ${strip(wrap)}`),
    faint(`  ${ruler(strip(wrap).length)}`),
    ...wrap.eights.map(
      ({ value, from }) =>
        `  and ${(from as { figures: number }).figures} figures of eight, ${write.length(value.length)}: up to ${value.mostAtCrossing} more where they cross`,
    ),
    ...map.value.thin.map((z) => warn(`  thin at ${zone(z)}: ${z.least} where ${wanted.used[0]} are wanted`)),
    ...thick.map(
      (z) => `  ${z.ordered ? 'extra turns, as ordered' : 'thick'} at ${zone(z)}: up to ${z.most}`,
    ),
  ];
}

const stages = {
  dip: 'dip',
  work: 'work it',
  set: 'hold until set',
  firm: 'firm',
  load: 'load or weight',
} as const;

function timeline({ water, timeline, order }: Plan, write: Writer): string[] {
  const { least, most, place } = water.value;
  const from = water.value.published.map((name) => water.constants[name] ?? {});
  return [
    `water ${write.temperature(order.dip)}: ${place} the ${write.temperature(least)} to ${write.temperature(most)} published ${sources(from)}`,
    ...columns(
      timeline.value.map((w) => {
        if (w.kind === 'unstated') return [stages[w.stage], '–', faint(w.because)];
        const of = w.published.map(({ constant }) => timeline.constants[constant] ?? {});
        return [stages[w.stage], write.duration([w.least, w.most]), faint(sources(of, 3))];
      }),
    ),
  ];
}

/** Heat of setting: the class, the peaks within which nine in ten courses lie, and what would lower them. */
function heat({ heat: { caution, band, without, lower } }: Plan, write: Writer): string[] {
  const { class: is, triggers } = caution.value;
  const led = new Set(triggers.filter(({ leads }) => leads !== 'information').map(({ code }) => code));
  const because = caution.cautions.filter(({ code }) => led.has(code)).map((c) => c.because);
  const stated = wrapped(because.length > 0 ? `${is} (${because.join('; ')})` : is, 4);
  const first = is === 'no trigger met' ? stated : warn(stated);
  if (!band) {
    const { bound } = caution.value;
    const most =
      bound.kind === 'no heat lost'
        ? `; with no heat lost at most ${write.temperature(Math.ceil(bound.temperature))}`
        : '';
    return [first, wrapped(`no temperature computed, ${without}${most}`, 4)];
  }
  const { interface: under, skin } = band.value;
  const span = ({ peak }: typeof under): string => write.temperatures([peak.least, peak.most]);
  const minutes = (seconds: number): string => (seconds / 60).toFixed(0);
  const changes = lower.map(
    (l) =>
      `${l.change} ${write.temperatures(l.interface)} and ${write.temperatures(l.skin)}, ${l.caution.value.class}`,
  );
  return [
    first,
    wrapped(
      `hottest under the plaster ${span(under)}, ${minutes(under.at.least)}–${minutes(under.at.most)} min after laying on; on the skin ${span(skin)}. Nine in ten computed courses lie there; the hottest published casts came out up to 8 K hotter than computed.`,
      4,
    ),
    wrapped(`instead: ${changes.join('; ')}`, 4),
  ];
}

function chosen({ slab, wraps }: Plan, write: Writer): string[] {
  const choice = <U, P>(what: string, c: Choice<U, P>, used: string, told: (value: P) => string): string => {
    const published = unique(c.published.map((p) => told(p.value))).join(', ');
    return `${what} ${used}: ${c.because}. Published: ${published || 'nothing'}.`;
  };
  const share = slab?.share.value;
  return [
    ...(slab && slab.made === 'layered' ? [choice('plies', slab.plies, `${slab.plies.used}`, range)] : []),
    ...(slab && share
      ? [
          choice(
            'slab width',
            slab.width,
            `${write.length(slab.width.used)} (${percent(share.mean)} of the mean girth, ${percent(share.atNarrowest)} where thinnest)`,
            ([a, b]) => (a === b ? percent(a) : `${percent(a)}–${percent(b)}`),
          ),
        ]
      : []),
    ...wraps
      .filter((w, n) => wraps.findIndex((other) => other.layer === w.layer) === n)
      .map((w) => choice(`layers of ${w.layer}`, w.wanted, range(w.wanted.used), range)),
  ];
}

const checks = [
  ['before', 'before'],
  ['whileSetting', 'while it sets'],
  ['after', 'after'],
  ['call', 'tell the treating clinician at once'],
  ['tell', 'tell the person'],
] as const;

/** The plan as a technologist works from it, top to bottom. */
export function printPlan(plan: Plan, about: string | undefined, write: Writer): string {
  const { order, type } = plan;
  const section = (title: string, lines: readonly string[]): string[] => [
    '',
    bold(title),
    ...lines.map((l) => `  ${l}`),
  ];
  const prose = (lines: readonly string[]): string[] =>
    lines.filter((l) => l !== '').map((l) => wrapped(l, 4));
  const expected = prose(usual(plan, write));
  return [
    bold([type.name, order.side, order.person.ageBand, order.material].join(' · ')),
    ...(about ? [faint(wrapped(about, 0))] : []),
    wrapped(plan.defers, 0),
    ...section('POSITION', prose(position(plan, write))),
    ...(expected.length > 0 ? section('EXPECTED', expected) : []),
    ...section('CUT AND OPEN', cuts(plan, write)),
    ...section(
      'LAYERS, the fewest round the limb, one figure a centimetre from the distal end',
      plan.wraps.flatMap((w) => layers(w, write)),
    ),
    ...section('WATER AND TIME, from dipping; ranges over all sources', timeline(plan, write)),
    ...section('HEAT OF SETTING', heat(plan, write)),
    ...section(
      'CAUTIONS',
      plan.cautions.length === 0
        ? [noTrigger]
        : plan.cautions.map((c) => {
            const text = wrapped(
              `${c.level === 'warning' ? '!' : 'i'} ${c.says} (${c.because}) ${list(c.sources)}`,
              4,
            );
            return c.level === 'warning' ? warn(text) : text;
          }),
    ),
    ...section(
      'CHECK',
      prose(
        checks.map(([key, title]) => `${title}: ${unique(plan.checks[key].map((c) => c.value)).join('; ')}`),
      ),
    ),
    ...section('CHOSEN', prose(chosen(plan, write))),
    '',
    faint('Each number with its steps, limits and sources: add --json. Source ids: references/sources.json.'),
  ].join('\n');
}
