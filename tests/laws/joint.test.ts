import { InputError } from 'swathe';
import { catalog } from 'swathe/catalog';
import { describe, expect, test } from 'vitest';

type Held = Readonly<Record<string, unknown>>;

/** What a call is refused for beyond the limits of each input, and what it says it got. */
function refusedFor(id: string, inputs: Held): string[] {
  const formula = catalog.find((one) => one.id === id);
  if (!formula) throw new Error(`no formula ${id}`);
  try {
    formula(inputs);
    return [];
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return error.faults.map(({ input, fault, got }) => `${input} ${fault}: ${got}`);
  }
}

const cone = { first: 100, last: 200, apart: 10, width: 30, leadAngle: 0, takes: 0.05 };
const mass = { area: 1e6, arealMass: 400, water: 0.5, bound: 0.2 };
const fabric = { plies: 8, width: 100, length: 60, corner: 10 };
const roll = { outer: 50, core: 20, thickness: 1 };
const left = { now: { kind: 'diameter', diameter: 40 }, core: 20, outerNew: 50, lengthNew: 3000 };
const stations = [
  { at: 0, girth: 170 },
  { at: 100, girth: 200 },
  { at: 200, girth: 260 },
];
const twice = [...stations, { at: 200, girth: 270 }];
const outOfOrder = 'stations joint: station 4 at 200 mm after one at 200 mm';
const piece = {
  what: 'slab',
  material: 'plaster',
  width: 100,
  length: 340,
  pieces: 8,
  joins: false,
  wider: true,
};
const wrap = { ...piece, joins: true, makeUp: 'nearest' };
const stock = [{ material: 'plaster', width: 100, length: 2750, onHand: 6 }];
const history = [
  { time: 0, temperature: 44 },
  { time: 60, temperature: 45 },
  { time: 120, temperature: 44 },
];
const back = [...history, { time: 120, temperature: 44 }];
const notOn = 'history joint: time 120 s after 120 s';
const map = {
  stations,
  from: 0,
  to: 200,
  width: 75,
  overlap: 0.5,
  keeps: 'overlap',
  passes: 2,
  startTurns: 0,
  endTurns: 0,
  stretch: 0,
  extra: [],
  wanted: { least: 2, most: 6 },
};
const there = { at: 0, hand: 'right' };
const dense = { ...map, width: 10, overlap: 0.95 };

