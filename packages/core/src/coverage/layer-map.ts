import { formula } from '../formula.ts';
import { amount, choice, count, group, length, list, optional, share } from '../measure.ts';
import { cm, ratio } from '../quantity.ts';
import { girthBetween } from '../segment/frustum.ts';
import { outOfOrder, type Station, stations } from '../segment/profile.ts';
import { overlap, width } from './bandage.ts';
import { courseAlong, type Lay } from './course.ts';
import { type Band, type Cover, levelsOf, type Phase } from './levels.ts';

const position = (says: string, symbol: string) => length(says, { symbol, possible: [cm(-150), cm(150)] });

const turns = (says: string, symbol: string) => count(says, { symbol, possible: [0, 12] });

const zones = list(
  group({
    from: length('start, along the limb'),
    to: length('end, along the limb'),
    least: count('fewest layers round the limb here'),
    most: count('most layers round the limb here'),
  }),
  [0, 10_000],
);

/** Every two edges of all turns are compared: of far more turns than anybody lays that would take minutes. */
const mostTold = 1000;

/**
 * What is kept from turn to turn, as it is at the beginning: on a taper only a kept overlap stays one.
 */
function layOf({ overlap, keeps, width, from, stations }: Beginning): Lay {
  const spacing = width * (1 - overlap);
  if (keeps === 'overlap') return { keeps: 'spacing', spacing };
  const sine = spacing / girthBetween(stations, from);
  if (keeps === 'lead angle') return { keeps: 'angle', sine };
  return { keeps: 'advance', advance: spacing / Math.sqrt(1 - sine * sine) };
}

interface Beginning {
  readonly overlap: number;
  readonly keeps: 'overlap' | 'advance' | 'lead angle';
  readonly width: number;
  readonly from: number;
  readonly stations: readonly Station[];
}

/**
 * Layers of a bandage along a tapering limb, with circular turns at the ends and elsewhere.
 *
 * On a helix the count also varies round the limb, so each band says the fewest and the most. Where several passes meet
 * it depends on how they lie to each other: without `phases` the fewest and the most hold for any placing.
 *
 * @throws InputError when the wrap leaves the measured limb, is shorter than the bandage is wide, or cannot follow its taper
 * @example
 * layerMap({
 *   stations: [{ at: cm(0), girth: cm(17) }, { at: cm(20), girth: cm(26) }],
 *   from: cm(0), to: cm(20), width: cm(7.5), overlap: percent(50), keeps: 'overlap',
 *   passes: 1, startTurns: 2, endTurns: 2, extra: [], stretch: percent(0), wanted: { least: 2, most: 4 },
 * }).value.thin // []
 */
