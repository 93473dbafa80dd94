import fc from 'fast-check';
import { type Caution, edgeMismatch, geodesicAdvance, mm, percent, ratio, slabShare } from 'swathe';
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
