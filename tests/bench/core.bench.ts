import { cm, layerMap, mm, percent, ratio, stripLength } from 'swathe';
import { expect, test } from 'vitest';
import { Sampler, type Wrap } from '../checks/sampler.ts';
import { beside } from './beside.ts';

const wrap: Wrap = {
  limb: [
    [0, 240],
    [80, 215],
    [220, 345],
    [340, 362],
  ],
  from: 5,
  to: 330,
  width: 100,
  overlap: 0.5,
  keeps: 'overlap',
  passes: 1,
  startTurns: 2,
  endTurns: 2,
  extra: [],
};
const given = {
  stations: wrap.limb.map(([at, girth]) => ({ at: mm(at), girth: mm(girth) })),
  from: mm(wrap.from),
  to: mm(wrap.to),
  width: mm(wrap.width),
  overlap: ratio(wrap.overlap),
  keeps: wrap.keeps,
  passes: wrap.passes,
  startTurns: wrap.startTurns,
  endTurns: wrap.endTurns,
  extra: [],
  stretch: percent(0),
  wanted: { least: 2, most: 4 },
};

/** Bands found point by point, a tenth of a millimetre along and a degree round: that is how exactly it knows an edge. */
function sampled(): number {
  const sampler = new Sampler(wrap);
  let bands = 0;
  let before = '';
  for (let along = sampler.start; along < sampler.end; along += 0.1) {
    let [least, most] = [Number.POSITIVE_INFINITY, 0];
    for (let degree = 0; degree < 360; degree++) {
      const layers = sampler.layers(along, degree / 360, []);
      least = Math.min(least, layers);
      most = Math.max(most, layers);
    }
    if (`${least} ${most}` !== before) bands += 1;
    before = `${least} ${most}`;
  }
  return bands;
}

test('layer map beside counting layers point by point', async ({ bench }) => {
  const faster = await beside(bench, ['layerMap', () => layerMap.compute(given)], ['the sampler', sampled]);
  expect(faster).toBeGreaterThan(0);
});

const strip = { girth: cm(16.5), advance: mm(38.1), turns: 6 };

test('bare arithmetic of a formula beside the same written out', async ({ bench }) => {
  const { compute } = stripLength;
  const byHand = ({ girth, advance, turns }: typeof strip): number =>
    turns * Math.sqrt(girth * girth + advance * advance);
  const limbs = Array.from({ length: 1000 }, (_, n) => ({ ...strip, girth: cm(10 + n / 50) }));
  // A loop each: one that both went through would be compiled for neither.
  const ours = (): number => {
    let sum = 0;
    for (const limb of limbs) sum += compute(limb);
    return sum;
  };
  const theirs = (): number => {
    let sum = 0;
    for (const limb of limbs) sum += byHand(limb);
    return sum;
  };
  await beside(bench, ['stripLength.compute', ours], ['the same by hand', theirs]);
});

test('an answer, with its record, beside the parse of its input alone', async ({ bench }) => {
  const [answer, { input }] = [stripLength, stripLength];
  await beside(
    bench,
    ['stripLength', () => answer(strip)],
    ['zod parsing its input', () => input.parse(strip)],
  );
});