export const layerMap = /* @__PURE__ */ formula({
  id: 'coverage.layer-map',
  revision: 1,
  basis: 'numerical',
  inputs: {
    stations,
    from: position('where the wrap begins', 'x_0'),
    to: position('where the wrap ends', 'x_1'),
    width,
    overlap,
    keeps: choice('what is kept from turn to turn, from how it is at the beginning', [
      'overlap',
      'advance',
      'lead angle',
    ]),
    passes: count('passes, up or down', { symbol: 'k', possible: [1, 12] }),
    phases: optional(
      list(
        group({
          at: share('where round the limb the pass begins, in turns', { possible: [ratio(0), ratio(1)] }),
          hand: choice('which way round it goes', ['right', 'left']),
        }),
        [1, 12],
      ),
    ),
    startTurns: turns('circular turns at the beginning', 'n_0'),
    endTurns: turns('circular turns at the end', 'n_1'),
    extra: list(
      group({ at: position('middle of the turns', 'x_e'), turns: turns('circular turns here', 'n_e') }),
      [0, 40],
    ),
    stretch: share('how much longer the bandage lies than it comes off the roll', {
      symbol: 'e',
      possible: [ratio(0), ratio(3)],
    }),
    wanted: group({
      least: count('fewest layers wanted', { possible: [0, 60] }),
      most: count('most layers wanted', { possible: [1, 60] }),
    }),
  },
  joint: [
    {
      input: 'stations',
      possible: 'each station farther along the limb than the one before',
      breach: (i) => outOfOrder(i.stations),
    },
    {
      input: 'from',
      possible: 'a wrap at least one width long',
      breach: ({ from, to, width }) =>
        to - from >= width ? undefined : `${to - from} mm for a width of ${width} mm`,
    },
    {
      input: 'to',
      possible: 'a wrap, and extra turns, within the measured limb',
      breach: ({ from, to, extra, stations }) => {
        const [first, last] = [stations[0]?.at ?? 0, stations.at(-1)?.at ?? 0];
        const outside = [from, to, ...extra.map((e) => e.at)].find((x) => x < first || x > last);
        return outside === undefined
          ? undefined
          : `${outside} mm on a limb measured from ${first} to ${last} mm`;
      },
    },
    {
      input: 'overlap',
      possible: 'turns closer together than the limb is round, on a taper that the bandage can follow',
      breach: (i) => {
        if (courseAlong(i.stations, i.width, layOf(i)).follows) return undefined;
        return `${i.width} mm at an overlap of ${i.overlap * 100} % round ${Math.min(...i.stations.map((s) => s.girth))} mm`;
      },
    },
    {
      input: 'phases',
      possible: 'one for each pass',
      breach: ({ phases, passes }) =>
        phases === undefined || phases.length === passes
          ? undefined
          : `${phases.length} for ${passes} passes`,
    },
    {
      input: 'phases',
      possible: `told for at most ${mostTold} turns in all`,
      breach: (i) => {
        if (!i.phases) return undefined;
        const course = courseAlong(i.stations, i.width, layOf(i));
        const turns =
          i.passes * (course.turns(course.alongSkin(i.to)) - course.turns(course.alongSkin(i.from)));
        return turns > mostTold ? `told for ${Number(turns.toPrecision(3))}` : undefined;
      },
    },
    {
      input: 'wanted',
      possible: 'fewest not above most',
      breach: ({ wanted }) =>
        wanted.least <= wanted.most ? undefined : `fewest ${wanted.least}, most ${wanted.most}`,
    },
  ],
  constants: {
    seam: {
      printed: '1',
      unit: 'mm',
      symbol: 's',
      says: 'narrowest seam, along the limb, that counts as a layer less or more: no tape is laid more exactly',
      status: 'assumed',
    },
  },
  steps: {
    spacing: length('distance between turns, square to the edge', { symbol: 'q' }),
    helicalTurns: amount('helical turns in one pass', { symbol: 'N' }),
    helicalLength: length('bandage that the helical turns of one pass lay', { symbol: 'l_h' }),
    circularLength: length('bandage that the circular turns lay', { symbol: 'l_c' }),
  },
  output: group({
    bands: list(
      group({
        from: length('start, along the limb'),
        to: length('end, along the limb'),
        least: count('fewest layers round the limb here'),
        most: count('most layers round the limb here'),
        mean: amount('layers, averaged round and along the limb here'),
      }),
      [1, 10_000],
    ),
    least: count('fewest layers anywhere'),
    most: count('most layers anywhere'),
    mean: amount('layers, averaged along the limb'),
    thin: zones,
    thick: zones,
    turns: amount('turns, helical and circular'),
    length: length('length of bandage as it lies', { symbol: 'l' }),
    offRoll: length('length of bandage as it comes off the roll', { symbol: 'l_r' }),
  }),
  sources: ['derivation.unrolled-helix'],
  compute: (i, c, step) => {
    step('spacing', i.width * (1 - i.overlap));
    const course = courseAlong(i.stations, i.width, layOf(i));
    const [start, end] = [course.alongSkin(i.from), course.alongSkin(i.to)];
    // The helix leaves the last turn of the start where that turn's far edge lies, and meets the end's near edge: on a wrap
    // at least one width long never before, since the bandage reaches farther along the limb where it climbs.
    const first = course.centreOfFarEdge(start + i.width);
    const last = course.centreOfNearEdge(end - i.width);
    const ends = [
      { at: start + i.width / 2, turns: i.startTurns },
      { at: end - i.width / 2, turns: i.endTurns },
    ];
    const circles = [...ends, ...i.extra.map((e) => ({ at: course.alongSkin(e.at), turns: e.turns }))];

    const helicalTurns = step('helicalTurns', course.turns(last) - course.turns(first));
    const helicalLength = step('helicalLength', course.length(first, last));
    const circularLength = step(
      'circularLength',
      circles.reduce((sum, { at, turns }) => sum + turns * course.girth(at), 0),
    );
    const length = i.passes * helicalLength + circularLength;

    const covers: Cover[] = circles
      .filter(({ turns }) => turns > 0)
      .map(({ at, turns }) => ({ from: at - i.width / 2, to: at + i.width / 2, turns }));
    const phases = i.phases?.map(({ at, hand }): Phase => ({ at, hand: hand === 'right' ? 1 : -1 }));
    const bands = levelsOf({
      course,
      first,
      last,
      passes: i.passes,
      phases,
      covers,
      start,
      end,
      seam: c.seam,
    });

    const zonesOf = (is: (band: Band) => boolean) => {
      const zones: { from: number; to: number; least: number; most: number }[] = [];
      for (const { from, to, least, most } of bands.filter(is)) {
        const before = zones.at(-1);
        if (before?.to === from)
          zones[zones.length - 1] = {
            from: before.from,
            to,
            least: Math.min(before.least, least),
            most: Math.max(before.most, most),
          };
        else zones.push({ from, to, least, most });
      }
      return zones;
    };
    const onAxis = <Z extends { from: number; to: number }>(zone: Z): Z => ({
      ...zone,
      from: course.alongAxis(zone.from),
      to: course.alongAxis(zone.to),
    });

    return {
      bands: bands.map(onAxis),
      least: Math.min(...bands.map((b) => b.least)),
      most: Math.max(...bands.map((b) => b.most)),
      mean: bands.reduce((sum, b) => sum + b.mean * (b.to - b.from), 0) / (end - start),
      thin: zonesOf((b) => b.least < i.wanted.least).map(onAxis),
      thick: zonesOf((b) => b.most > i.wanted.most).map(onAxis),
      turns: i.passes * helicalTurns + circles.reduce((sum, { turns }) => sum + turns, 0),
      length,
      offRoll: length / (1 + i.stretch),
    };
  },
});