describe.each<[id: string, possible: Held, refused: readonly (readonly [change: Held, says: string])[]]>([
  [
    'coverage.helix',
    { girth: 100, width: 99.9, overlap: 0 },
    [
      [{ width: 100 }, 'overlap joint: turns 100 mm apart round 100 mm'],
      [{ overlap: -0.5, width: 80 }, 'overlap joint: turns 120 mm apart round 100 mm'],
      [{ overlap: 0.5, width: 240 }, 'overlap joint: turns 120 mm apart round 100 mm'],
    ],
  ],
  [
    'coverage.geodesic-advance',
    { first: 100, last: 120, apart: 200, width: 99.9, overlap: 0 },
    [
      [{ width: 100 }, 'overlap joint: turns 100 mm apart round 100 mm'],
      [{ overlap: -0.5, width: 80 }, 'overlap joint: turns 120 mm apart round 100 mm'],
      [{ overlap: 0.5, width: 240 }, 'overlap joint: turns 120 mm apart round 100 mm'],
    ],
  ],
  [
    'coverage.overlap-for',
    { wanted: 40, passes: 2, girth: 50, width: 100 },
    [
      [{ wanted: 41 }, 'passes joint: 2 for 41 layers'],
      [{ wanted: 4 }, 'width joint: turns 50 mm apart round 50 mm'],
      [{ wanted: 2 }, 'width joint: turns 100 mm apart round 50 mm'],
    ],
  ],
  [
    'coverage.edge-mismatch',
    cone,
    // The thin end decides: sine 0.84674, so pi times 50 times it over 100; at the thick end it is half of that.
    [[{ width: 50 }, 'width joint: 50 mm, 1.3300']],
  ],
  ['coverage.slab-share', { stations, width: 100 }, [[{ stations: twice }, outOfOrder]]],
  [
    'coverage.layer-map',
    map,
    [
      [{ stations: twice }, outOfOrder],
      [{ from: 130 }, 'from joint: 70 mm for a width of 75 mm'],
      [{ to: 201 }, 'to joint: 201 mm on a limb measured from 0 to 200 mm'],
      [{ from: -1 }, 'to joint: -1 mm on a limb measured from 0 to 200 mm'],
      [{ extra: [{ at: 201, turns: 1 }] }, 'to joint: 201 mm on a limb measured from 0 to 200 mm'],
      [{ width: 185, overlap: 0.05 }, 'overlap joint: 185 mm at an overlap of 5 % round 170 mm'],
      [{ phases: [{ at: 0, hand: 'right' }] }, 'phases joint: 1 for 2 passes'],
      // Three times 400 turns, half a millimetre apart.
      [{ ...dense, passes: 3, phases: Array(3).fill(there) }, 'phases joint: told for 1200'],
      [{ wanted: { least: 3, most: 2 } }, 'wanted joint: fewest 3, most 2'],
    ],
  ],
  ['layers.cast-mass', { ...mass, bound: 0.5 }, [[{ bound: 0.6 }, 'bound joint: 0.6 bound of 0.5']]],
  [
    'layers.fabric-area',
    { ...fabric, corner: 30 },
    [
      [{ corner: 31 }, 'corner joint: 31 mm on 100 by 60 mm'],
      [{ corner: 31, width: 60, length: 100 }, 'corner joint: 31 mm on 60 by 100 mm'],
    ],
  ],
  [
    'layers.rounded-ends',
    { plies: 8, width: 100, length: 70, proximal: 50, distal: 20 },
    [
      [{ proximal: 51, distal: 0 }, 'proximal joint: 51 mm on a width of 100 mm'],
      [{ proximal: 0, distal: 51 }, 'distal joint: 51 mm on a width of 100 mm'],
      [{ distal: 21 }, 'length joint: 70 mm for radii of 50 and 21 mm'],
    ],
  ],
  [
    'roll.wound-length',
    { ...roll, core: 50 - 2 * roll.thickness },
    [
      [{ core: 50 }, `core joint: core 50 mm and turns of ${roll.thickness} mm in a roll of 50 mm`],
      [{ core: 60 }, `core joint: core 60 mm and turns of ${roll.thickness} mm in a roll of 50 mm`],
      [{ core: 12, thickness: 19.1 }, 'core joint: core 12 mm and turns of 19.1 mm in a roll of 50 mm'],
    ],
  ],
  [
    'roll.effective-thickness',
    { outer: 50, core: 49.9, length: 3000 },
    [
      [{ core: 50 }, 'core joint: core 50 mm in a roll of 50 mm'],
      [{ core: 60 }, 'core joint: core 60 mm in a roll of 50 mm'],
    ],
  ],
  [
    'roll.length-left',
    left,
    [
      [{ now: { kind: 'diameter', diameter: 19 } }, 'now joint: 19 mm across'],
      [{ now: { kind: 'diameter', diameter: 51 } }, 'now joint: 51 mm across'],
      [{ now: { kind: 'diameter', diameter: 50 }, core: 50 }, 'core joint: core 50 mm in a roll of 50 mm'],
    ],
  ],
  [
    'roll.take-off',
    { needs: [piece, wrap], stock },
    [
      [{ needs: [wrap, { ...wrap, joins: false }] }, 'needs joint: line 2, which may not be joined'],
      [{ needs: [{ ...wrap, joins: false }, wrap] }, 'needs joint: line 1, which may not be joined'],
    ],
  ],
  ['segment.girth-profile', { stations }, [[{ stations: twice }, outOfOrder]]],
  [
    'segment.girth-at',
    { stations, at: 200 },
    [
      [{ at: 201 }, 'at joint: 201 mm'],
      [{ at: -1 }, 'at joint: -1 mm'],
      [{ stations: twice }, outOfOrder],
    ],
  ],
  [
    'segment.slice-profile',
    { stations, from: 0, to: 200 },
    [
      [{ from: -1 }, 'from joint: -1 mm'],
      [{ to: 201 }, 'to joint: 201 mm'],
      [{ from: 50, to: 50 }, 'to joint: 50 mm, beginning at 50 mm'],
      [{ stations: twice }, outOfOrder],
    ],
  ],
  [
    'segment.cut-length',
    { path: 100, times: 1, distal: -49, proximal: -50 },
    [
      [{ distal: -50 }, 'path joint: 100 mm'],
      [{ times: 2, distal: -150 }, 'path joint: 100 mm'],
    ],
  ],
  ['setting.equivalent-minutes', { history }, [[{ history: back }, notOn]]],
])('%s', (id, possible, refused) => {
  test('answers at the edge of what is possible together', () => {
    expect(refusedFor(id, possible)).toEqual([]);
  });

  test.each(refused)('and refuses %j', (change, says) => {
    const got = refusedFor(id, { ...possible, ...change });
    expect(got).toHaveLength(1);
    expect(got[0]).toContain(says);
  });
});

test('how passes lie may be told of eight hundred turns, and of any number it may be left open', () => {
  expect(refusedFor('coverage.layer-map', { ...dense, phases: [there, there] })).toEqual([]);
  const half = { from: 100, passes: 3, phases: [there, there, there] };
  expect(refusedFor('coverage.layer-map', { ...dense, ...half })).toEqual([]);
  expect(refusedFor('coverage.layer-map', { ...dense, passes: 12 })).toEqual([]);
});

test('a path that is taken twice leaves more to cut', () => {
  expect(refusedFor('segment.cut-length', { path: 100, times: 2, distal: -149, proximal: -50 })).toEqual([]);
});

test('a roll can be read as the core alone, and as wide as when new', () => {
  const at = (diameter: number) =>
    refusedFor('roll.length-left', { ...left, now: { kind: 'diameter', diameter } });
  expect([20, 50].flatMap(at)).toEqual([]);
});
