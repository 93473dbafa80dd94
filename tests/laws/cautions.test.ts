import fc from 'fast-check';
import {
  type Caution,
  celsius,
  dipWater,
  edgeMismatch,
  geodesicAdvance,
  heatCaution,
  minutes,
  mm,
  percent,
  ratio,
  seconds,
  setTimes,
  slabShare,
} from 'swathe';
import { describe, expect, test } from 'vitest';
import { answered, formulas, runsOf } from '../generators.ts';

test.each(formulas.filter(({ formula }) => formula.definition.cautions))(
  '$id: each caution has a code, a level, and words with their numbers',
  ({ formula }) => {
    fc.assert(
      fc.property(answered(formula), (inputs) => {
        for (const { code, level, says, because } of formula(inputs).cautions as readonly Caution[]) {
          expect(code).toMatch(/^[a-z]+(-[a-z]+)*$/);
          expect(['info', 'warning']).toContain(level);
          expect(says.length).toBeGreaterThan(10);
          expect(because).not.toMatch(/^$|NaN|Infinity|undefined|null|\[object/);
        }
      }),
      { numRuns: runsOf(formula) },
    );
  },
);

const told = (cautions: readonly Caution[] = []) =>
  cautions.map(({ code, because }) => `${code}: ${because}`);

describe('a limit is passed, not met, and told beside what passes it', () => {
  test('edges that are strained', () => {
    const { definition } = edgeMismatch;
    const at = (strain: number) =>
      told(
        definition.cautions?.(
          { takes: ratio(0.3) } as never,
          { strainAtNarrowest: strain } as never,
          {} as never,
        ),
      );
    expect([at(0.2), at(0.3)]).toEqual([[], []]);
    expect(at(0.31)).toEqual(['wrinkle: plus and minus 31 % where the limb is thinnest, 30 % taken']);
  });

  test('a slab that goes round too far', () => {
    const { definition, numbers } = slabShare;
    const bowl = 100 * numbers.bowl;
    const at = (share: number) =>
      told(definition.cautions?.({} as never, { atNarrowest: share } as never, numbers));
    expect([at(0.2), at(numbers.bowl)]).toEqual([[], []]);
    expect(at(0.9)).toEqual([
      `slab-covers-too-much: 90 % of the girth where the limb is thinnest, at most ${bowl} % published`,
    ]);
  });
});

describe('a flat bandage', () => {
  const lay = (first: number, last: number, apart: number, overlap: number) => {
    const { value, cautions } = geodesicAdvance({
      first: mm(first),
      last: mm(last),
      apart: mm(apart),
      width: mm(75),
      overlap: percent(overlap),
    });
    return { gap: value.gap.kind, end: value.end.kind, value, told: told(cautions) };
  };

  test('on a cylinder neither draws apart nor turns back, and nothing is told', () => {
    expect(lay(200, 200, 300, 50)).toMatchObject({ gap: 'none', end: 'reaches the other end', told: [] });
  });

  test('up a taper it draws apart, and that is told', () => {
    const { gap, end, told, value } = lay(170, 260, 200, 10);
    expect([gap, end]).toEqual(['opens', 'reaches the other end']);
    expect(told).toEqual([
      `turns-draw-apart: a gap after ${value.gap.kind === 'opens' && Number(value.gap.after.toPrecision(3))} turns`,
    ]);
  });

  test('down a taper it turns back, and no gap opens', () => {
    const { gap, end, told, value } = lay(260, 170, 200, 80);
    expect([gap, end]).toEqual(['none', 'turns back']);
    // Here it lays four whole turns before it does.
    expect(lay(260, 250, 300, 50)).toMatchObject({ gap: 'none', end: 'turns back' });
    expect(lay(260, 250, 300, 50).value.turns).toHaveLength(4);
    expect(told).toEqual([`turns-back: after ${Number(value.end.turns.toPrecision(3))} turns`]);
  });

  test('a gap is told only where the turn after it is still laid, and where no turn is laid that is told', () => {
    for (const apart of [50, 80, 120, 160, 200, 300, 500])
      for (const overlap of [5, 20, 35, 50]) {
        const { gap, end } = lay(170, 170 + apart / 3, apart, overlap).value;
        if (gap.kind === 'opens') expect(gap.after + 1).toBeLessThanOrEqual(end.turns);
      }
    const because = (apart: number) => {
      const { gap } = lay(300, 305, apart, 50).value;
      return gap.kind === 'none' && gap.because;
    };
    expect(because(20)).toBe('not one whole turn is laid');
    expect(because(300)).toBe('the turns that are laid are never a width apart');
  });
});

describe('dip water', () => {
  const told = (material: 'plaster' | 'fibreglass', water: number) =>
    dipWater({ material, water: celsius(water) }).cautions.map(
      ({ code, level, sources }) => `${code} (${level}): ${sources.join(', ')}`,
    );

  test('within what is advised nothing is told', () => {
    for (const water of [20, 22, 24]) expect(told('plaster', water)).toEqual([]);
    for (const water of [15, 20, 27]) expect(told('fibreglass', water)).toEqual([]);
  });

  test('past a limit those sources are named whose own limit is passed', () => {
    expect(told('plaster', 24.5)).toEqual(['dip-above-limit (warning): lavalette-1982-setting']);
    expect(told('plaster', 40)[0]).toMatch(/ekanayake-2023-revolution.*lavalette-1982-setting/);
    expect(told('fibreglass', 27.5)).toEqual(['dip-above-limit (warning): ekanayake-2023-revolution']);
    expect(told('fibreglass', 14.5)).toEqual(['dip-below-range (info): ekanayake-2023-revolution']);
    // Who gives an upper limit alone advises nothing about cold water.
    expect(told('plaster', 5)[0]).toMatch(/^dip-below-range \(info\): (?!.*lavalette)/);
  });

  test('shifts the times to set, told by the material that is dipped', () => {
    const times = (material: 'fast plaster' | 'slow plaster' | 'fibreglass', dip?: number) =>
      setTimes({ material, ...(dip !== undefined && { dip: celsius(dip) }) }).cautions.map(
        ({ code, because }) => `${code}: ${because}`,
      );
    expect([times('fast plaster'), times('fast plaster', 22), times('fibreglass', 26)]).toEqual([[], [], []]);
    expect(times('fast plaster', 26)).toEqual(['sets-sooner: water 26 °C, advised 20 to 24 °C']);
    expect(times('fibreglass', 28)).toEqual(['sets-sooner: water 28 °C, advised 15 to 27 °C']);
    expect(times('fibreglass', 14)).toEqual(['sets-later: water 14 °C, advised 15 to 27 °C']);
    const sources = (material: 'fast plaster' | 'fibreglass') =>
      setTimes({ material, dip: celsius(40) }).cautions[0]?.sources;
    expect(sources('fibreglass')).toEqual(['raphael-2018-ice']);
    expect(sources('fast plaster')).toContain('conroy-2007-optimal');
    expect(times('slow plaster', 10).map((says) => says.split(':')[0])).toEqual([
      'sets-later',
      'plain-plaster-hardly-shifts',
    ]);
  });
});

describe('heat', () => {
  const bare = {
    material: 'fast plaster',
    plies: 8,
    folded: false,
    dip: celsius(22),
    usedWater: false,
    cover: 'bare',
    overwrap: 'none',
    age: 'adult',
    reducedSensation: false,
  } as const;
  type Given = Parameters<typeof heatCaution>[0];
  const told = (change: Partial<Given>) => {
    const { value, cautions } = heatCaution({ ...bare, ...change } as Given);
    return [value.class, ...cautions.map(({ code, level }) => `${code} (${level})`)];
  };

  test('nothing met, nothing told', () => {
    expect(told({})).toEqual(['no trigger met']);
  });

  test('each rule alone, and what it leads to', () => {
    expect(told({ dip: celsius(24.5) })).toEqual(['raised', 'dip-above-limit (warning)']);
    expect(told({ usedWater: true })).toEqual(['raised', 'water-used (warning)']);
    expect(told({ plies: 20 })).toEqual(['no trigger met', 'many-plies (info)']);
    expect(told({ plies: 20, cover: 'pillow' })).toEqual(['raised', 'many-plies-covered (warning)']);
    expect(told({ cover: 'pillow' })).toEqual(['raised', 'covered-while-setting (warning)']);
    expect(told({ overwrap: 'before it has cooled' })).toEqual(['raised', 'wrapped-before-cool (warning)']);
    expect(told({ overwrap: 'after it has cooled' })).toEqual(['no trigger met']);
    for (const age of ['infant', 'child', 'older adult'] as const)
      expect(told({ age })).toEqual(['raised', 'skin-more-sensitive (warning)']);
    expect(told({ age: 'adolescent' })).toEqual(['no trigger met']);
    expect(told({ reducedSensation: true })).toEqual(['raised', 'cannot-report-pain (warning)']);
    expect(told({ material: 'fibreglass', plies: 20 })).toEqual([
      'no trigger met',
      'fibreglass-upper-bound (info)',
    ]);
  });

  test('which cover it lies under decides which studies are named', () => {
    const sources = (cover: 'elastic' | 'blanket') => heatCaution({ ...bare, cover }).cautions[0]?.sources;
    expect(sources('elastic')).toEqual(['gannaway-1983-thermal']);
    expect(sources('blanket')).toContain('halanski-2007-thermal');
    const dip = (material: 'fast plaster' | 'fibreglass') =>
      heatCaution({ ...bare, material, dip: celsius(40) }).cautions[0]?.sources;
    expect(dip('fibreglass')).toEqual(['ekanayake-2023-revolution']);
    expect(dip('fast plaster')).toContain('lavalette-1982-setting');
  });

  test('the computed band is told in whole minutes and tenths of a degree, never more than it is', () => {
    const band = (skin: number, above49: number) =>
      heatCaution({ ...bare, band: { skin: celsius(skin), above49: seconds(above49) } }).cautions.map(
        ({ because }) => because,
      );
    const { hotSkin, hotFor } = heatCaution.numbers;
    expect(band(hotSkin - 0.1, hotFor)).toEqual([]);
    expect(band(hotSkin, 0)).toEqual([
      `1 in 20 computed courses goes above ${hotSkin} °C on the skin; ${hotSkin} °C`,
    ]);
    expect(band(51.27, 0)[0]).toContain('above 51.2 °C');
    const over = hotFor + minutes(1.5);
    expect(band(20, over)).toEqual([
      `1 in 20 computed courses stays above 49 °C for more than ${hotFor / 60 + 1} min; limit ${hotFor / 60} min`,
    ]);
  });

  test('only fibreglass has a bound with no heat lost', () => {
    const bound = (material: 'fast plaster' | 'fibreglass') =>
      heatCaution({ ...bare, material }).value.bound.kind;
    expect([bound('fast plaster'), bound('fibreglass')]).toEqual(['modelled', 'no heat lost']);
  });
});
